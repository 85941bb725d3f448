"""Every kind of record says what of it was decided; wording, weights and minutes are not among it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.trace.decided import SHOWN_ONLY, decided
from expert.trace.records import KINDS, Answered, CautionShown, Closed, Found, Narrowed, PromptPut, Record
from expert.trace.why import Considered, Why
from tests.trace.trace_samples import values_of


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
@settings(max_examples=5, deadline=None)
@given(data=st.data())
def test_every_kind_is_decided_or_shown(kind: type[Record], data: st.DataObject) -> None:
    assert (decided(data.draw(values_of(kind))) is None) == (kind in SHOWN_ONLY)


PUT = PromptPut("question", "coil", "Coil?", Why(aim="coil", candidates=(Considered("coil", 0.5, 3.0),)))
ANSWERED = Answered(3, "coil", "470", ("sound",), ("open", "sound"), 470.0, 4.0, "meter")


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        pytest.param(PUT, replace(PUT, text="And the coil?", why=Why()), True, id="a question in other words"),
        pytest.param(PUT, replace(PUT, question="pump"), False, id="another question"),
        pytest.param(PUT, replace(PUT, prompt="proof"), False, id="a proof of the same"),
        pytest.param(ANSWERED, replace(ANSWERED, uncertainty=5.0), True, id="a better instrument"),
        pytest.param(ANSWERED, replace(ANSWERED, outcomes=("open",)), False, id="understood otherwise"),
        pytest.param(ANSWERED, replace(ANSWERED, reading=47.0), False, id="another reading"),
        pytest.param(Found("a", "found", ("x",)), Found("a", "found", ("y",)), True, id="other reasons"),
        pytest.param(Found("a", "found", ()), Found("a", "left_by_elimination", ()), False, id="another standing"),
        pytest.param(
            Narrowed("a", ("x", "y"), ("x",), ()), Narrowed("a", ("x", "y"), ("y",), ()), False, id="narrowed"
        ),
        pytest.param(CautionShown("hot", "Hot!"), CautionShown("hot", "It is hot!"), True, id="a caution reworded"),
        pytest.param(CautionShown("hot", "Hot!"), CautionShown("live", "Hot!"), False, id="another caution"),
        pytest.param(Closed("normal", 10.0, (), ""), Closed("normal", 12.0, (), ""), True, id="minutes by the book"),
    ],
)
def test_what_counts(one: Record, other: Record, same: bool) -> None:
    assert (decided(one) == decided(other)) is same
