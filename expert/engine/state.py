"""What is known at one moment of a job: for every fact the outcomes still possible, and the rules that have fired."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from typing import NamedTuple

from expert.engine.network import Network
from expert.engine.outcomes import UnknownName
from expert.engine.reasons import Reason, conflict_sources, reason_for, reason_for_rule, sources_behind
from expert.engine.spreading import Ripple, Tally
from expert.language.model import All, Any, Condition, Is, Not


class Change(NamedTuple):
    """What one answer, or taking one back, changed.

    `narrowed`: each fact whose possible outcomes changed, with those before and those after (more, when an answer was
    taken back). `fired` and `unfired`: rules, premises before conclusions.
    """

    narrowed: Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]]
    fired: tuple[str, ...]
    unfired: tuple[str, ...]


class State:
    """The possible outcomes of every fact, given what the sources say. A source is any label, such as "answer 4".

    `tally` holds the counts; `said` is what each source says, fact and mask by number, in the order they first spoke.
    Both are for this package to read.
    """

    __slots__ = ("_fired", "network", "said", "tally")

    def __init__(self, network: Network) -> None:
        self.network = network
        self.tally = Tally(network)
        self.said: dict[str, dict[int, int]] = {}
        self._fired: dict[str, None] = {}
        self._keep(self._spread(self.tally.begin()))

    # ------------------------------------------------------------ asking

    def possible(self, fact: str) -> tuple[str, ...]:
        """The outcomes still possible, in the author's order. Empty: the fact is contradictory."""
        number = self.network.facts.number(fact)
        return self.network.facts.named(number, self.tally.masks[number])

    def truth(self, condition: Condition) -> bool | None:
        """True, False, or None for not known yet."""
        match condition:
            case Is(fact=fact, outcomes=outcomes):
                number, mask = self.network.facts.read(fact, outcomes)
                left = self.tally.masks[number]
                if not left:
                    return None
                return True if left & mask == left else None if left & mask else False
            case Not(part=part):
                truth = self.truth(part)
                return None if truth is None else not truth
            case All(parts=parts):
                truths = [self.truth(part) for part in parts]
                return False if False in truths else None if None in truths else True
            case Any(parts=parts):
                truths = [self.truth(part) for part in parts]
                return True if True in truths else None if None in truths else False

    @property
    def fired(self) -> Set[str]:
        """The rules whose condition is true. A view: it follows the state."""
        return self._fired.keys()

    @property
    def sources(self) -> Mapping[str, Mapping[str, tuple[str, ...]]]:
        """What each source says, in the order in which they first spoke."""
        facts = self.network.facts
        return {
            source: {facts.names[fact]: facts.named(fact, mask) for fact, mask in said.items()}
            for source, said in self.said.items()
        }

    def conflicts(self) -> tuple[str, ...]:
        """The facts left without any possible outcome."""
        return tuple(self.network.facts.names[fact] for fact, left in enumerate(self.tally.masks) if not left)

    def reasons(self, fact: str) -> Reason:
        """Why the fact is what it is: for each outcome excluded one cause, followed down to the sources."""
        number = self.network.facts.number(fact)
        return reason_for(self, ((number, self.tally.masks[number]),))[0]

    def reason_for_rule(self, rule: str) -> tuple[Reason, ...]:
        """What makes the condition of a rule true that has fired; ValueError when it has not."""
        if rule not in self._fired:
            raise ValueError(f"rule {rule} has not fired")
        return reason_for_rule(self, self.network.rule(rule))

    def sources_behind(self, fact: str, excluded: str) -> frozenset[str]:
        """Sources that suffice to exclude this outcome; ValueError when it is still possible."""
        test = number, mask = self.network.facts.read(fact, (excluded,))
        if self.tally.masks[number] & mask:
            raise ValueError(f"{fact} may still be {excluded}")
        return sources_behind(self, self.network.facts.others(test))

    def conflict_answers(self, fact: str) -> tuple[str, ...]:
        """Sources that contradict each other about the fact; without any one of them they would not.

        None when the rules contradict each other by themselves. Raises ValueError when the fact is not contradictory.
        """
        number = self.network.facts.number(fact)
        if self.tally.masks[number]:
            raise ValueError(f"{fact} is not contradictory")
        return conflict_sources(self, number)

    def only(self, sources: Iterable[str]) -> State:
        """A state that knows nothing but what these sources say."""
        other = State(self.network)
        for source in sources:
            other.say(source, self._said_by(source))
        return other

    def copy(self) -> State:
        """A state of its own that knows the same."""
        other = object.__new__(State)
        other.network = self.network
        other.tally = self.tally.copy()
        other.said = {source: said.copy() for source, said in self.said.items()}
        other._fired = self._fired.copy()
        return other

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, State):
            return NotImplemented
        return self.network is other.network and self.said == other.said and self.tally == other.tally

    @property
    def counters_touched(self) -> int:
        """How often a gate or an outcome has been counted up or down so far. For measuring only."""
        return self.tally.gates_counted + self.tally.outcomes_counted

    # ------------------------------------------------------------ changing

    def narrow(self, source: str, fact: str, outcomes: Iterable[str]) -> Change:
        """The source says that the fact is one of these outcomes. Replaces what it said about this fact before."""
        number, mask = self._read(fact, outcomes)
        return self.say(source, {number: mask})

    def narrow_all(self, source: str, facts: Mapping[str, Iterable[str]]) -> Change:
        """The same for several facts at once, such as the data of a machine."""
        return self.say(source, dict(self._read(fact, outcomes) for fact, outcomes in facts.items()))

    def say(self, source: str, masks: Mapping[int, int]) -> Change:
        """The same by number."""
        said = self.said.setdefault(source, {})
        support, ripple = self.network.facts.support, Ripple()
        for fact, mask in masks.items():
            if fact in said:
                self.tally.release(support(fact, said[fact]), ripple)
            said[fact] = mask
            self.tally.hold(support(fact, mask), ripple)
        return self._keep(self._spread(ripple))

    def take_back(self, source: str) -> Change:
        """Forget all that the source said. Raises UnknownName when it has said nothing."""
        said = self._said_by(source)
        ripple = Ripple()
        for fact, mask in said.items():
            self.tally.release(self.network.facts.support(fact, mask), ripple)
        del self.said[source]
        return self._keep(self._spread(ripple))

    def what_if(self, fact: str, outcomes: Iterable[str]) -> Change:
        """What `narrow` from a new source would change. Changes nothing."""
        support = self.network.facts.support(*self._read(fact, outcomes))
        ripple = Ripple()
        self.tally.hold(support, ripple)
        change = self._spread(ripple)
        back = Ripple()
        self.tally.release(support, back)
        self.tally.spread(back)
        return change

    def _read(self, fact: str, outcomes: Iterable[str]) -> tuple[int, int]:
        test = self.network.facts.read(fact, tuple(outcomes))
        if not test[1]:
            raise ValueError(f"an answer must leave {fact} at least one outcome")
        return test

    def _said_by(self, source: str) -> Mapping[int, int]:
        if source not in self.said:
            raise UnknownName(f"'{source}' has said nothing")
        return self.said[source]

    def _spread(self, ripple: Ripple) -> Change:
        changed = self.tally.spread(ripple)
        facts, masks = self.network.facts, self.tally.masks
        narrowed = {}
        for fact in changed:
            named = facts.outcomes[fact].named
            narrowed[facts.names[fact]] = named[ripple.before[fact]], named[masks[fact]]
        if not ripple.turned:
            return Change(narrowed, (), ())
        lacking, rules = self.tally.lacking, self.network.rule_names
        return Change(
            narrowed,
            tuple(rules[rule] for rule in ripple.turned if lacking[rule] <= 0),
            tuple(rules[rule] for rule in ripple.turned if lacking[rule] > 0),
        )

    def _keep(self, change: Change) -> Change:
        for rule in change.unfired:
            del self._fired[rule]
        for rule in change.fired:
            self._fired[rule] = None
        return change
