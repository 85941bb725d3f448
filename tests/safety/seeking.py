"""What to answer, sought in the rules: to open a hazard, or to make two rules say opposite things of one fact."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from expert.language.model import ALWAYS, All, Any, Condition, Hazard, Is, Narrow, Not, Rule, RuleBase
from tests.safety.conditions import suspects_of

Answers = Mapping[str, frozenset[str]]
DEEPEST = 5  # findings that rest on findings


@dataclass(frozen=True, slots=True)
class Collision:
    """Two rules that exclude each other on a fact, and answers (facts with outcomes) that make both of them true."""

    fact: str
    rules: tuple[str, str]
    answers: Answers


class Seeker:
    """Finds answers in a rule base for one machine; by chance, where there are several ways."""

    def __init__(self, base: RuleBase, machine: str, chance: random.Random) -> None:
        self.base, self.chance = base, chance
        self.outcomes = base.outcomes()
        self.features = {f"machine.{name}": value for name, value in base.machines[machine].features.items()}
        self.by_fact: dict[str, list[tuple[Rule, frozenset[str]]]] = {}
        for rule in base.rules.values():
            for said in rule.then:
                if isinstance(said, Narrow):
                    self.by_fact.setdefault(said.fact, []).append((rule, frozenset(said.outcomes)))

    def collisions(self) -> Iterator[Collision]:
        """One for every pair of rules that can collide, in the order of the rules."""
        for fact, said in self.by_fact.items():
            for number, (one, left) in enumerate(said):
                for other, right in said[number + 1 :]:
                    if not left & right and (answers := self._both(one.when, other.when)) is not None:
                        yield Collision(fact, (one.id, other.id), answers)

    def ways_to_open(self, hazard: Hazard) -> list[Answers]:
        """Answers that open a hazard: one way for each test in its condition and each rule that casts suspicion."""
        wanted = [] if hazard.holds == ALWAYS else [hazard.holds, *_alternatives(hazard.holds)]
        for rule in self.base.rules.values():
            if suspects_of(self.base, rule.id) & set(hazard.suspected):
                wanted.append(rule.when)
        found = (self._make(condition, {}, True, DEEPEST) for condition in wanted)
        asked = (self._asked(answers) for answers in found if answers is not None)
        return [answers for answers in asked if answers is not None]

    def _both(self, one: Condition, other: Condition) -> Answers | None:
        """Answers that make both true, found by trying; None where a few tries find none."""
        for _ in range(6):
            answers = self._make(All((one, other)), {}, True, DEEPEST)
            answers = None if answers is None else self._asked(answers)
            if answers is not None:
                return answers
        return None

    def _asked(self, answers: Answers) -> Answers | None:
        """The answers, with those that must be known before each of the questions may be put."""
        questions = self.base.questions
        now: Answers | None = answers
        for fact in [*answers]:
            if now is not None and fact in questions:
                now = self._make(questions[fact].only_if, now, True, DEEPEST)
        return now if now is None or now.keys() == answers.keys() else self._asked(now)

    def _make(self, condition: Condition, given: Answers, wanted: bool, depth: int) -> Answers | None:
        """The answers given, with what makes the condition true (or false); None when it does not go together."""
        match condition:
            case Not(part=part):
                return self._make(part, given, not wanted, depth)
            case Is(fact=fact, outcomes=outcomes):
                left = frozenset(outcomes) if wanted else frozenset(self.outcomes[fact]) - set(outcomes)
                return self._fact(fact, left, given, depth)
            case All(parts=parts) | Any(parts=parts):
                if isinstance(condition, All) == wanted:
                    now: Answers | None = given
                    for part in parts:
                        now = None if now is None else self._make(part, now, wanted, depth)
                    return now
                for part in self.chance.sample(parts, len(parts)):
                    found = self._make(part, given, wanted, depth)
                    if found is not None:
                        return found
                return None

    def _fact(self, fact: str, left: frozenset[str], given: Answers, depth: int) -> Answers | None:
        """A question or complaint is answered so; a finding or fault by a rule that concludes it."""
        if fact in self.features:
            return given if self.features[fact] in left else None
        if fact in self.base.questions or fact.startswith("complaint."):
            both = given.get(fact, frozenset(self.outcomes[fact])) & left
            return {**given, fact: both} if both else None
        ways = [rule for rule, narrowed in self.by_fact.get(fact, ()) if narrowed <= left]
        for rule in self.chance.sample(ways, len(ways)) if depth else ():
            found = self._make(rule.when, given, True, depth - 1)
            if found is not None:
                return found
        return None


def quiet_ways(base: RuleBase, machine: str, hazard: Hazard, tries: int = 12) -> list[Answers]:
    """Of many ways to open a hazard those that open the fewest others, which would keep the job from getting there."""
    found: dict[str, Answers] = {}
    for number in range(tries):
        for answers in Seeker(base, machine, random.Random(f"quiet {number}")).ways_to_open(hazard):
            found.setdefault(repr(sorted((fact, sorted(outcomes)) for fact, outcomes in answers.items())), answers)
    ranked = sorted(found.items(), key=lambda item: (_others_opened(base, hazard, item[1]), len(item[1]), item[0]))
    least = _others_opened(base, hazard, ranked[0][1]) if ranked else 0
    return [answers for _, answers in ranked if _others_opened(base, hazard, answers) == least]


def _others_opened(base: RuleBase, hazard: Hazard, answers: Answers) -> int:
    """How many other hazards name one of these outcomes among what opens them."""
    others = (other for other in base.hazards.values() if other.id != hazard.id and other.forbids)
    return sum(any(answers.get(fact, frozenset()) & said for fact, said in _named_in(other.holds)) for other in others)


def _named_in(condition: Condition) -> Iterator[tuple[str, frozenset[str]]]:
    match condition:
        case Is(fact=fact, outcomes=outcomes):
            yield fact, frozenset(outcomes)
        case All(parts=parts) | Any(parts=parts):
            for part in parts:
                yield from _named_in(part)


def _alternatives(condition: Condition) -> tuple[Condition, ...]:
    """The parts of which one alone will do."""
    if not isinstance(condition, Any):
        return ()
    return tuple(further for part in condition.parts for further in (part, *_alternatives(part)))


def complaints_in(answers: Answers) -> tuple[str, ...]:
    """The complaints that have to be reported for it."""
    return tuple(f.removeprefix("complaint.") for f, o in answers.items() if f.startswith("complaint.") and "yes" in o)


def questions_in(base: RuleBase, answers: Answers) -> dict[str, tuple[str, ...]]:
    """The outcomes to give, by question."""
    return {fact: tuple(sorted(outcomes)) for fact, outcomes in answers.items() if fact in base.questions}
