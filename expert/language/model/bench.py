"""Records of the small files: complaints, cautions, the bench and its moves, machine types."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from expert.language.model.rules import NEVER, NOWHERE, Condition, Position
from expert.trade.frozen import dataclass

if TYPE_CHECKING:
    from expert.trade.quantities.units import Quantity


@dataclass(frozen=True, slots=True)
class Complaint:
    """What the customer says. `words`: how customers put it, for searching. `seen`: the answers that show it here.

    `raised_when`: when the bench raises it itself, though nobody reported it. `gone_when`: its own re-test, the answers
    that close it by question; the first question that can be put is.
    """

    id: str
    name: str
    words: tuple[str, ...]
    seen: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    raised_when: Condition = NEVER
    gone_when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Caution:
    """A sentence shown before a step.

    `again`: the same in a few words, for whoever has read the whole sentence before; '' where it is always told whole.
    `lasts`: while the bench stays in one of these states it is not said again. `needed_in`: the bench states in which
    every question and repair has it. `needed_with`: words; whatever tells to do something with one of them has it.
    `work`: who may work in these states, "qualified" or "none"; '' leaves it open.
    """

    id: str
    text: str
    again: str = ""
    lasts: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    needed_in: tuple[Mapping[str, str], ...] = ()
    needed_with: tuple[str, ...] = ()
    work: str = ""
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Move:
    """One change of the bench state.

    `needs`: states of which one must already hold, by dimension. `makes`: what holds afterwards.
    `first`: questions put before the move unless they have an answer, so that what they find is on record.
    `unless`: when true the move cannot be made. `confirm`: what the technician confirms; the answer is recorded.
    `word`: what is typed to confirm it, so that nobody confirms what he has not read. `otherwise`: what holds when the
    technician says no, for a move that measures how the machine stands. `look_instead`: what is looked at where the
    move cannot be made, because a machine that does not come to it shows by that what is wrong with it.
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
    first: tuple[str, ...] = ()
    word: str = ""
    otherwise: Mapping[str, str] = field(default_factory=dict)
    look_instead: tuple[str, ...] = ()
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Arrival:
    """A way a machine may stand when it comes to the bench: the technician's words and the state that follows.

    `unsure`: it is what counts when nobody knows how the machine stands.
    """

    id: str
    say: str
    state: Mapping[str, str]
    unsure: bool = False
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class InTime:
    """What happens to the bench by itself: a state in which `holds` turns into one with `becomes`.

    It counts as having happened once a test was made in the state, or a move leads out of it.
    """

    holds: Mapping[str, str]
    becomes: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class ReadTwice:
    """The reading that decides is taken twice where it takes no longer than `longest` minutes; so are, before a search
    ends open, at most `looks` of those that cleared a suspect alone."""

    longest: float
    looks: float


@dataclass(frozen=True, slots=True)
class Bench:
    """Bench dimensions with their states, how machines arrive, the safe state, and the moves between states.

    `qualified_only`: combinations of states allowed only to those qualified for live work. `passing_only`: those that
    are only passed through, with no test or repair made in them. `service`: the questions
    that must come out sound before any repaired machine goes back to its owner. `opened`: the states that count as
    opened, and `after_opening`: the questions put before an opened machine goes back unrepaired. `in_time`: what
    changes by itself. `hand_back`: how a machine stands that goes back to its owner as fine, and `before_return`: the
    questions that must come out sound before, whatever the complaint was. `danger_met`: the question that tells, at any
    prompt, what dangerous thing just happened; '' where there is none. `check_out`: what shows that the machine as a
    whole does its work, put after the last repair, or before a machine goes back as how sound ones behave.
    `read_twice`: what is read a second time before a fault is named; None: nothing is.
    """

    states: Mapping[str, tuple[str, ...]]
    arrives: Mapping[str, Arrival]
    safe: Mapping[str, str]
    qualified_only: tuple[Mapping[str, str], ...]
    moves: tuple[Move, ...]
    passing_only: tuple[Mapping[str, str], ...] = ()
    service: tuple[str, ...] = ()
    in_time: tuple[InTime, ...] = ()
    opened: Mapping[str, str] = field(default_factory=dict)
    after_opening: tuple[str, ...] = ()
    hand_back: Mapping[str, str] = field(default_factory=dict)
    danger_met: str = ""
    before_return: tuple[str, ...] = ()
    check_out: tuple[str, ...] = ()
    read_twice: ReadTwice | None = None

    def is_live(self, state: Mapping[str, str]) -> bool:
        """Whether a state is one that only those may work in who are qualified for it."""
        return any(only.items() <= state.items() for only in self.qualified_only)


@dataclass(frozen=True, slots=True)
class Feature:
    """A property machines differ in, with its possible values; `machine.<id>` in conditions.

    `by_country`: whether the shop's country gives its value, the set of its electrical limits.
    """

    id: str
    name: str
    values: tuple[str, ...]
    by_country: bool = False
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class PlateValue:
    """A rating with a unit that a machine states; `plate.<id>` in formulas.

    `part_of`: the rating of the whole to which this one adds up with others, or ''. `believable`: beyond these two a
    plate is misread or is no plate of such a machine, and is not taken. `by_country`: what it is in the shop's country:
    its mains 'voltage', a 'winding' for that voltage, its usual 'lead'; or '' when the country changes nothing.
    """

    id: str
    name: str
    kind: str
    unit: str
    part_of: str = ""
    believable: tuple[Quantity, Quantity] | None = None
    by_country: str = ""
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Machine:
    """A machine type: its layout in words, its features and its ratings.

    `wiring`: feeds that come through their parts in another order here than the circuits say.
    """

    id: str
    title: str
    layout: str
    features: Mapping[str, str]
    plate: Mapping[str, Quantity]
    wiring: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    at: Position = field(default=NOWHERE, compare=False)
