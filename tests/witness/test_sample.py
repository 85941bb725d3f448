"""A sample of the witness's jobs: `python -m tests.benchmarks.witness` plays them all."""

from __future__ import annotations

import pytest

from tests.benchmarks.witness import Play, play_one, plays

SAMPLE = [*plays("single", 40, seed=14), *plays("sound", 10, seed=14), *plays("sparse", 10, seed=14)]


@pytest.mark.parametrize("play", SAMPLE, ids=str)
def test_nothing_sound_is_condemned_nothing_is_unsafe_and_nothing_slips(play: Play) -> None:
    """Whatever the job comes to. Of single faults each is found, or on a list of at most five."""
    ended = play_one(play)
    assert ended.verdict is not None and not ended.trouble, ended.trouble
    assert (ended.verdict.condemned, ended.verdict.slipped, ended.unsafe) == ((), (), ())
    if play.kind == "single":
        assert ended.verdict.missed == ()
    if play.kind == "sound":
        assert ended.verdict.outcome == "normal"
