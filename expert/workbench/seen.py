"""What the simulated machine shows, as the rules read it: which answers, and so which rules, come up with which fault.

Every machine of the record has a bit. The machines on which something is so are a number with their bits set, so that
all machines are looked at in one step. What cannot be seen on a machine is not so there.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, cached_property

from expert.language.model import Condition, Machine, Question, RuleBase
from expert.trade.quantities.units import read_quantity
from expert.witness.record import MachineRecord, Place, Shown
from expert.workbench.readings import NotRead, Readings, names_behind, resting_on
from expert.workbench.ways import Way

Mask = int
WaysOf = Callable[[Condition, Mapping[str, tuple[str, ...]]], tuple[Way, ...]]


class SeenMachines:
    """The machines of one record, read by one rule base.

    `ways`: by rule, the ways in which it fires; `ways_of`: those of a condition on machines on which all this applies.
    """

    def __init__(
        self, base: RuleBase, record: MachineRecord, ways: Mapping[str, tuple[Way, ...]], ways_of: WaysOf
    ) -> None:
        self.base = base
        self.record = record
        self.ways = ways
        self._ways_of = ways_of
        self.type = base.machines[record.machine]
        self._machines = {place.name: _made(self.type, place) for place in record.places}
        self._put: dict[str, Mask] = {}
        self._columns = _columns_of(record)
        self._held: dict[tuple[str, frozenset[str]], Mask] = {}

    # ------------------------------------------------------------ answers

    @cached_property
    def everywhere(self) -> Mask:
        """All machines."""
        return (1 << len(self.record.shown)) - 1

    @cached_property
    def sound(self) -> Mask:
        """The machines without a fault."""
        return self._where(lambda row: not row.fault)

    @cached_property
    def answers(self) -> Mapping[str, Mapping[tuple[str, ...], Mask]]:
        """By question, what an answer leaves possible (one outcome, or two near a limit), and on which machines."""
        kept, found = self._columns.read, {}
        for question in self.base.questions.values():
            key = self._all_that_decides(question)
            if key not in kept:
                kept[key] = self._answers_to(question)
            found[question.id] = kept[key]
        return found

    def _all_that_decides(self, question: Question) -> tuple[Hashable, ...]:
        """What the reading of a question rests on: where it is the same after an edit, nothing is read anew."""
        plain = (question.id, question.outcomes, repr(question.applies), self._made_as)
        if not question.readings:
            return plain
        behind = sorted(names_behind(self.base, question))
        worked = [repr(self.base.work_outs[name]) for name in behind if name in self.base.work_outs]
        asked = [repr(self.base.questions[name].form) for name in behind if name in self.base.questions]
        return (*plain, repr(question.form), repr(self.base.instruments.get(question.instrument)), *worked, *asked)

    @cached_property
    def _made_as(self) -> str:
        return repr((self.type.plate, self.type.features))

    def _answers_to(self, question: Question) -> Mapping[tuple[str, ...], Mask]:
        """Machines of one place on which the same is typed, and the same at what the limits rest on, answer alike."""
        alike = list(self._columns.typed.get(question.id, {}).values())
        for name in resting_on(self.base, question):
            there = self._columns.typed.get(name, {})
            split = [*there.values(), self.everywhere & ~_any(there.values())]
            alike = [both for mask in alike for other in split if (both := mask & other)]
        found: dict[tuple[str, ...], Mask] = {}
        for machines in alike:
            outcomes = self._read(question, self.record.shown[machines.bit_length() - 1])
            if outcomes:
                found[outcomes] = found.get(outcomes, 0) | machines
        return found

    def _read(self, question: Question, row: Shown) -> tuple[str, ...]:
        """What the answer leaves possible; () where it is no answer to this question or its limits are not known."""
        machine = self._machines[row.place]
        if not all(machine.features.get(f.removeprefix("machine.")) in v for f, v in question.applies.items()):
            return ()
        try:
            return Readings(self.base, machine, row.typed).outcomes(question, row.typed[question.id])
        except NotRead:
            return ()

    def told(self, question: str) -> Mask:
        """The machines on which the question can be answered."""
        return _any(self.answers.get(question, {}).values())

    def says(self, question: str, outcomes: Iterable[str]) -> Mask:
        """The machines on which the answer is certainly one of these, and on which the question is put at all."""
        wanted = set(outcomes)
        found = _any(mask for left, mask in self.answers.get(question, {}).items() if set(left) <= wanted)
        return found & self.put(question)

    def put(self, question: str) -> Mask:
        """The machines on which what the question waits for holds."""
        if question not in self._put:
            self._put[question] = self.everywhere  # a question that waits for itself is told elsewhere
            asked = self.base.questions[question]
            self._put[question] = self.where(self._ways_of(asked.only_if, asked.applies))
        return self._put[question]

    # ------------------------------------------------------------ conditions and rules

    def where(self, ways: Iterable[Way]) -> Mask:
        """The machines on which one of the ways comes up, whatever is complained about."""
        return _any(self._on(way) for way in ways)

    def _on(self, way: Way) -> Mask:
        left = self.everywhere
        for fact, outcomes in way.items():
            if (fact, outcomes) not in self._held:
                self._held[fact, outcomes] = self._holds(fact, outcomes)
            left &= self._held[fact, outcomes]
            if not left:
                break
        return left

    def _holds(self, fact: str, outcomes: frozenset[str]) -> Mask:
        if fact.startswith("complaint."):
            return self.everywhere
        if fact.startswith("machine."):
            feature = fact.removeprefix("machine.")
            return self._where(lambda row: self._machines[row.place].features.get(feature) in outcomes)
        if fact in self.base.faults:
            there = self.having([fact])
            return (there if "present" in outcomes else 0) | (self.everywhere & ~there if "absent" in outcomes else 0)
        return self.says(fact, outcomes) if fact in self.base.questions else 0

    @cached_property
    def fires(self) -> Mapping[str, Mask]:
        """By rule, the machines on which it fires once everything is answered."""
        return {name: self.where(ways) for name, ways in self.ways.items()}

    # ------------------------------------------------------------ faults

    def having(self, faults: Iterable[str]) -> Mask:
        """The machines that have one of these faults; one that the rules know by several names counts for each."""
        there = self._columns.having
        return _any(there.get(fault, 0) for fault in faults)

    def only(self, fault: str) -> Mask:
        """The machines that have this very fault, and no other name for it."""
        return self._columns.only.get(fault, 0)

    def touching(self, part: str) -> Mask:
        """The machines on which a part is not as it should be: by a fault of its own, or by what a fault did to it."""
        own = self.having(fault.id for fault in self.base.parts[part].faults)
        return own | self._columns.parts.get(part, 0)

    def names(self, mask: Mask, most: int = 2) -> str:
        """Machines in words, as a witness: the faults that they have."""
        rows = [row for number, row in enumerate(self.record.shown) if mask >> number & 1]
        faults = list(dict.fromkeys(row.fault or "no fault" for row in rows))
        more = f" and {len(faults) - most} more" if len(faults) > most else ""
        return ", ".join(f"'{fault}'" for fault in faults[:most]) + more

    def _where(self, holds: Callable[[Shown], bool]) -> Mask:
        return sum(1 << number for number, row in enumerate(self.record.shown) if holds(row))


@dataclass(frozen=True, slots=True)
class _Columns:
    """A record column by column. `typed`: by question, the machines of one place on which the same is typed.

    `read`: what rule bases before made of it, kept from one edit to the next.
    """

    typed: Mapping[str, Mapping[tuple[str, str], Mask]]
    having: Mapping[str, Mask]
    only: Mapping[str, Mask]
    parts: Mapping[str, Mask]
    read: dict[tuple[Hashable, ...], Mapping[tuple[str, ...], Mask]] = field(default_factory=dict)


@cache
def _columns_of(record: MachineRecord) -> _Columns:
    """The columns of a record, which is loaded once and looked at after every edit."""
    typed: dict[str, dict[tuple[str, str], Mask]] = {}
    having: dict[str, Mask] = {}
    only: dict[str, Mask] = {}
    parts: dict[str, Mask] = {}
    for number, row in enumerate(record.shown):
        bit = 1 << number
        for question, text in row.typed.items():
            column = typed.setdefault(question, {})
            column[row.place, text] = column.get((row.place, text), 0) | bit
        for names, masks in ((row.ids, having), (row.ids if len(row.ids) == 1 else (), only), (row.parts, parts)):
            for name in names:
                masks[name] = masks.get(name, 0) | bit
    return _Columns(typed, having, only, parts)


def _any(masks: Iterable[Mask]) -> Mask:
    found = 0
    for mask in masks:
        found |= mask
    return found


def _made(type_: Machine, place: Place) -> Machine:
    """The machine type as it was made there; what its plate says that has no kind in the rules is left out."""
    plate = {
        name: read_quantity(text, type_.plate[name].kind) for name, text in place.plate.items() if name in type_.plate
    }
    return replace(type_, plate={**type_.plate, **plate}, features={**type_.features, **place.features})
