"""Whether asking still tells anything: how many questions in a row changed nothing."""

from __future__ import annotations

from dataclasses import dataclass

from expert.engine.knowledge import atoms_of
from expert.engine.suspicion import Picture
from expert.job.state.job import Job
from expert.job.state.progress import Progress
from expert.language.model import Narrow

HEAD = 5  # suspects, the heaviest, of which a change counts: whoever is cleared far behind them shortens nothing
IN_VAIN = 10  # answers without effect after which the search offers to stop
UNTOLD_COUNT = 2  # so many tests that could not be told count as one answer: they tell nothing of whether asking helps


@dataclass(frozen=True, slots=True)
class Stall:
    """How the search moves: what would count as an effect now, the questions settled without one, and those of them
    that could not be told."""

    progress: Progress
    in_vain: int
    untold: int = 0

    @property
    def tells_little(self) -> bool:
        return self.in_vain - self.untold + self.untold // UNTOLD_COUNT >= IN_VAIN


def stall_of(job: Job, picture: Picture) -> Stall:
    """Compare with how it stood when a question last had an effect. Questions for a danger do not count."""
    settled = frozenset((*job.answered(), *job.cannot))
    mark = _mark(job, picture)
    last = job.progress
    if last is None or last.mark != mark:
        return Stall(Progress(mark, settled), 0)
    before_moves = {question for move in job.base.bench.moves for question in move.first}
    in_vain = settled - last.settled - job.asked_for_danger - before_moves
    return Stall(last, len(in_vain), len(in_vain & job.cannot.keys()))


def go_on_all_the_same(job: Job) -> None:
    """Count from here: the technician wants to go on."""
    assert job.progress is not None
    job.progress = Progress(job.progress.mark, frozenset((*job.answered(), *job.cannot)))


def _mark(job: Job, picture: Picture) -> tuple[object, ...]:
    """All whose change is an effect: who heads the list and what speaks for them, what is found, what is still open."""
    head = [suspect.fault for suspect in picture.suspects[:HEAD]]
    on_the_way = tuple(sorted(_on_the_way(job, fault) for fault in head))
    return frozenset(head), on_the_way, picture.confirmed, picture.complaints_open, picture.causes_wanted


def _on_the_way(job: Job, fault: str) -> tuple[str, int]:
    """How many of the tests have come out that together would confirm a fault, as far as they still can."""
    rules = (job.base.rules[rule] for rule in job.knowledge.concluding.get(fault, ()))
    confirming = [rule for rule in rules if any(isinstance(s, Narrow) and s.word == "confirm" for s in rule.then)]
    open_ones = [rule for rule in confirming if job.state.truth(rule.when) is None]
    return fault, max((sum(bool(job.state.truth(a)) for a in atoms_of(rule.when)) for rule in open_ones), default=0)
