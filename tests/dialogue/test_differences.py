"""Differences of nested records are sentences: no brackets, braces or quotes of a program."""

from __future__ import annotations

import pytest

from expert.desk.differences import difference_in_words
from expert.trace.records import Moved, Narrowed, PromptPut, Record
from expert.trace.why import Considered, Why


def put(*candidates: Considered, settles: tuple[str, ...] = ()) -> PromptPut:
    return PromptPut("question", "coil", "Coil?", Why(aim="coil", settles=settles, candidates=candidates))


@pytest.mark.parametrize(
    ("recorded", "now", "text"),
    [
        (
            put(Considered("coil", 0.5, 3.0)),
            put(Considered("coil", 0.25, 3.0)),
            "line 9: put: why candidates 1 bits was 0.5, now it is 0.25",
        ),
        (
            put(Considered("coil", 0.5, 3.0)),
            put(Considered("coil", 0.5, 3.0), Considered("pump", 0.1, 1.0)),
            "line 9: put: why candidates was 1 entry (coil), now it is 2 entries (coil, pump)",
        ),
        (
            put(settles=("pump.dead", "valve.stuck")),
            put(),
            "line 9: put: why settles was 'pump.dead', 'valve.stuck', now it is nothing",
        ),
        (
            Moved("open", {"mains": "isolated", "covers": "off"}, 5.0),
            Moved("open", {"mains": "isolated", "covers": "on"}, 4.0),
            "line 9: moved: state covers was 'off', now it is 'on'; minutes was 5, now it is 4",
        ),
        (
            Narrowed("pump.dead", ("present", "absent"), ("absent",), ()),
            Narrowed("pump.dead", ("present", "absent"), (), ("silent",)),
            "line 9: narrowed: after was 'absent', now it is nothing; because was nothing, now it is 'silent'",
        ),
    ],
    ids=["number", "lists", "empty", "mapping", "two fields"],
)
def test_one_sentence_for_what_differs(recorded: Record, now: Record, text: str) -> None:
    assert difference_in_words(9, recorded, now) == text
