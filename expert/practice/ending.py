"""The end of a practice: what it was, and the junior's way beside the expert's on the same machine."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from textwrap import wrap

from expert.job.state.job import Job
from expert.practice import sentences as say
from expert.practice.levels import MISLEADING
from expert.practice.practice import Practice
from expert.practice.score import FULL, Way, score
from expert.practice.testing import in_words
from expert.trade.counting import counted
from expert.witness.playing import play_on
from expert.witness.verdict import verdict_on

ASK_WIDTH = 58


@dataclass(frozen=True, slots=True)
class ExpertWay:
    """How the rules go through the same machine: its tests up to the last fault named, their minutes, faults found."""

    tests: tuple[tuple[str, str], ...]
    minutes: float
    found: tuple[str, ...]


def expert_way(practice: Practice) -> ExpertWay:
    """The real dialogue played on the machine as it was brought in. Takes a second or two."""
    world, found = practice.world, practice.scenario
    played = play_on(world.knowledge, world.table, found.machine, practice.complaints, practice.job.qualified)
    verdict = verdict_on(world.knowledge, world.table, found.faults, played)
    tests, minutes = len(played.searched), played.minutes
    if len(verdict.found) == len(found.faults):
        # What comes after the last fault was named has no counterpart on the junior's side.
        names = [world.table.faults[fault.name] for fault in found.faults]
        last = [
            min((played.named[one] for one in ids if one in played.named), default=(tests, minutes)) for ids in names
        ]
        tests, minutes = max(last)
    return ExpertWay(tuple(played.searched[:tests]), minutes, verdict.found)


def told_at_the_end(practice: Practice, expert: ExpertWay) -> tuple[str, ...]:
    """Everything that is said when a practice is over."""
    way = way_of(practice)
    return (
        *_what_it_was(practice),
        "",
        *_side_by_side(way, expert),
        f"Wrong parts: {'; '.join(practice.wrong) or 'none'}.",
        say.unsafe_attempts("; ".join(one.rstrip(".?") for one in practice.unsafe) or "none"),
        "",
        "Your way:",
        *_tests(practice.job, ((seen.question, seen.text) for seen in practice.seen)),
        "The expert's way:" if len(expert.found) == len(practice.scenario.faults) else say.EXPERTS_WAY_TO_HERE,
        *_tests(practice.job, expert.tests),
        "",
        say.points(score(way, expert.minutes), FULL),
    )


def way_of(practice: Practice) -> Way:
    """The junior's way, to be counted."""
    return Way(
        tests=len(practice.seen),
        minutes=practice.minutes,
        found=len(practice.found),
        missed=len(practice.missed),
        wrong_parts=len(practice.wrong),
        unsafe=len(practice.unsafe),
        hints=practice.hints,
    )


def _what_it_was(practice: Practice) -> Iterable[str]:
    for fault in practice.scenario.faults:
        named = "you found it" if fault.name in practice.found else "not found"
        yield say.it_was(fault.name, named)
        if fault.name in MISLEADING:
            yield f"  What misleads: {MISLEADING[fault.name]}."


def _side_by_side(way: Way, expert: ExpertWay) -> tuple[str, ...]:
    rows = (
        ("", "you", "expert"),
        ("tests", f"{way.tests}", f"{len(expert.tests)}"),
        ("minutes, moves included", f"{way.minutes:.0f}", f"{expert.minutes:.0f}"),
        ("faults found", f"{way.found}", f"{len(expert.found)}"),
        ("hints", f"{way.hints}", "-"),
    )
    return tuple(f"{name:26}{you:>8}{other:>8}" for name, you, other in rows)


def _tests(job: Job, tests: Iterable[tuple[str, str]]) -> list[str]:
    lines = []
    for number, (name, text) in enumerate(tests, 1):
        question = job.base.questions[name]
        ask = wrap(question.ask, ASK_WIDTH, max_lines=1, placeholder=" ...")[0]
        lines.append(f"  {number:2}  {ask} {in_words(question, text)}")
    return lines or [f"  {counted(0, 'test')}"]
