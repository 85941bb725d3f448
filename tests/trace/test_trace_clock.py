"""The time by the clock: from line to line, without what lies between leaving and taking up, over many days."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from expert.trace.reading import read_trace
from expert.trace.records import Opened, Paused, Record, Resumed, Said
from expert.trace.writing import TraceWriter

BEGAN = datetime(2026, 1, 31, 9, tzinfo=UTC)
OPENED = Opened("0" * 64, "1", "7")
RESUMED = Resumed("1", "0" * 64)


def write(path: Path, minutes: list[float], batches: list[tuple[Record, ...]]) -> float:
    """A trace with these times between its lines; what its writer says in the end."""
    times = iter([BEGAN + timedelta(minutes=sum(minutes[:n])) for n in range(len(minutes) + 1)])
    with TraceWriter.create(path, lambda: next(times)) as writer:
        for batch in batches:
            writer.append(batch)
        return writer.minutes_by_the_clock


def test_a_pause_is_left_out_and_a_power_cut_too(tmp_path: Path) -> None:
    batches: list[tuple[Record, ...]] = [
        (OPENED,),
        (Said("a"), Paused()),
        (RESUMED,),
        (Said("b"),),
        (RESUMED,),
        (Said("c"),),
    ]
    said = write(tmp_path / "7.jsonl", [10, 600, 5, 900, 3], batches)
    assert said == read_trace(tmp_path / "7.jsonl").minutes_by_the_clock == 18


@given(st.lists(st.tuples(st.integers(0, 300), st.booleans()), min_size=1, max_size=12))
def test_it_is_the_same_whoever_adds_it_up(gaps: list[tuple[int, bool]]) -> None:
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        path = Path(folder) / "7.jsonl"
        batches = [(OPENED,), *((RESUMED,) if away else (Said("x"),) for _, away in gaps)]
        said = write(path, [float(gap) for gap, _ in gaps], batches)
        assert said == sum(gap for gap, away in gaps if not away)
        with TraceWriter.go_on(path, lambda: BEGAN) as again:
            assert again.minutes_by_the_clock == said
