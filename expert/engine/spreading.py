"""How a change spreads from fact to fact. All the work of the engine is done here."""

from __future__ import annotations

from heapq import heappop, heappush

from expert.engine.facts import Support
from expert.engine.network import Network

# Stands for the empty set while conditions are judged: it lies within no mask, so nothing follows from a contradiction.
CONTRADICTION = -1


class Ripple:
    """One change while it spreads.

    `before`: the mask of each fact reached, as it was before; `queue`: facts still to look at; `turned`: rules that
    have become true, or have ceased to be.
    """

    __slots__ = ("before", "queue", "turned")

    def __init__(self) -> None:
        self.before: dict[int, int] = {}
        self.queue: list[int] = []
        self.turned: dict[int, None] = {}


class Tally:
    """What is counted, in three lists.

    `masks`: the possible outcomes of each fact; `excluded`: for each outcome of each fact how many answers and fired
    rules exclude it; `lacking`: what each gate lacks. An outcome is possible when nothing excludes it, a gate is true
    when it lacks nothing. No conclusion rests on itself, so all counts are a function of what the sources say, whatever
    the order; and taking back is counting backwards. `gates_counted` and `outcomes_counted` measure the work.
    """

    __slots__ = ("excluded", "gates_counted", "lacking", "masks", "network", "outcomes_counted")

    def __init__(self, network: Network) -> None:
        self.network = network
        self.masks = [outcomes.full for outcomes in network.facts.outcomes]
        self.excluded = [0] * network.facts.counts
        self.lacking = list(network.needs)
        self.gates_counted = self.outcomes_counted = 0

    def copy(self) -> Tally:
        """The same counts in lists of their own."""
        other = object.__new__(Tally)
        other.network = self.network
        other.masks = self.masks.copy()
        other.excluded = self.excluded.copy()
        other.lacking = self.lacking.copy()
        other.gates_counted, other.outcomes_counted = self.gates_counted, self.outcomes_counted
        return other

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Tally):
            return NotImplemented
        return (self.masks, self.excluded, self.lacking) == (other.masks, other.excluded, other.lacking)

    def begin(self) -> Ripple:
        """The first change of all: what is true though nothing has been said yet."""
        ripple = Ripple()
        self._pass_on(list(self.network.open_gates), True, ripple)
        for fact in self.network.always:
            if fact not in ripple.before:
                ripple.queue.append(fact)
            # As if the fact had just come out of a contradiction: then its full set is news to the conditions.
            ripple.before[fact] = 0
        ripple.queue.sort()
        return ripple

    def hold(self, support: Support, ripple: Ripple) -> None:
        """One more answer or rule keeps a fact within a mask."""
        fact, mask, first, excludes = support
        left = self.masks[fact]
        if fact not in ripple.before:
            ripple.before[fact] = left
            heappush(ripple.queue, fact)
        self.masks[fact] = left & mask
        excluded = self.excluded
        for _, place in excludes:
            excluded[first + place] += 1
        self.outcomes_counted += len(excludes)

    def release(self, support: Support, ripple: Ripple) -> None:
        """One answer or rule less keeps a fact within a mask."""
        fact, _, first, excludes = support
        left = self.masks[fact]
        if fact not in ripple.before:
            ripple.before[fact] = left
            heappush(ripple.queue, fact)
        excluded = self.excluded
        for bit, place in excludes:
            excluded[first + place] = count = excluded[first + place] - 1
            if not count:
                left |= bit
        self.masks[fact] = left
        self.outcomes_counted += len(excludes)

    def spread(self, ripple: Ripple) -> list[int]:
        """Follow the change to its end. Returns the facts that changed.

        Lower numbers first: nothing still to come can reach a fact whose turn it is, so one look at each is enough.
        """
        masks, watchers, before, queue = self.masks, self.network.watchers, ripple.before, ripple.queue
        changed = []
        while queue:
            fact = heappop(queue)
            old, new = before[fact], masks[fact]
            if old == new:
                continue
            changed.append(fact)
            old, new = old or CONTRADICTION, new or CONTRADICTION
            for mask, gates in watchers[fact]:
                true = new & mask == new
                if true != (old & mask == old):
                    turned = self._count(gates, true)
                    if turned:
                        self._pass_on(turned, true, ripple)
        return changed

    def _count(self, gates: tuple[int, ...], true: bool) -> list[int]:
        """A part of each gate has become true, or has ceased to be. Returns the gates that turned with it."""
        lacking = self.lacking
        turned = []
        if true:
            for gate in gates:
                lacking[gate] = left = lacking[gate] - 1
                if not left:
                    turned.append(gate)
        else:
            for gate in gates:
                left = lacking[gate]
                lacking[gate] = left + 1
                if not left:
                    turned.append(gate)
        self.gates_counted += len(gates)
        return turned

    def _pass_on(self, turned: list[int], true: bool, ripple: Ripple) -> None:
        """These gates have turned: tell the gate above or, where there is none, the facts that the rule narrows."""
        parents, narrows = self.network.parents, self.network.narrows
        act = self.hold if true else self.release
        # The list grows while it is read: a gate above comes after its parts.
        for gate in turned:
            if parents[gate] >= 0:
                turned += self._count((parents[gate],), true)
                continue
            if gate in ripple.turned:
                del ripple.turned[gate]
            else:
                ripple.turned[gate] = None
            for support in narrows[gate]:
                act(support, ripple)
