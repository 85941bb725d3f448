"""The shipped way against the best possible, by dynamic programming, where exactly one of the known faults is there.

Closed world: the fault is one that explains the complaint, as likely as the rules weigh it, and every question comes
out as the rules say that this fault shows it, else as on a sound machine. The search ends when the rules account for
the complaint or one suspect is left. Minutes are those of tests, bench moves and asking, as the planner counts them.
The best possible asks only what changes a suspect for one of the faults that may be there, as long as there is such a
question; so it may be a little too dear, and the ratio a little too good.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Mapping
from dataclasses import dataclass, field

from expert.engine.bench import BenchState, bench_state, in_time, terms_for
from expert.engine.candidates import ASKING, Candidate
from expert.engine.gain import effects_of
from expert.engine.knowledge import Knowledge
from expert.engine.planner import choose, worth_asking
from expert.engine.state import State
from expert.engine.suspicion import START, Picture, is_open, take_picture
from expert.engine.ways import Situation
from expert.job.state.applying import applies
from expert.language.model import Machine

MOST_SUSPECTS = 9
MOST_STATES = 2_500  # looked at for one limit; where it takes more, the last limit that held bounds the ratio
LIMITS = (0.5, 0.75, 0.9, 1.0)  # shares of the shipped way's minutes below which a better way is looked for, in turn


class TooLarge(Exception):
    """More states than may be looked at."""


@dataclass(frozen=True)
class Minutes:
    """Expected minutes of the best way from one state: exact, or no more than they are."""

    minutes: float
    exact: bool


@dataclass
class World:
    """One machine with one complaint, in which exactly one of the suspects is the fault."""

    knowledge: Knowledge
    machine: Machine
    complaint: str
    qualified: bool = True
    looked_at: int = 0
    _known: dict[tuple[frozenset[tuple[str, str]], BenchState], Minutes] = field(default_factory=dict)

    def shown(self, fault: str, question: str) -> str:
        """How a question comes out if this is the fault."""
        record = self.knowledge.base.questions[question]
        shows = self.knowledge.base.faults[fault].shows.get(question, ())
        return (shows or record.sound or record.outcomes)[0]

    def state(self, answers: Mapping[str, str]) -> State:
        base = self.knowledge.base
        state = State(self.knowledge.network)
        state.narrow_all("machine", {f"machine.{name}": (value,) for name, value in self.machine.features.items()})
        for complaint in base.complaints:
            told = "yes" if complaint == self.complaint else "no"
            state.narrow(f"complaint {complaint}", f"complaint.{complaint}", (told,))
        for question, outcome in answers.items():
            state.narrow(f"answer {question}", question, (outcome,))
        return state

    def situation(self, answers: Mapping[str, str], bench: BenchState) -> Situation:
        base, state = self.knowledge.base, self.state(answers)
        picture = take_picture(self.knowledge, state, (self.complaint,), answers)
        features = self.machine.features

        def concerns(question: str) -> bool:
            record = base.questions[question]
            return applies(base, features, (base.circuits[record.circuit].applies, record.applies))

        return Situation(
            knowledge=self.knowledge,
            state=state,
            picture=picture,
            settled_questions=frozenset(answers),
            bench=bench,
            bench_map=self.knowledge.bench_maps[terms_for(base.bench, self.qualified, state.truth)],
            applies=concerns,
            measurable=frozenset(base.instruments),
            missing_first=lambda question: (),
        )

    def suspects(self) -> dict[str, float]:
        """The faults that may be there, with their chances."""
        state = self.state({})
        seen = self.knowledge.base.faults
        open_ones = [fault for fault in self.knowledge.explainers[self.complaint] if is_open(state, fault)]
        odds = {fault: 10 ** (START[seen[fault].seen] / 10) for fault in open_ones}
        return {fault: share / sum(odds.values()) for fault, share in odds.items()}

    def is_over(self, picture: Picture) -> bool:
        left = [s for s in picture.suspects if s.fault in self.knowledge.explainers[self.complaint]]
        return picture.settled or bool(picture.confirmed) or len(left) <= 1

    def after(self, situation: Situation, candidate: Candidate) -> BenchState:
        reached = situation.bench_map.reached_by(situation.bench, candidate.route)
        return in_time(self.knowledge.base.bench, reached)

    # ------------------------------------------------------------ the shipped way

    def shipped(self, start: BenchState) -> float:
        """Expected minutes when the planner chooses."""
        return sum(share * self._walk(fault, start) for fault, share in self.suspects().items())

    def _walk(self, fault: str, bench: BenchState) -> float:
        answers: dict[str, str] = {}
        minutes = 0.0
        while True:
            situation = self.situation(answers, bench)
            choice = None if self.is_over(situation.picture) else choose(situation)
            if choice is None:
                return minutes
            minutes += _cost(self.knowledge, choice.best)
            bench = self.after(situation, choice.best)
            answers[choice.best.asks] = self.shown(fault, choice.best.asks)

    # ------------------------------------------------------------ the best possible

    def best(self, start: BenchState, at_most: float) -> Minutes:
        """Expected minutes of the best policy, `at_most` where none is below it; or the most that it certainly takes.

        A low limit is tried first: where no way is below it, most of what a higher one looks at is known to be dearer.
        """
        least = 0.0
        for share in LIMITS:
            self.looked_at, limit = 0, share * at_most
            try:
                found = self._best({}, start, self.suspects(), limit)
            except TooLarge:
                return Minutes(least, exact=False)
            if found < limit:
                return Minutes(found, exact=True)
            least = limit
        return Minutes(at_most, exact=True)

    def _best(self, answers: dict[str, str], bench: BenchState, left: Mapping[str, float], limit: float) -> float:
        """Expected minutes of the best policy from here: exact if below the limit, else no more than they are."""
        key = frozenset(answers.items()), bench
        known = self._known.get(key)
        if known is not None and (known.exact or known.minutes >= limit):
            return known.minutes
        self.looked_at += 1
        if self.looked_at > MOST_STATES:
            raise TooLarge
        situation = self.situation(answers, bench)
        candidates = [] if self.is_over(situation.picture) else self._that_tell(situation, left)
        best, lowest = limit, math.inf if candidates else 0.0
        for candidate in self._promising_first(situation, candidates):
            value = self._value(candidate, answers, situation, left, best)
            best, lowest = min(best, value), min(lowest, value)
        self._known[key] = Minutes(lowest, exact=lowest < limit)
        return lowest

    def _promising_first(self, situation: Situation, candidates: list[Candidate]) -> list[Candidate]:
        """The shipped choice, then the cheapest first: what is good early rules out much of the rest."""
        choice = choose(situation) if candidates else None
        chosen = choice.best.asks if choice else ""
        return sorted(candidates, key=lambda candidate: (candidate.asks != chosen, _cost(self.knowledge, candidate)))

    def _value(
        self,
        candidate: Candidate,
        answers: dict[str, str],
        situation: Situation,
        left: Mapping[str, float],
        limit: float,
    ) -> float:
        """Expected minutes when this is asked now and the best is done afterwards, exact if below the limit."""
        value = _cost(self.knowledge, candidate)
        bench = self.after(situation, candidate)
        by_outcome: dict[str, dict[str, float]] = {}
        for fault, share in left.items():
            by_outcome.setdefault(self.shown(fault, candidate.asks), {})[fault] = share
        total = sum(left.values())
        for outcome, faults in sorted(by_outcome.items(), key=lambda pair: -sum(pair[1].values())):
            if value >= limit:
                break
            share = sum(faults.values()) / total
            rest = self._best({**answers, candidate.asks: outcome}, bench, faults, (limit - value) / share)
            value += share * rest
        return value

    def _that_tell(self, situation: Situation, left: Mapping[str, float]) -> list[Candidate]:
        """The candidates that change a suspect for one of the faults that may be there; if there is none, all."""
        candidates = worth_asking(situation)
        suspects = [suspect.fault for suspect in situation.picture.suspects]
        telling = []
        for candidate in candidates:
            question = self.knowledge.base.questions[candidate.asks]
            effects = effects_of(self.knowledge, situation.state, question, situation.picture)
            shown = {self.shown(fault, candidate.asks) for fault in left}
            if any(effects[outcome].touches(suspects) for outcome in shown & effects.keys()):
                telling.append(candidate)
        return telling or candidates


def _cost(knowledge: Knowledge, candidate: Candidate) -> float:
    return ASKING + knowledge.base.questions[candidate.asks].minutes + candidate.route.minutes


def against_the_best(knowledge: Knowledge, complaints: int = 10) -> dict[str, object]:
    """Ratio of the shipped way's minutes to the best possible, for the smallest complaints that can be worked out.

    `at_most`: those of them where the best is only known not to be below some share, so that the ratio is no more.
    """
    base = knowledge.base
    machine = next(iter(base.machines.values()))
    start = bench_state(base.bench, next(iter(base.bench.arrives.values())).state)
    by_size = sorted(base.complaints, key=lambda complaint: len(knowledge.explainers[complaint]))
    ratios: dict[str, float] = {}
    at_most: list[str] = []
    left_out: list[str] = []
    for complaint in by_size:
        world = World(knowledge, machine, complaint)
        if len(ratios) == complaints or not 2 <= len(world.suspects()) <= MOST_SUSPECTS:
            continue
        shipped = world.shipped(start)
        best = world.best(start, shipped)
        if best.minutes > 0:
            ratios[complaint] = round(shipped / best.minutes, 3)
            at_most += [] if best.exact else [complaint]
        elif not best.exact:
            left_out.append(complaint)
    mean = round(statistics.mean(ratios.values()), 3) if ratios else None
    return {"complaints": len(ratios), "mean": mean, "ratios": ratios, "at_most": at_most, "too_large": left_out}
