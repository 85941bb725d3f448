"""`figure ...` at the prompt: a calculation without leaving the job."""

from __future__ import annotations

import pytest

from tests.dialogue.conftest import Desk


def test_a_figure_leaves_the_job_where_it_is(filling: Desk) -> None:
    filling.type("yes")
    prompt, given = filling.job.prompt, dict(filling.job.given)
    said = filling.type("figure element_resistance 230 V 1400 W")
    # Joule's law: 52900 / 1400 = 37.786 ohm.
    assert said == [
        "Resistance of an element from its plate: 37.79 ohm",
        "  from voltage 230 V; power 1400 W",
        "  R = U^2 / P",
        "  Holds: above 0",
        "  Source: Joule's law (a law of physics or a definition)",
    ]
    assert (filling.job.prompt, filling.job.given) == (prompt, given)
    assert filling.type("yes")[0] == "So: It runs.", "the question is still open"


def test_a_figure_can_be_asked_at_any_prompt(desk: Desk) -> None:
    assert desk.type("figure duty 60 s 60 s")[0] == "Share of time that something is on: 50 %"
    assert desk.job.technician == ""


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("figure", "Type figure, a name and its values, such as: figure element_resistance 230 V 1400 W"),
        ("figure list", "Steam and altitude"),
        ("figure --list", "Steam and altitude"),
        ("figure duty", "duty: Share of time that something is on"),
        ("figure duty help", "duty: Share of time that something is on"),
        ("figure duti 1", "there is no figure 'duti'; near it: duty."),
        (
            "figure boiler_temperature 2.2 bar abs",
            "gauge_pressure: '2.2 bar abs' is an absolute pressure; a gauge pressure is wanted, in bar, psi or kPa.",
        ),
        ("figure pt_temperature 100 5000", "resistance 5000 ohm; IEC 60751:2008 holds from 18.5201 to 390.481 ohm."),
    ],
    ids=["alone", "list", "list-as-option", "about", "help", "near-miss", "absolute", "out-of-range"],
)
def test_what_else_can_be_typed(filling: Desk, line: str, first: str) -> None:
    before = filling.job.prompt
    assert filling.type(line)[0] == first
    assert filling.job.prompt == before


def test_help_names_it(filling: Desk) -> None:
    assert "  figure NAME ...   a calculation of the trade; figure list shows them" in filling.type("help")
