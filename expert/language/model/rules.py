"""Records of the rule language: positions, conditions, conclusions, rules."""

from __future__ import annotations

from dataclasses import field

from expert.trade.frozen import dataclass


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
NEVER = Any(())


@dataclass(frozen=True, slots=True)
class NamedCondition:
    """A condition that others use by its name; `used_at`: where they do."""

    id: str
    circuit: str
    when: Condition
    used_at: tuple[Position, ...] = field(default=(), compare=False)
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class NamedList:
    """A list that others use by its name; `used_at`: where they do."""

    id: str
    circuit: str
    entries: tuple[str, ...]
    used_at: tuple[Position, ...] = field(default=(), compare=False)
    at: Position = field(default=NOWHERE, compare=False)


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
    """When the condition is true, the conclusions hold. `because` is what the technician reads.

    `despite_shows`: faults whose weight stands although their `shows` say otherwise, as `because` tells.
    `in_this_order`: why its check list stands so, although another order would take fewer minutes.
    `rivals`: what would give the same answers (faults, whole parts, or feeds: whatever cuts them). A fault that the
    rule confirms is held back until none of them is possible any more.
    """

    id: str
    circuit: str
    when: Condition
    then: tuple[Conclusion, ...]
    because: str
    source: str = ""
    rivals: tuple[str, ...] = ()
    despite_shows: tuple[str, ...] = ()
    in_this_order: str = ""
    at: Position = field(default=NOWHERE, compare=False)
