"""Records, their keys, and what can stand under a key: a closed set of kinds.

Reading (`expert.language.reading.values`), the manual's tables and the JSON Schemas each match the whole set, and the
type checker sees to it that none is forgotten.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal


@dataclass(frozen=True, slots=True)
class Text:
    """A name or a sentence, in the author's words."""


@dataclass(frozen=True, slots=True)
class Texts:
    """One text or a list of them."""


@dataclass(frozen=True, slots=True)
class Number:
    """A plain number, 0 or above."""


@dataclass(frozen=True, slots=True)
class YesNo:
    """Yes or no."""


@dataclass(frozen=True, slots=True)
class Word:
    """One of a few words."""

    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Id:
    """The id of something given elsewhere, or the id that a file gives itself (`own`)."""

    space: str
    own: bool = False


@dataclass(frozen=True, slots=True)
class Ids:
    """One id or a list of ids; those of the spaces in `also` will do too."""

    space: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class IdsOf:
    """Ids of one space, each with ids of other spaces."""

    of: str
    spaces: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class State:
    """A state of the bench: dimensions, each with one of its states (`any_of`: with all that will do)."""

    any_of: bool = False


@dataclass(frozen=True, slots=True)
class States:
    """A list of combinations of bench states."""


@dataclass(frozen=True, slots=True)
class Holds:
    """A condition; when the key is left out it holds always or never."""

    left_out: Literal["always", "never"] = "always"


@dataclass(frozen=True, slots=True)
class Machines:
    """On which machines: features, each with the values that will do."""


@dataclass(frozen=True, slots=True)
class Outcomes:
    """Outcomes of the question itself (`of` is ''), or of each of several facts of a space, and of those in `also`."""

    of: str = ""
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Outcome:
    """Names that are given here to the outcomes of a record."""


@dataclass(frozen=True, slots=True)
class Labels:
    """Outcomes, each with the label that the technician sees."""


@dataclass(frozen=True, slots=True)
class Weights:
    """Faults, each with one of a few words for the weight of evidence."""

    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class QuantityKind:
    """The name of a kind of quantity."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of a kind of quantity."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with its unit; or two of them, LOW to HIGH (`span`)."""

    span: bool = False


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula; or the limits of a reading (`limits`)."""

    limits: bool = False


@dataclass(frozen=True, slots=True)
class Assumed:
    """Measured questions, each with the quantity or rating that stands in for a reading."""


@dataclass(frozen=True, slots=True)
class Values:
    """What is written is a value for each of several names, such as ratings; or values of others (`each`)."""

    of: tuple[str, ...]
    each: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class One:
    """One record, of one of several shapes, or a word in its place (`or_word`)."""

    shapes: tuple[Shape, ...]
    or_word: str = ""


@dataclass(frozen=True, slots=True)
class Listed:
    """A list of records without ids."""

    shape: Shape


@dataclass(frozen=True, slots=True)
class Named:
    """Records, each under its id, which is given here and known in all files (`space` '': in the record alone).

    `briefly`: what may stand in place of a record.
    """

    space: str
    holds: Shape | Texts | Text | Holds
    briefly: Formula | Text | None = None


# What is read by the key alone, and what needs more than that: a record of its own, or another key's kind of quantity.
ByKey = (
    Text
    | Texts
    | Number
    | YesNo
    | Word
    | Id
    | Ids
    | IdsOf
    | State
    | States
    | Holds
    | Machines
    | Outcomes
    | Outcome
    | Labels
    | Weights
)
ByRecord = QuantityKind | Unit | Amount | Formula | Assumed | Values | One | Listed | Named
Kind = ByKey | ByRecord


@dataclass(frozen=True, slots=True)
class Key:
    """One key of the language. `field`: what the record's model calls it, where that is another word."""

    name: str
    kind: Kind
    says: str
    required: bool
    field: str


@dataclass(frozen=True)
class Shape:
    """All keys of one kind of record, as the manual lists them. `what` names it in messages, with its article."""

    what: str
    keys: tuple[Key, ...]

    @cached_property
    def names(self) -> tuple[str, ...]:
        """All keys: those that must stand, then those that may."""
        return self.required + tuple(key.name for key in self.keys if not key.required)

    @cached_property
    def required(self) -> tuple[str, ...]:
        return tuple(key.name for key in self.keys if key.required)

    @cached_property
    def by_name(self) -> Mapping[str, Key]:
        return {key.name: key for key in self.keys}


def must(name: str, kind: Kind, says: str, field: str = "") -> Key:
    """A key that each record of its shape has."""
    return Key(name, kind, says, True, field or name)


def may(name: str, kind: Kind, says: str, field: str = "") -> Key:
    """A key that may be left out."""
    return Key(name, kind, says, False, field or name)
