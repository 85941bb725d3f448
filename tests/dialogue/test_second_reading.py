"""The reading that decides is taken twice; what was read before a repair is no second reading of what comes after."""

from __future__ import annotations

from expert.job.sentences import search as say
from expert.job.sentences.records import DECIDING_READING
from expert.trace.records import Answered, Repaired, Told
from tests.safety.test_findings import played

WORN_GASKET = {"handle_position": "past_centre", "rim_on_blind": "leaks", "rim_with_other_portafilter": "leaks"}


def test_the_deciding_reading_is_taken_twice_and_no_oftener_after_the_repair() -> None:
    """Behind the gasket the pressure is too high: the search goes on, and the handle stands elsewhere now."""
    records = played(
        "leaks_at_rim",
        answers=WORN_GASKET,
        after_repair={"handle_position": "centre", "rim_on_blind": "dry", "blind_pressure": "13 bar"},
    )
    mended = next(place for place, record in enumerate(records) if isinstance(record, Repaired))
    before, after = (
        [record.text for record in part if isinstance(record, Answered) and record.question == "handle_position"]
        for part in (records[:mended], records[mended:])
    )
    assert (before, after) == (["past_centre"] * 2, ["centre"])
    assert Told(DECIDING_READING) in records[:mended]
    assert Told(say.READINGS_DIFFER) not in records
