"""The rule base as immutable, typed values.

Everything a rule file says becomes one of these records once, on reading; nothing later touches YAML.
Sentences keep their author's words. Every record that an author can get wrong carries the position it came from.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from expert.language.formula import Formula
    from expert.trade.instruments import Instrument
    from expert.trade.units import Quantity


@dataclass(frozen=True, slots=True, order=True)
class Position:
    """A place in a rule file, counted from 1 as people do."""

    path: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"


NOWHERE = Position("", 0, 0)


# ---------------------------------------------------------------- conditions


@dataclass(frozen=True, slots=True)
class Is:
    """The fact is one of these outcomes."""

    fact: str
    outcomes: tuple[str, ...]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class All:
    """Every part holds. `All(())` is always true."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Any:
    """At least one part holds. `Any(())` is never true."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Not:
    """The part does not hold."""

    part: Condition


Condition = Is | All | Any | Not
ALWAYS = All(())


# ---------------------------------------------------------------- conclusions


@dataclass(frozen=True, slots=True)
class Narrow:
    """The fact can only be one of these outcomes. `word` is the author's keyword: confirm, clear or conclude."""

    fact: str
    outcomes: tuple[str, ...]
    word: str
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Suspect:
    """These faults come under suspicion; `in_order` (check) means: test them in this order."""

    faults: tuple[str, ...]
    in_order: bool
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Evidence:
    """Weight of evidence for a fault (positive) or against it (negative), in decibans."""

    fault: str
    decibans: int
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Normal:
    """This is how a sound machine behaves: answers these complaints."""

    complaints: tuple[str, ...]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Say:
    """Something the technician must read. `word` is caution, stop_work or advise.

    For a caution `text` is the sentence of the named caution; for stop_work it says what the danger is.
    """

    word: str
    text: str
    at: Position = field(default=NOWHERE, compare=False)


Conclusion = Narrow | Suspect | Evidence | Normal | Say


@dataclass(frozen=True, slots=True)
class Rule:
    """When the condition is true, the conclusions hold. `because` is what the technician reads."""

    id: str
    circuit: str
    when: Condition
    then: tuple[Conclusion, ...]
    because: str
    source: str = ""
    at: Position = field(default=NOWHERE, compare=False)


# ---------------------------------------------------------------- readings


