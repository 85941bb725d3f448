"""Formulas as values, and working them out. A formula is a small tree; nothing in it is ever executed as a program.

`syntax.py` turns text into a raw tree, `kinds.py` settles the kinds and gives the tree found here.
"""

from __future__ import annotations

from collections.abc import Callable

from expert.language.formulas.trade_functions import call_by_name
from expert.language.sentences import formulas as say
from expert.trade.frozen import dataclass
from expert.trade.quantities.units import Quantity, with_article


class NotKnown(LookupError):
    """A value that the formula needs is not known (yet)."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(say.is_not_known(name))


class CannotWorkOut(ValueError):
    """The values are known, but the formula has no result for them."""


@dataclass(frozen=True, slots=True)
class Value:
    """A number with its unit, as written."""

    quantity: Quantity


@dataclass(frozen=True, slots=True)
class Word:
    """A bare word that a trade function takes."""

    text: str


@dataclass(frozen=True, slots=True)
class Lookup:
    """A value by name: plate.x, machine.x, a worked-out value, the number read for a question."""

    name: str
    kind: str


@dataclass(frozen=True, slots=True)
class Work:
    """Two parts joined by + - * or /. `kind` is that of the result."""

    operator: str
    left: Tree
    right: Tree
    kind: str


@dataclass(frozen=True, slots=True)
class Negative:
    """The part with its sign turned."""

    part: Tree


@dataclass(frozen=True, slots=True)
class Pick:
    """The least or the greatest of some parts of one kind."""

    which: str
    parts: tuple[Tree, ...]


@dataclass(frozen=True, slots=True)
class Call:
    """A trade function by name, with its arguments in order."""

    figure: str
    arguments: tuple[Tree, ...]


Tree = Value | Word | Lookup | Work | Negative | Pick | Call


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula: its tree, the author's text, the kind it gives, and every name it refers to (each once)."""

    tree: Tree
    text: str
    kind: str
    names: tuple[str, ...]


def evaluate(formula: Formula, look_up: Callable[[str], Quantity | str]) -> Quantity:
    """The formula's value. `look_up` gives the value of a name or raises NotKnown.

    Raises NotKnown, CannotWorkOut (division by zero and the like), or what a trade function raises (OutOfRange).
    """
    found = value_of(formula.tree, look_up)
    if isinstance(found, str):
        raise CannotWorkOut(say.gives_a_word(formula.text, found))
    return found


def value_of(tree: Tree, look_up: Callable[[str], Quantity | str]) -> Quantity | str:
    """The value of a part of a formula. Raises what `evaluate` raises."""
    match tree:
        case Value(quantity):
            return quantity
        case Word(text):
            return text
        case Lookup(name, kind):
            return _of_kind(look_up(name), name, kind)
        case Work(operator, left, right, kind):
            return _joined(operator, _number(left, look_up), _number(right, look_up), kind)
        case Negative(part):
            whole = _number(part, look_up)
            return Quantity(-whole.value, whole.kind)
        case Pick(which, parts):
            values = [_number(part, look_up) for part in parts]
            return min(values) if which == "least" else max(values)
        case Call(figure, arguments):
            return call_by_name(figure, [value_of(argument, look_up) for argument in arguments])


def parts_of(tree: Tree) -> tuple[Tree, ...]:
    """The parts that a part is directly made of."""
    match tree:
        case Work(_, left, right, _):
            return left, right
        case Negative(part):
            return (part,)
        case Pick(_, parts):
            return parts
        case Call(_, arguments):
            return arguments
        case Value() | Word() | Lookup():
            return ()


def _number(tree: Tree, look_up: Callable[[str], Quantity | str]) -> Quantity:
    found = value_of(tree, look_up)
    if isinstance(found, str):
        raise CannotWorkOut(say.word_for_a_quantity(found))
    return found


def _of_kind(found: Quantity | str, name: str, kind: str) -> Quantity | str:
    if isinstance(found, Quantity) and found.kind != kind:
        raise CannotWorkOut(say.other_kind_than_wanted(name, with_article(found.kind), with_article(kind)))
    return found


def _joined(operator: str, left: Quantity, right: Quantity, kind: str) -> Quantity:
    try:
        value = {
            "+": lambda: left.value + right.value,
            "-": lambda: left.value - right.value,
            "*": lambda: left.value * right.value,
            "/": lambda: left.value / right.value,
        }[operator]()
        return Quantity(value, kind)
    except ZeroDivisionError:
        raise CannotWorkOut(say.DIVISION_BY_ZERO) from None
    except ValueError:  # not-a-number, from over range against over range
        raise CannotWorkOut(say.TWICE_OVER_RANGE) from None
