"""The picture of a curve with readings: well-formed, in place, readable without colour, and safe to embed."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ElementTree

import pytest

from expert.trade.figures.plots import (
    HEIGHT,
    NTC_10K,
    NTC_50K,
    WIDTH,
    Curve,
    Point,
    draw,
    platinum_curve,
    steam_curve,
    thermistor_curve,
)

SVG = "{http://www.w3.org/2000/svg}"
CURVES = [steam_curve(), steam_curve(2000.0), platinum_curve(), platinum_curve(1000.0), NTC_10K, NTC_50K]
CURVES.append(thermistor_curve(10000.0, 3977.0))


def polyline(svg: str) -> list[tuple[float, float]]:
    line = ElementTree.fromstring(svg).find(f"{SVG}polyline")
    assert line is not None
    return [tuple(map(float, pair.split(","))) for pair in line.attrib["points"].split()]  # type: ignore[misc]


@pytest.mark.parametrize("curve", CURVES, ids=lambda curve: curve.title)
def test_every_curve_is_well_formed_and_inside_the_paper(curve: Curve) -> None:
    line = polyline(draw(curve))
    assert len(line) == 61
    assert all(0 <= x <= WIDTH and 0 <= y <= HEIGHT for x, y in line)
    assert [x for x, _ in line] == sorted(x for x, _ in line)


def test_hotter_steam_is_drawn_higher_and_a_hotter_thermistor_lower() -> None:
    steam = [y for _, y in polyline(draw(steam_curve()))]
    thermistor = [y for _, y in polyline(draw(NTC_10K))]
    assert steam == sorted(steam, reverse=True)  # y runs down the paper
    assert thermistor == sorted(thermistor)


def test_a_reading_on_the_curve_is_drawn_on_the_curve() -> None:
    svg = draw(steam_curve(), [Point(1.25, steam_curve().call(1.25), "boiler gauge")])
    middle = polyline(svg)[30]  # 1.25 bar is half way from 0 to 2.5
    cross = f"M{middle[0] - 5:.1f} {middle[1]:.1f}h10M{middle[0]:.1f} {middle[1] - 5:.1f}v10"
    assert cross in svg


def test_readings_are_told_in_words() -> None:
    svg = draw(steam_curve(), [Point(1.0, 91.8, "gauge with air shut in"), Point(1.2, 123.4, "after bleeding")])
    root = ElementTree.fromstring(svg)
    described = root.find(f"{SVG}desc")
    assert described is not None
    assert described.text == "gauge with air shut in: 1, 91.8; after bleeding: 1.2, 123.4"
    assert [text.text for text in root.iter(f"{SVG}text")][-2:] == ["gauge with air shut in", "after bleeding"]


def test_no_readings_says_so() -> None:
    described = ElementTree.fromstring(draw(NTC_10K)).find(f"{SVG}desc")
    assert described is not None
    assert described.text == "no readings"


def test_a_reading_beyond_the_source_widens_the_paper_but_not_the_curve() -> None:
    line = polyline(draw(NTC_50K, [Point(160.0, 900.0, "sensor")]))
    across_125 = 56 + (125 - 10) / (160 - 10) * (WIDTH - 56 - 14)
    assert line[-1][0] <= across_125 + 0.1


def test_words_cannot_break_out_of_the_picture() -> None:
    svg = draw(NTC_10K, [Point(20.0, 12000.0, '<script>alert("x")</script>')])
    assert "<script" not in svg
    assert ElementTree.fromstring(svg) is not None


def test_nothing_is_fetched_and_nothing_rests_on_colour() -> None:
    svg = draw(steam_curve(), [Point(1.0, 120.4, "gauge")])
    assert "http" not in svg.replace("http://www.w3.org/2000/svg", "")
    assert "#" not in svg
    assert "rgb" not in svg


@pytest.mark.parametrize("value", [math.inf, math.nan], ids=str)
def test_over_range_cannot_be_drawn(value: float) -> None:
    with pytest.raises(ValueError, match=r"^reading 'sensor' is not a finite number and cannot be drawn$"):
        draw(NTC_10K, [Point(20.0, value, "sensor")])