@dataclass(frozen=True, slots=True)
class Reading:
    """A named band of a measured value: from `low` to `high` (None: no limit). Both None: takes the rest."""

    name: str
    low: Formula | None
    high: Formula | None
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Measure:
    """How a number is taken: kind (`expert.trade.units`), instrument id, unit of a bare number, believable range."""

    kind: str
    instrument: str
    unit: str
    believable: tuple[Quantity, Quantity] | None
    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to look at or measure. `outcomes` in the order the author gave them.

    `measure` is None for yes/no and choices. `sound` are the outcomes that a sound machine shows (may be empty:
    an observation that is neither good nor bad). `only_if` must be true before the question may be put.
    `bench` maps a bench dimension to the state it needs.
    """

    id: str
    circuit: str
    ask: str
    outcomes: tuple[str, ...]
    measure: Measure | None
    labels: Mapping[str, str]
    sound: tuple[str, ...]
    expect: str
    how: str
    bench: Mapping[str, str]
    minutes: float
    cautions: tuple[str, ...]
    only_if: Condition
    applies: Mapping[str, tuple[str, ...]]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Finding:
    """Something rules conclude: an inner name with its possible values."""

    id: str
    circuit: str
    name: str
    outcomes: tuple[str, ...]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class WorkOut:
    """A value computed from the plate, the readings and trade functions.

    `assume` gives a value for each reading that the job may lack.
    """

    id: str
    circuit: str
    name: str
    kind: str
    unit: str
    formula: Formula
    assume: Mapping[str, Quantity]
    source: str
    at: Position = field(default=NOWHERE, compare=False)


# ---------------------------------------------------------------- parts and faults


@dataclass(frozen=True, slots=True)
class Repair:
    """What mends a fault: minutes, steps, parts and consumables, cautions, and the bench state it needs."""

    minutes: float
    steps: tuple[str, ...]
    parts: tuple[str, ...]
    consumables: tuple[str, ...]
    cautions: tuple[str, ...]
    bench: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Fault:
    """A way a part can fail. `id` is `part.fault`.

    `explains`: complaints it can account for. `shows`: outcomes of questions it accounts for.
    `caused_by`: faults that may have brought it about and must be looked for before the new part is fitted.
    `prove`: questions that must come out sound after the repair.
    """

    id: str
    part: str
    name: str
    seen: str
    explains: tuple[str, ...]
    shows: Mapping[str, tuple[str, ...]]
    caused_by: tuple[str, ...]
    dangerous: bool
    repair: Repair
    prove: tuple[str, ...]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Part:
    id: str
    circuit: str
    name: str
    where: str
    applies: Mapping[str, tuple[str, ...]]
    faults: tuple[Fault, ...]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Circuit:
    id: str
    title: str
    applies: Mapping[str, tuple[str, ...]]
    at: Position = field(default=NOWHERE, compare=False)


# ---------------------------------------------------------------- the small files


@dataclass(frozen=True, slots=True)
class Complaint:
    """What the customer says. `words`: how customers put it, for searching."""

    id: str
    name: str
    words: tuple[str, ...]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Caution:
    id: str
    text: str
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Move:
    """One change of the bench state.

    `needs`: states of which one must already hold, by dimension. `makes`: what holds afterwards.
    `unless`: when true the move cannot be made. `confirm`: what the technician confirms; the answer is recorded.
    """

    id: str
    say: str
    needs: Mapping[str, tuple[str, ...]]
    makes: Mapping[str, str]
    minutes: float
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    confirm: str
    unless: Condition
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Arrival:
    """A way a machine may stand when it comes to the bench: the technician's words and the state that follows."""

    id: str
    say: str
    state: Mapping[str, str]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class InTime:
    """What happens to the bench by itself: a state in which `holds` turns into one with `becomes`.

    It counts as having happened once a test was made in the state, or a move leads out of it.
    """

    holds: Mapping[str, str]
    becomes: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Bench:
    """Bench dimensions with their states, how machines arrive, the safe state, and the moves between states.

    `qualified_only`: combinations of states allowed only to those qualified for live work. `service`: the questions
    that must come out sound before any repaired machine goes back to its owner. `in_time`: what changes by itself.
    """

    states: Mapping[str, tuple[str, ...]]
    arrives: Mapping[str, Arrival]
    safe: Mapping[str, str]
    qualified_only: tuple[Mapping[str, str], ...]
    moves: tuple[Move, ...]
    service: tuple[str, ...] = ()
    in_time: tuple[InTime, ...] = ()


@dataclass(frozen=True, slots=True)
class Feature:
    """A property machines differ in, with its possible values; `machine.<id>` in conditions."""

    id: str
    name: str
    values: tuple[str, ...]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class PlateValue:
    """A rating with a unit that a machine states; `plate.<id>` in formulas."""

    id: str
    name: str
    kind: str
    unit: str
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Machine:
    """A machine type: its layout in words, its features and its ratings."""

    id: str
    title: str
    layout: str
    features: Mapping[str, str]
    plate: Mapping[str, Quantity]
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class RuleBase:
    """All that the rule files say. Every mapping is keyed by id and keeps the files' order."""

    circuits: Mapping[str, Circuit]
    parts: Mapping[str, Part]
    faults: Mapping[str, Fault]
    questions: Mapping[str, Question]
    findings: Mapping[str, Finding]
    work_outs: Mapping[str, WorkOut]
    rules: Mapping[str, Rule]
    complaints: Mapping[str, Complaint]
    cautions: Mapping[str, Caution]
    features: Mapping[str, Feature]
    plate_values: Mapping[str, PlateValue]
    machines: Mapping[str, Machine]
    instruments: Mapping[str, Instrument]
    bench: Bench
    digest: str

    def outcomes(self) -> dict[str, tuple[str, ...]]:
        """Every fact with its outcomes: questions, findings, faults, machine features, complaints."""
        facts = {f"machine.{f.id}": f.values for f in self.features.values()}
        facts |= {f"complaint.{c}": ("yes", "no") for c in self.complaints}
        facts |= {q.id: q.outcomes for q in self.questions.values()}
        facts |= {f.id: f.outcomes for f in self.findings.values()}
        facts |= dict.fromkeys(self.faults, ("present", "absent"))
        return facts
