"""Plates with a range of voltages, with pairs of powers, and plates whose parts exceed the whole."""

from __future__ import annotations

import pytest

from tests.dialogue.shipped_desk import ShippedDesk

MIDDLE = "rated_voltage: a range with one power, so the power goes with its middle: 230 V."


TWO_POWERS = (
    "element_power: of two powers each goes with a voltage of its own, the lower with the lower. "
    "Type the range of voltages first, such as: rated_voltage 220-240 V. Or one pair: "
)


def told(*lines: str) -> tuple[list[str], dict[str, float]]:
    """What was told after the last line at the plate prompt, and the voltage and power that hold then."""
    desk = ShippedDesk()
    said = desk.type("Ann", "1", *lines)
    assert desk.job.machine is not None
    plate = desk.job.machine.plate
    first = [line for line in said if not line.startswith(("Compare", "  "))]
    return first, {name: plate[name].value for name in ("rated_voltage", "element_power")}


# One power with a range of voltages goes with the mean of the range: IEC 60335-1, 5.8.4 (as quoted). A pair of powers
# goes with the pair of limits: 220-240 V, 1850-2200 W is 26.16 and 26.18 ohm, mean 26.17, so 2021 W at 230 V.
RANGES = [
    pytest.param(("rated_voltage 220-240 V",), [MIDDLE], (230.0, 1400.0), id="a range"),
    pytest.param(("rated_voltage 220 – 240V",), [MIDDLE], (230.0, 1400.0), id="with a long dash"),
    pytest.param(("rated_voltage 220 to 240 V",), [MIDDLE], (230.0, 1400.0), id="in words"),
    pytest.param(("rated_voltage 220/240 V",), [MIDDLE], (230.0, 1400.0), id="with a stroke"),
    pytest.param(
        ("rated_voltage 220-240 V", "rated_power 2300 W", "element_power 1850-2200 W"),
        ["element_power: 1850 W at 220 V and 2200 W at 240 V agree. That is 2021 W at 230 V."],
        (230.0, 2021.2),
        id="a pair of powers",
    ),
    pytest.param(
        ("rated_voltage 220-240 V", "element_power 1300-1500 W"),
        # 37.23 and 38.40 ohm, mean 37.82: the plate rounds its powers.
        ["element_power: 1300 W at 220 V and 1500 W at 240 V agree. That is 1399 W at 230 V."],
        (230.0, 1398.9),
        id="a pair of rounded powers",
    ),
    pytest.param(
        ("rated_voltage 220-240 V", "element_power 1850-2000 W"),
        [
            "element_power: second resistance 28.8 ohm; a plate with two pairs of voltage and power holds "
            "from 24.8541 to 27.4703 ohm. Type one pair: rated_voltage 240 V, then element_power 2000 W."
        ],
        (230.0, 1400.0),
        id="a pair that is no single element",
    ),
    pytest.param(
        ("element_power 1300-1500 W",),
        [TWO_POWERS + "rated_voltage 240 V, then element_power 1500 W."],
        (230.0, 1400.0),
        id="two powers and one voltage",
    ),
    pytest.param(
        ("rated_voltage 220-240 V", "rated_voltage 230 V", "element_power 1850-2200 W"),
        [TWO_POWERS + "rated_voltage 240 V, then element_power 2200 W."],
        (230.0, 1400.0),
        id="the range was taken back",
    ),
    pytest.param(
        ("rated_voltage 100-240 V",),
        [
            "rated_voltage: highest voltage 240 V; one power for the whole range holds from 100 to 110.526 V. Type the "
            "voltage here, with the power that goes with it."
        ],
        (230.0, 1400.0),
        id="too wide for one power",
    ),
    pytest.param(
        ("rated_voltage 220-240 bar",),
        ["rated_voltage: '220 bar' is a pressure; an AC voltage is wanted, in V, mV or kV, or OL"],
        (230.0, 1400.0),
        id="another kind",
    ),
]


@pytest.mark.parametrize(("lines", "said", "holds"), RANGES)
def test_ranges_on_the_plate(lines: tuple[str, ...], said: list[str], holds: tuple[float, float]) -> None:
    first, plate = told(*lines)
    assert first == said
    assert tuple(plate.values()) == pytest.approx(holds, abs=0.1)


# The plate's power is that of the whole machine; V^2/P of the whole makes a sound element look wrong.
WHOLE = [
    pytest.param(
        ("element_power 1450 W",),
        [
            "Check the plate: element_power 1450 W and pump_power 48 W are more than rated_power 1450 W, that of the "
            "whole. Correct what is wrong."
        ],
        id="the whole machine's power taken for the element's",
    ),
    pytest.param(
        ("rated_power 1200 W",),
        [
            "Check the plate: element_power 1400 W and pump_power 48 W are more than rated_power 1200 W, that of the "
            "whole. Correct what is wrong."
        ],
        id="the plate's power told, the element's forgotten",
    ),
    pytest.param(("element_power 1300 W",), [], id="less than the whole"),
    pytest.param(("rated_power 1448 W",), [], id="just the whole"),
    pytest.param(("fill_coil 800 ohm",), [], id="what is part of nothing"),
]


@pytest.mark.parametrize(("lines", "said"), WHOLE)
def test_parts_that_exceed_the_whole_are_told(lines: tuple[str, ...], said: list[str]) -> None:
    assert told(*lines)[0] == said


def test_the_limit_follows_the_middle_of_the_range() -> None:
    desk = ShippedDesk().intake("rated_voltage 100-110 V", "element_power 1050 W", "rated_power 1100 W")
    low, high = desk.limit("element_resistance", "sound")
    # 105 V squared over 1050 W is 10.5 ohm; +5 % and -10 % of power, cold 3 % less.
    assert (low, high) == (pytest.approx(10.5 / 1.05 / 1.03, rel=1e-4), pytest.approx(10.5 / 0.9, rel=1e-4))
