"""Going on to the repair on one's own judgement: recorded as that, proved like any repair, never shown as found."""

from __future__ import annotations

import pytest

from expert.desk.result import result_of
from expert.job.state.job import Phase
from expert.trace.records import Found
from tests.dialogue.conftest import Desk, spoken
from tests.dialogue.phases import at

JUDGED = "YOUR OWN JUDGEMENT, NOT FOUND BY THE RULES: fill valve: coil open."


def test_it_shows_of_what_one_can_be_convinced(filling: Desk) -> None:
    said = filling.type("convinced")
    assert said[0].startswith("1. fill valve: coil open (") and said[-1].startswith("Type convinced and the number")
    assert filling.job.phase is Phase.FIND and filling.job.found == {}


def test_the_repair_follows_with_its_proofs_and_is_not_called_found(filling: Desk) -> None:
    filling.type("convinced 1")
    while filling.job.prompt.kind == "move":
        filling.type(filling.job.prompt.choices[0])
    told = [record for record in filling.records if isinstance(record, Found)]
    assert [(record.fault, record.standing) for record in told] == [("valve.coil_open", "own_judgement")]
    said = spoken(filling.job, filling.records)
    assert JUDGED in said and not any(line.startswith("FOUND") for line in said)
    assert filling.job.prompt.kind == "repair"
    assert any(line.startswith("Your own judgement, not found by the rules. Repair: fill valve") for line in said)
    assert filling.type("why") == [
        "You were convinced of it. The rules have not found it; a no goes back to the search."
    ]
    filling.type("done")
    assert filling.job.to_prove, "the proofs stay"
    result = result_of(filling.job, filling.records, "")
    assert (result["outcome"], [found["standing"] for found in result["findings"]]) == ("own_judgement",) * 1 + (
        ["own_judgement"],
    )


def test_a_no_at_the_repair_goes_back_to_the_search(filling: Desk) -> None:
    filling.type("convinced 1")
    while filling.job.prompt.kind == "move":
        filling.type(filling.job.prompt.choices[0])
    filling.type("no")
    assert (filling.job.phase, filling.job.found, filling.job.outcome) == (Phase.FIND, {}, "")
    assert "valve.coil_open" not in filling.job.declined


@pytest.mark.parametrize(
    ("phase", "typed", "reply"),
    [
        ("find", "convinced 99", "'99' is none of the numbers 1 to 2. Type convinced to see them."),
        ("find", "convinced of it", "'of it' is none of the numbers 1 to 2. Type convinced to see them."),
        ("plate", "convinced", "The repair is chosen while the fault is searched for, or when the search has ended."),
        (
            "repair",
            "convinced 1",
            "The repair is chosen while the fault is searched for, or when the search has ended.",
        ),
    ],
)
def test_where_it_cannot_be(phase: str, typed: str, reply: str) -> None:
    assert at(phase).type(typed) == [reply]
