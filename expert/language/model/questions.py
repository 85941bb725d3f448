"""Records of what can be asked and worked out: readings, questions, findings, worked-out values."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from expert.language.model.rules import NOWHERE, Condition, Position
from expert.trade.frozen import dataclass

if TYPE_CHECKING:
    from expert.language.formulas.formula import Formula
    from expert.trade.quantities.units import Quantity


@dataclass(frozen=True, slots=True)
class Reading:
    """A named band of a measured value: from `low` to `high` (None: no limit). Both None: takes the rest.

    `source`: where these limits come from; '' where the question's own source holds.
    """

    name: str
    low: Formula | None
    high: Formula | None
    source: str = ""
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Measure:
    """How a number is taken: kind (`expert.trade.quantities`), unit of a bare number, instrument, range."""

    kind: str
    instrument: str
    unit: str
    believable: tuple[Quantity, Quantity] | None
    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class YesNo:
    """Answered with yes or no."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several things seen. `labels`: each outcome as the technician reads it."""

    labels: Mapping[str, str]


# The form of a question decides how it is put, read, judged and told: whoever asks for the form matches all of them.
Form = YesNo | Choice | Measure


@dataclass(frozen=True, slots=True)
class Preparation:
    """What must be set up before a question can be put, in a bench state of its own, such as covers off.

    `leaves`: the bench states that hold once it is set up, such as a wire taken off.
    """

    bench: Mapping[str, str]
    steps: tuple[str, ...]
    leaves: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Drawing:
    """What is joined to what, in plain text. `marks`: words in it, each there once, at which is tested."""

    lines: tuple[str, ...]
    marks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to look at or measure. `outcomes` in the order the author gave them.

    `measure` is None for yes/no and choices. `sound` are the outcomes that a sound machine shows (may be empty: an
    observation that is neither good nor bad). `only_if` must be true before the question may be put. `bench` maps a
    bench dimension to the state it needs. `second_tests` decide where a reading lies too close to a limit, the best
    first. `source`: where the limits of its readings come from. `alters`: what the test itself changes of the bench,
    such as a lead pulled off. `nominal`: the worked-out value that the limits lie around. `slip`: for the customer,
    what was measured ("earth connection"), or the sentence that a sound answer makes true. `mends`: faults that making
    the test puts right by itself, as drying does.
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
    prepare: Preparation | None = None
    second_tests: tuple[str, ...] = ()
    source: str = ""
    nominal: str = ""
    alters: Mapping[str, str] = field(default_factory=dict)
    slip: str = ""
    mends: tuple[str, ...] = ()
    drawing: Drawing | None = None
    at: Position = field(default=NOWHERE, compare=False)

    @property
    def form(self) -> Form:
        """How it is answered."""
        if self.measure is not None:
            return self.measure
        return Choice(self.labels) if self.labels else YesNo()

    @property
    def instrument(self) -> str:
        """The instrument it takes, by id; '' for what is seen, heard or felt."""
        return self.measure.instrument if self.measure is not None else ""

    @property
    def readings(self) -> tuple[Reading, ...]:
        """The bands of a measured value; none for what is not measured."""
        return self.measure.readings if self.measure is not None else ()

    def possible_with(self, instruments: Container[str]) -> bool:
        """Whether it can be answered with these instruments."""
        return not self.instrument or self.instrument in instruments

    def label(self, outcome: str) -> str:
        """An outcome as the technician reads it."""
        return self.labels.get(outcome, outcome)


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

    `assume` gives a value for each reading that the job may lack: a quantity, or a rating (`plate.rated_voltage`).
    """

    id: str
    circuit: str
    name: str
    kind: str
    unit: str
    formula: Formula
    assume: Mapping[str, Quantity | str]
    source: str
    at: Position = field(default=NOWHERE, compare=False)
