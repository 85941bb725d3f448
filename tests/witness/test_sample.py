"""A sample of the witness's jobs: `python -m tests.benchmarks.witness` plays them all."""

from __future__ import annotations

import pytest

from tests.benchmarks.witness import Play, play_one, plays

SAMPLE = [*plays("single", 40, seed=14), *plays("sound", 10, seed=14), *plays("sparse", 10, seed=14)]

# What is known to go wrong, by fault and complaint: each line is work to do, and fails once it goes right.
KNOWN = {
    ("fill coil wire: off", "slow_heat"): "open: a pump that an alarm has stopped is named air-locked",
    ("fill non-return valve: leaks back", "pump_gauge_odd"): (
        "open: the simulated solenoid holds against back pressure, so nothing shows; the rules think it does not"
    ),
}


def _known(play: Play) -> str:
    return KNOWN.get((" + ".join(play.faults), play.complaint), "")


@pytest.mark.parametrize(
    "play",
    [
        pytest.param(p, id=str(p), marks=[pytest.mark.xfail(reason=_known(p), strict=True)] * bool(_known(p)))
        for p in SAMPLE
    ],
)
def test_nothing_sound_is_condemned_nothing_is_unsafe_and_nothing_slips(play: Play) -> None:
    """Whatever the job comes to. Of single faults each is found, or on a list of at most five."""
    ended = play_one(play)
    assert ended.verdict is not None and not ended.trouble, ended.trouble
    assert (ended.verdict.condemned, ended.verdict.slipped, ended.unsafe) == ((), (), ())
    if play.kind == "single":
        assert ended.verdict.missed == ()
    if play.kind == "sound":
        assert ended.verdict.outcome == "normal"
