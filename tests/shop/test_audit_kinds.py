"""No kind of record is left out of the story that an audit tells."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.shop.audit_happened import tells_by_itself
from expert.trace.records import (
    KINDS,
    Answered,
    CannotTell,
    Fired,
    Found,
    Narrowed,
    Opened,
    PromptPut,
    Record,
    Said,
    TakenIn,
    Told,
    Unfired,
)
from tests.trace.trace_samples import values_of

# Told in the head, with a question, with what it led to, or as what came of it.
TOLD_WITH_ANOTHER = {Answered, CannotTell, Fired, Found, Narrowed, Opened, PromptPut, Said, TakenIn, Told, Unfired}


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
@settings(max_examples=5, deadline=None)
@given(data=st.data())
def test_every_kind_is_told(kind: type[Record], data: st.DataObject) -> None:
    assert tells_by_itself(data.draw(values_of(kind))) == (kind not in TOLD_WITH_ANOTHER)
