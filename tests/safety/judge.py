"""The judge: every record of a trace is held to the invariants, with an account and an evaluation of its own.

It knows the records and the declared data of the rule base. What it finds wrong is a `Violation`; a job without one
kept its technician safe, as far as the rules know the dangers. It never asks the functions that the dialogue decides
with, so that a mistake in these cannot hide itself.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from expert.language.model import Move, RuleBase
from expert.trace.records import (
    Answered,
    CautionShown,
    Cleared,
    Closed,
    CustomerTold,
    HandedOver,
    HazardOpened,
    HazardReleased,
    Moved,
    Paused,
    PromptPut,
    Record,
    Refused,
    Said,
    Stopped,
)
from tests.safety.account import PREPARE, TEST, Account, stands, with_time
from tests.safety.leading import HANDS, Through, Violation, Wrong, has_a_way_out, in_order, told_not_to_use
from tests.safety.watching import Watch

DEAD = {"mains": "isolated"}
LIVE = {"mains": "on", "covers": "off"}
# What stands in a trace where a step is done or as good as done. Within one, an answer given anew is gone for a moment.
BETWEEN_STEPS = (Said, PromptPut, HazardOpened, HazardReleased, HandedOver, Paused, Closed)
FINE = ("repaired", "normal")
OF_A_ROUND = re.compile(r"[0-9]+ +sound\.?|not +[0-9]+\.?", re.IGNORECASE)


@dataclass(slots=True)
class Judge:
    """Listens to one job from its first record on.

    `met`: the phases in which each hazard was open; `refused`: how often each was named as the reason of a refusal.
    """

    base: RuleBase
    account: Account = field(init=False)
    watch: Watch = field(init=False)
    found: list[Violation] = field(default_factory=list)
    met: dict[str, set[str]] = field(default_factory=dict)
    refused: Counter[str] = field(default_factory=Counter)
    told: set[str] = field(default_factory=set)
    slip: tuple[str, ...] = ()
    through: Through = field(default_factory=Through)
    put: str = ""
    begun: bool = False

    def __post_init__(self) -> None:
        self.account = Account(self.base)
        self.watch = Watch(self.base)

    def hear(self, records: Sequence[Record]) -> None:
        """Judge a batch of records: all that one line led to, or a whole trace."""
        for record in records:
            number = self.account.seen + 1
            self._begin()
            if self.begun and isinstance(record, BETWEEN_STEPS):
                self.watch.look()
            wrong = list(self._judged(record))
            wrong += self.through.take(record, self._is_live(record))
            self.account.take(record)
            wrong += [("release", text) for text in self.watch.take(record)]
            if isinstance(record, HazardReleased) and record.hazard not in self.watch.open:
                self.told.discard(record.hazard)
            self.found += [Violation(number, code, text) for code, text in wrong]

    def _judged(self, record: Record) -> Wrong:
        match record:
            case PromptPut(prompt=prompt):
                self.put = record.question
                yield from self._recorded()
                yield from in_order(self.base, self.watch, record)
                if prompt in HANDS:
                    yield from self._work(record)
                elif prompt == "move":
                    yield from self._offered(record)
                for hazard in self.watch.open:
                    self.met.setdefault(hazard, set()).add(self.account.phase_of(record))
            case Answered(question=question) if question != self.put and OF_A_ROUND.fullmatch(self.account.said):
                # A look that was listed with the one that was put, and confirmed with it: it might have been put.
                yield from self._work(PromptPut("proof", question, ""))
            case Moved():
                yield from self._moved(record)
            case CautionShown(caution=caution) if caution in self.account.cautions:
                yield "repeated", f"{caution} is shown again, and what it warns of has not come anew"
            case HazardOpened(hazard=hazard):
                self.told.add(hazard)
            case Stopped(rule=rule):
                if not any(set(self.base.hazards[name].forbids) & {"energise"} for name in self.watch.open):
                    yield "stop-without-hazard", f"{rule} stops the work, and no open hazard keeps the plug out"
            case Cleared(by=by):
                if by.casefold() == self.account.technician.casefold():
                    yield "own-word", f"{by} lifts a stop and works at the bench"
            case Refused(hazard=hazard):
                self.refused[hazard] += 1
            case Paused():
                yield from self._left("paused")
            case HandedOver(summary=summary):
                yield from self._left("handed over", summary)
            case Closed(outcome=outcome):
                yield from self._closed(outcome)
            case CustomerTold(lines=lines):
                self.slip = lines

    def _is_live(self, record: Record) -> bool | None:
        """Whether a move leads to a state of live work; None for what is no move."""
        if not isinstance(record, Moved):
            return None
        return any(stands(record.state, only) for only in (*self.base.bench.qualified_only, LIVE))

    def _begin(self) -> None:
        """Once it is known what the customer said and how the machine stands, what is open from the start is open."""
        if not self.begun and self.account.machine is not None and self.account.bench:
            self.begun = True
            self.watch.begin(self.account.machine.features)

    def _recorded(self) -> Wrong:
        """What is open stands in the trace as open."""
        for name in self.watch.open.keys() - self.told:
            self.told.add(name)
            yield "not-recorded", f"{name} is open and the trace does not say so"

    def _work(self, put: PromptPut) -> Wrong:
        """Hands are at the machine: it stands as wanted, nothing forbids it, and the cautions were shown before."""
        bench, what = self.account.bench, put.question
        wanted, cautions = self._wanted(put)
        if not any(stands(state, wanted) for state in (bench, with_time(self.base.bench, bench))):
            yield "bench", f"{what} needs {dict(wanted)}, the bench stands {bench}"
        if any(stands(bench, passing) for passing in self.base.bench.passing_only):
            yield "passing", f"{what} is put in a state that is only passed through: {bench}"
        closed_and_on = (wanted.get("mains"), bench["covers"]) == ("on", "on")
        if put.prompt == "repair" and not stands(bench, DEAD) and not closed_and_on:
            yield "repair-energised", f"the repair of {what} is put with the mains on"
        altered = bench.get("altered", "nothing") != "nothing" and not stands(bench, DEAD)
        if altered and self.account.altered_for != what:
            yield "altered", f"{what} is put while something is altered for {self.account.altered_for}"
        yield from self._only_for_the_qualified(bench, what)
        yield from self._forbidden(with_time(self.base.bench, bench), what)
        yield from self._cautions(cautions, what)

    def _wanted(self, put: PromptPut) -> tuple[Mapping[str, str], tuple[str, ...]]:
        """The bench state and the cautions."""
        if put.prompt == "repair":
            repair = self.base.faults[put.question].repair
            return repair.bench, repair.cautions
        question = self.base.questions[put.question]
        return question.bench, question.cautions

    def _only_for_the_qualified(self, bench: Mapping[str, str], what: str) -> Wrong:
        live = any(stands(bench, only) for only in self.base.bench.qualified_only) or stands(bench, LIVE)
        if live and not self.account.qualified:
            yield "live", f"{what}: live work for {self.account.technician}, who is not qualified"

    def _forbidden(self, bench: Mapping[str, str], what: str) -> Wrong:
        for hazard, act in self._against(bench):
            yield "forbidden", f"{what}: {hazard} forbids to {act}, the bench stands {dict(bench)}"

    def _against(self, bench: Mapping[str, str], leaving: bool = False) -> set[tuple[str, str]]:
        """The open hazards with the acts by which they forbid a state of the bench."""
        return {
            (name, act)
            for name in self.watch.open
            for act in self.base.hazards[name].forbids
            if self.base.acts[act].left <= leaving and any(stands(bench, state) for state in self.base.acts[act].states)
        }

    def _cautions(self, declared: Iterable[str], what: str) -> Wrong:
        missing = set(declared) - self.account.cautions
        if missing:
            yield "cautions", f"{what}: not shown before it: {', '.join(sorted(missing))}"

    # ------------------------------------------------------------ moves

    def _offered(self, put: PromptPut) -> Wrong:
        """A set-up or a move: where it leads is allowed, and better than here where here is forbidden."""
        bench = self.account.bench
        if put.question.startswith(PREPARE):
            question = self.base.questions[put.question.removeprefix(PREPARE)]
            assert question.prepare is not None
            closed = {"mains": "on", "covers": "on"}  # such as one brew before a test, with nothing open
            dead = {} if stands(question.prepare.bench, closed) else DEAD
            if not stands(bench, {**question.prepare.bench, **dead}):
                yield "bench", f"{question.id} is set up while the bench stands {bench}"
            yield from self._forbidden(bench, put.question)
            yield from self._cautions(question.cautions, put.question)
            return
        move = self._move(put.question)
        leaving = with_time(self.base.bench, bench)
        wrong = [name for name, states in move.needs.items() if leaving[name] not in states]
        if wrong:
            yield "bench", f"{move.id} is offered though {wrong[0]} is {leaving[wrong[0]]}"
        reached = {**leaving, **move.makes}
        yield from self._only_for_the_qualified(reached, move.id)
        yield from self._cautions(move.cautions, move.id)
        here, there = self._against(leaving), self._against(reached)
        if there - here or (there and not stands(reached, DEAD)):
            hazard, act = min(there - here or there)
            yield "forbidden", f"{move.id} is offered: {hazard} forbids to {act}"
        if reached.get("altered", "nothing") != "nothing":
            yield from self._altered(move)

    def _altered(self, move: Move) -> Wrong:
        if move.makes.get("covers") == "on":
            yield "altered", f"{move.id} closes the machine with something altered for a test"
        if move.makes.get("mains") == "on" and not self.account.altered_for:
            yield "altered", f"{move.id} switches on with something altered, and no test wants it so"

    def _move(self, name: str) -> Move:
        return next(move for move in self.base.bench.moves if move.id == name)

    def _moved(self, moved: Moved) -> Wrong:
        """A declared move changes what it declares, by its own word; nothing else changes the bench unseen."""
        before, name = self.account.bench, moved.move
        kind, _, about = name.partition(" ")
        leaving = with_time(self.base.bench, before)
        if kind == "arrives":
            expected = [dict(self.base.bench.arrives[about].state)]
        elif any(move.id == name for move in self.base.bench.moves):
            move = self._move(name)
            expected = [{**leaving, **move.makes}, {**leaving, **move.otherwise}]
            said = self.account.said
            if dict(moved.state) == expected[0] and move.word.casefold() not in said.casefold():
                yield "word", f"{name} counts as done by {said!r}, its word is {move.word!r}"
        elif name.startswith((PREPARE, TEST)):
            question = self.base.questions[about]
            leaves = question.prepare.leaves if name.startswith(PREPARE) and question.prepare else question.alters
            expected = [{**before, **leaves}, {**leaving, **leaves}]
        elif name == "stands as recorded":
            expected = [dict(before)]
        else:
            return
        if dict(moved.state) not in [*expected, *(with_time(self.base.bench, state) for state in expected)]:
            yield "account", f"{name}: recorded as {dict(moved.state)}, by the declared moves it is {expected[0]}"

    # ------------------------------------------------------------ letting go of the machine

    def _left(self, how: str, summary: str = "") -> Wrong:
        """Nobody leaves a machine that may hurt while there is still something to do about it.

        Unplugged, and what would bring it further cannot be done: it is left so, and whoever takes it on reads both.
        """
        bench = self.account.bench
        if not bench:
            return
        if any(stands(move.makes, DEAD) and move.id in self.account.cannot_move for move in self.base.bench.moves):
            return  # the plug cannot be pulled: whoever leaves is told so
        for hazard, act in sorted(self._against(with_time(self.base.bench, bench), leaving=True)):
            if how == "paused" and stands(bench, DEAD):
                continue  # unplugged, it may be left for a while where nobody can do more
            if self._cannot_be_brought_further(hazard, summary):
                continue
            yield "left", f"{how} though {hazard} forbids to {act}: the bench stands {bench}"
        if how != "paused" and not stands(bench, self.base.bench.safe):
            yield "left", f"{how} while the bench stands {bench}"

    def _cannot_be_brought_further(self, hazard: str, summary: str) -> bool:
        bench, refused = self.account.bench, self.account.cannot_move
        told = [self.base.hazards[hazard].name, *(self._move(move).say for move in refused)]
        out = has_a_way_out(self.base, bench, refused, lambda state: not self._against(state, leaving=True))
        return stands(bench, DEAD) and not out and all(words in summary for words in told)

    def _closed(self, outcome: str) -> Wrong:
        if outcome != "handed_over":
            yield from self._left(f"closed as {outcome}")
        if outcome not in FINE:
            yield from told_not_to_use(self.base, self.watch.open, self.slip, outcome)
            return
        for name in self.watch.open:
            yield "fine", f"closed as {outcome} with {name} open"
        if not stands(self.account.bench, self.base.bench.hand_back):
            yield "fine", f"closed as {outcome} while the bench stands {self.account.bench}"
        for name in self.base.bench.before_return:
            answer = self.watch.known.answers.get(name)
            sound = self.base.questions[name].sound
            if self.watch.known.applies(name) and (answer is None or not answer.outcomes <= set(sound)):
                yield "fine", f"closed as {outcome} without a sound answer to {name}"


def judged(base: RuleBase, records: Sequence[Record]) -> list[Violation]:
    """Everything that is wrong in a whole trace."""
    judge = Judge(base)
    judge.hear(records)
    return judge.found
