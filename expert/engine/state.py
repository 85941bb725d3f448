"""What is known at one moment of a job: for every fact the outcomes still possible, and the rules that have fired."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from heapq import heappop, heappush
from typing import NamedTuple

from expert.engine.network import Network
from expert.engine.outcomes import UnknownName
from expert.engine.reasons import Reason, conflict_sources, reason_for, reason_for_rule, sources_behind
from expert.language.model import All, Any, Condition, Is, Not

# Stands for the empty set while conditions are judged: it lies within no mask, so nothing follows from a contradiction.
CONTRADICTION = -1


class Change(NamedTuple):
    """What one answer, or taking one back, changed.

    `narrowed`: each fact whose possible outcomes changed, with those before and those after (more, when an answer was
    taken back). `fired` and `unfired`: rules, premises before conclusions.
    """

    narrowed: Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]]
    fired: tuple[str, ...]
    unfired: tuple[str, ...]


class _Ripple:
    """One change while it spreads: each fact's mask before it, facts still to look at, rules that turned."""

    __slots__ = ("before", "queue", "turned")

    def __init__(self) -> None:
        self.before: dict[int, int] = {}
        self.queue: list[int] = []
        self.turned: dict[int, None] = {}


class State:
    """The possible outcomes of every fact, given what the sources say. A source is any label, such as "answer 4".

    Three lists carry it all: the mask of each fact; for each outcome of each fact how many answers and fired rules
    exclude it; and for each gate how much it lacks. Because no conclusion rests on itself, they are a function of what
    the sources say, whatever the order; so taking back is counting backwards.

    `masks`, `lacking` and `said` (by number: source, fact, mask) are there for this package to read. `counters_touched`
    adds up the gates and outcomes counted so far.
    """

    __slots__ = ("_counts", "_fired", "counters_touched", "lacking", "masks", "network", "said")

    def __init__(self, network: Network) -> None:
        self.network = network
        self.masks = [outcomes.full for outcomes in network.outcomes]
        self._counts = [0] * network.first_count[-1]
        self.lacking = list(network.needs)
        self.said: dict[str, dict[int, int]] = {}
        self._fired: dict[str, None] = {}
        self.counters_touched = 0
        start = _Ripple()
        for gate in network.open_gates:
            self._turn([gate], True, start)
        for fact in network.always:
            if fact not in start.before:
                start.queue.append(fact)
            # As if the fact had just come out of a contradiction: then its full set is news to the conditions.
            start.before[fact] = 0
        start.queue.sort()
        self._keep(self._spread(start))

    # ------------------------------------------------------------ asking

    def possible(self, fact: str) -> tuple[str, ...]:
        """The outcomes still possible, in the author's order. Empty: the fact is contradictory."""
        number = self.network.fact(fact)
        return self.network.outcomes[number].named[self.masks[number]]

    def truth(self, condition: Condition) -> bool | None:
        """True, False, or None for not known yet."""
        match condition:
            case Is(fact=fact, outcomes=outcomes):
                number = self.network.fact(fact)
                mask = self.network.outcomes[number].mask(fact, outcomes)
                left = self.masks[number]
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
        names, outcomes = self.network.fact_names, self.network.outcomes
        return {
            source: {names[fact]: outcomes[fact].named[mask] for fact, mask in said.items()}
            for source, said in self.said.items()
        }

    def conflicts(self) -> tuple[str, ...]:
        """The facts left without any possible outcome."""
        return tuple(self.network.fact_names[fact] for fact, left in enumerate(self.masks) if not left)

    def reasons(self, fact: str) -> Reason:
        """Why the fact is what it is: for each outcome excluded one cause, followed down to the sources."""
        number = self.network.fact(fact)
        return reason_for(self, ((number, self.masks[number]),))[0]

    def reason_for_rule(self, rule: str) -> tuple[Reason, ...]:
        """What makes the condition of a rule true that has fired; ValueError when it has not."""
        if rule not in self._fired:
            raise ValueError(f"rule {rule} has not fired")
        return reason_for_rule(self, self.network.rule(rule))

    def sources_behind(self, fact: str, excluded: str) -> frozenset[str]:
        """Sources that suffice to exclude this outcome; ValueError when it is still possible."""
        number = self.network.fact(fact)
        shape = self.network.outcomes[number]
        outcome = shape.mask(fact, (excluded,))
        if self.masks[number] & outcome:
            raise ValueError(f"{fact} may still be {excluded}")
        return sources_behind(self, (number, shape.full & ~outcome))

    def conflict_answers(self, fact: str) -> tuple[str, ...]:
        """Sources that contradict each other about the fact; without any one of them they would not.

        Raises ValueError when the fact is not contradictory.
        """
        number = self.network.fact(fact)
        if self.masks[number]:
            raise ValueError(f"{fact} is not contradictory")
        return conflict_sources(self, number)

    def only(self, sources: Iterable[str]) -> State:
        """A state that knows nothing but what these sources say."""
        other = State(self.network)
        for source in sources:
            other.say(source, self.said[source])
        return other

    def copy(self) -> State:
        """A state of its own that knows the same."""
        other = object.__new__(State)
        other.network = self.network
        other.masks = self.masks.copy()
        other._counts = self._counts.copy()
        other.lacking = self.lacking.copy()
        other.said = {source: said.copy() for source, said in self.said.items()}
        other._fired = self._fired.copy()
        other.counters_touched = self.counters_touched
        return other

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, State):
            return NotImplemented
        return (
            self.network is other.network
            and self.said == other.said
            and self.masks == other.masks
            and self._fired == other._fired
            and self._counts == other._counts
            and self.lacking == other.lacking
        )

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
        ripple = _Ripple()
        for fact, mask in masks.items():
            if fact in said:
                self._release(fact, said[fact], ripple)
            said[fact] = mask
            self._hold(fact, mask, ripple)
        return self._keep(self._spread(ripple))

    def take_back(self, source: str) -> Change:
        """Forget all that the source said. Raises UnknownName when it has said nothing."""
        if source not in self.said:
            raise UnknownName(f"nothing to take back from '{source}'")
        ripple = _Ripple()
        for fact, mask in self.said.pop(source).items():
            self._release(fact, mask, ripple)
        return self._keep(self._spread(ripple))

    def what_if(self, fact: str, outcomes: Iterable[str]) -> Change:
        """What `narrow` from a new source would change. Changes nothing."""
        number, mask = self._read(fact, outcomes)
        touched = self.counters_touched
        ripple = _Ripple()
        self._hold(number, mask, ripple)
        change = self._spread(ripple)
        back = _Ripple()
        self._release(number, mask, back)
        self._spread(back)
        self.counters_touched = touched
        return change

    def _read(self, fact: str, outcomes: Iterable[str]) -> tuple[int, int]:
        number = self.network.fact(fact)
        mask = self.network.outcomes[number].mask(fact, outcomes)
        if not mask:
            raise ValueError(f"an answer must leave {fact} at least one outcome")
        return number, mask

    def _keep(self, change: Change) -> Change:
        for rule in change.unfired:
            del self._fired[rule]
        for rule in change.fired:
            self._fired[rule] = None
        return change

    # ------------------------------------------------------------ spreading

    def _hold(self, fact: int, mask: int, ripple: _Ripple) -> None:
        """One more answer or rule keeps the fact within the mask."""
        left = self.masks[fact]
        if fact not in ripple.before:
            ripple.before[fact] = left
            heappush(ripple.queue, fact)
        self.masks[fact] = left & mask
        outcomes, first = self.network.outcomes[fact], self.network.first_count[fact]
        for place in outcomes.places[outcomes.full & ~mask]:
            self._counts[first + place] += 1

    def _release(self, fact: int, mask: int, ripple: _Ripple) -> None:
        """One answer or rule less keeps the fact within the mask."""
        left = self.masks[fact]
        if fact not in ripple.before:
            ripple.before[fact] = left
            heappush(ripple.queue, fact)
        outcomes, first = self.network.outcomes[fact], self.network.first_count[fact]
        for place in outcomes.places[outcomes.full & ~mask]:
            self._counts[first + place] -= 1
            if not self._counts[first + place]:
                left |= 1 << place
        self.masks[fact] = left

    def _spread(self, ripple: _Ripple) -> Change:
        """Follow the change to its end. Lower numbers first, so that each fact is settled when its turn comes."""
        watchers, names, shapes = self.network.watchers, self.network.fact_names, self.network.outcomes
        narrowed = {}
        while ripple.queue:
            fact = heappop(ripple.queue)
            before, after = ripple.before[fact], self.masks[fact]
            if before == after:
                continue
            named = shapes[fact].named
            narrowed[names[fact]] = named[before], named[after]
            before, after = before or CONTRADICTION, after or CONTRADICTION
            for mask, gates in watchers[fact]:
                now = after & mask == after
                if now != (before & mask == before):
                    turned = self._count(gates, now)
                    if turned:
                        self._turn(turned, now, ripple)
        if not ripple.turned:
            return Change(narrowed, (), ())
        lacking, rules = self.lacking, self.network.rule_names
        return Change(
            narrowed,
            tuple(rules[rule] for rule in ripple.turned if lacking[rule] <= 0),
            tuple(rules[rule] for rule in ripple.turned if lacking[rule] > 0),
        )

    def _count(self, gates: Iterable[int], true: bool) -> list[int]:
        """Tell the gates that a part of each became true, or is so no longer. Returns those that turned with it."""
        lacking = self.lacking
        turned = []
        for gate in gates:
            left = lacking[gate]
            if true:
                left -= 1
                lacking[gate] = left
            else:
                lacking[gate] = left + 1
            if not left:
                turned.append(gate)
        return turned

    def _turn(self, turned: list[int], true: bool, ripple: _Ripple) -> None:
        """Pass on that these gates became true, or are so no longer: upwards to their parents, and to conclusions."""
        network = self.network
        # The list grows while it is read: parents that turn come after their parts.
        for gate in turned:
            parent = network.parents[gate]
            if parent >= 0:
                turned += self._count((parent,), true)
                continue
            if gate in ripple.turned:
                del ripple.turned[gate]
            else:
                ripple.turned[gate] = None
            for fact, mask in network.narrows[gate]:
                if true:
                    self._hold(fact, mask, ripple)
                else:
                    self._release(fact, mask, ripple)
