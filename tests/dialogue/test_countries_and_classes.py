"""The country set and the protection class decide the electrical limits, and what is measured at all."""

from __future__ import annotations

import pytest

from tests.dialogue.shipped_desk import ShippedDesk

Row = tuple[float | None, float | None, float | None, float | None]

# Lead of 1.5 m and 1.5 mm2: 13.3 ohm/km, 0.020 ohm (IEC 60228). Limits in ohm, ohm, ohm and mA:
# germany: DGUV 203-071 annex 5 and DIN EN 50678 / 50699 (published). uk: IET Code of Practice, 5th edition 2020
# (published, by way of another text). australia: AS/NZS 3760 (from memory, to be confirmed).
SETS = [
    # The strictest of each column over all nations: earth us, canada and japan; leakage us and canada.
    pytest.param(("limits strictest",), (0.1, 1e6, 1e6, 0.75), id="the strictest"),
    pytest.param(("earthed class_2", "limits strictest"), (None, 3e6, 3e6, 0.5), id="the strictest, class II"),
    pytest.param(("limits us",), (0.1, 1e6, 1e6, 0.75), id="us"),
    pytest.param(("limits japan",), (0.1, 1e6, 1e6, 1.0), id="japan"),
    pytest.param(("limits germany",), (0.3, 0.3e6, 1e6, 3.5), id="germany"),
    pytest.param(("limits uk",), (0.11995, 0.3e6, 1e6, 5.0), id="uk: 0.1 ohm and the lead"),
    pytest.param(("limits UK", "cord_length 2 m"), (0.1266, 0.3e6, 1e6, 5.0), id="uk, 2 m"),
    pytest.param(("limits australia",), (1.0, 1e6, 1e6, 5.0), id="australia"),
    pytest.param(("earthed class_2", "limits germany"), (None, 2e6, 2e6, 0.5), id="germany, class II"),
    pytest.param(("earthed class_2", "limits uk"), (None, 2e6, 2e6, 5.0), id="uk, class II"),
    pytest.param(("limits germany", "cord_length 6 m"), (0.4, 0.3e6, 1e6, 3.5), id="germany, 6 m"),
]


def test_until_a_country_is_said_the_strictest_hold_and_the_screen_says_so() -> None:
    shown = ShippedDesk().type("Ann", "1")
    others = "germany, uk, australia, us, canada, japan"
    assert f"  limits                  strictest: no country said (or {others})" in shown


@pytest.mark.parametrize(("plate", "expected"), SETS)
def test_the_set_decides_the_limits(plate: tuple[str, ...], expected: Row) -> None:
    desk = ShippedDesk().intake(*plate, complaint="tingles")
    earth, bad, weak, leak = expected
    if earth is not None:
        assert desk.limit("earth_bond", "high")[0] == pytest.approx(earth, abs=1e-4)
    assert desk.limit("insulation_at_plug", "bad")[1] == pytest.approx(bad)
    assert desk.limit("insulation_at_plug", "weak")[1] == pytest.approx(weak)
    assert desk.limit("leakage_current", "high")[0] == pytest.approx(leak)


@pytest.mark.parametrize("country", ["germany", "uk", "australia", "us", "canada", "japan"])
def test_until_a_country_is_chosen_the_strictest_of_all_holds_and_the_screen_says_so(country: str) -> None:
    desk = ShippedDesk()
    said = desk.type("Ann", "1")
    assert any("strictest: no country said" in line for line in said)
    desk.type("ok", "tingles", "ok", "no", "1")
    there = ShippedDesk().intake(f"limits {country}", complaint="tingles")
    for question, reading, end in (("earth_bond", "high", 0), ("leakage_current", "high", 0)):
        assert (desk.limit(question, reading)[end] or 0) <= (there.limit(question, reading)[end] or 0)
    assert (desk.limit("insulation_at_plug", "bad")[1] or 0) >= (there.limit("insulation_at_plug", "bad")[1] or 0)


SOUND = {"lead_looks": "sound", "earth_bond": "0.05", "insulation_at_plug": "80", "insulation_at_plug_hot": "60"}


def test_a_class_two_machine_is_not_asked_for_its_earth() -> None:
    desk = ShippedDesk().intake("earthed class_2", complaint="tingles")
    desk.go(SOUND | {"lead_looks": "no_earth_pin"})
    assert "earth_bond" not in desk.put()
    assert {"insulation_at_plug", "insulation_at_plug_hot"} <= set(desk.put())
    assert desk.job.outcome == "normal"


def test_a_class_one_machine_is_asked_for_its_earth_first_of_all() -> None:
    desk = ShippedDesk().intake(complaint="tingles")
    desk.go(SOUND)
    assert desk.put().index("earth_bond") < desk.put().index("insulation_at_plug")
    assert desk.job.outcome == "normal"


def test_a_class_one_machine_without_an_earth_contact_is_a_stop() -> None:
    desk = ShippedDesk().intake(complaint="tingles")
    desk.go({"lead_looks": "no_earth_pin"})
    assert set(desk.job.dangers_met) == {"plug_has_no_earth"}
    assert "earth_bond" not in desk.put()


# The same reading, 0.2 ohm: sound in Germany, too high in the United Kingdom.
@pytest.mark.parametrize(
    ("plate", "counts"),
    [
        pytest.param(("limits germany",), "0.2 ohm: sound", id="germany"),
        pytest.param(("limits uk",), "0.2 ohm: high", id="uk"),
        pytest.param(("limits australia",), "0.2 ohm: sound", id="australia"),
    ],
)
def test_one_reading_in_three_countries(plate: tuple[str, ...], counts: str) -> None:
    desk = ShippedDesk().intake(*plate, complaint="tingles")
    desk.go({"lead_looks": "sound"}, until="earth_bond")
    assert desk.type("0.2 ohm")[0].startswith(counts)


def test_how_tells_the_limit_and_its_source() -> None:
    desk = ShippedDesk().intake("limits uk", complaint="tingles")
    desk.go({"lead_looks": "sound"}, until="earth_bond")
    said = desk.type("how")
    assert "Limit: high is above 0.12 ohm." in said
    assert [line for line in said if line.startswith("From: ")] == [
        "From: highest earth bond resistance that passes, lead included: 0.12 ohm = earth_limit(machine.limits, "
        "plate.cord_length, plate.cord_section); limits uk, cord_length 1.5 m, cord_section 1.5 mm2 (germany: DGUV "
        "203-071 annex 5; uk: IET Code of Practice, 5th edition 2020, 0.1 ohm and the lead; australia: AS/NZS "
        "3760, canada and japan from memory, to be confirmed; us: as UL standards of other appliances; for this one "
        "UL 197 and UL 101 from memory)"
    ]


def test_an_unknown_set_is_refused_with_those_there_are() -> None:
    desk = ShippedDesk()
    desk.type("Ann", "1")
    assert desk.type("limits france")[0] == (
        "limits: 'france' is none of germany, uk, australia, us, canada, japan, strictest."
    )
