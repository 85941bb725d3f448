"""Settling the kinds in a formula, so that ohms are never added to volts, nor gauge pressure to absolute.

A number with a unit may be of several kinds (5 K: a temperature or a difference); what stands around it decides.
- anything times or over a plain number keeps its kind; a temperature in degrees cannot be scaled
- plus and minus join equal kinds; temperature less temperature is a temperature difference, the same for pressures
- a kind over itself is a plain number; everything else goes through a trade function
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from expert.language.formulas.formula import (
    Call,
    CannotWorkOut,
    Formula,
    Lookup,
    Negative,
    NotKnown,
    Pick,
    Tree,
    Value,
    Word,
    Work,
    parts_of,
    value_of,
)
from expert.language.formulas.syntax import (
    FormulaProblem,
    Raw,
    RawCall,
    RawName,
    RawNegative,
    RawNumber,
    RawWork,
)
from expert.language.formulas.trade_functions import trade_functions
from expert.language.sentences import formulas as say
from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.quantities.units import KINDS, Quantity, difference_of, unit_in, units_named, with_article

if TYPE_CHECKING:
    from expert.trade.figures.register import Figure

Triple = tuple[str, str, str]  # result, left, right
PICKS = ("least", "greatest")


class NotSettled(Exception):
    """A name in the formula is known but its record is broken: nothing can be said, and nothing need be."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a formula may refer to: name -> kind (None: broken), machine.<feature> -> its words, ids of questions
    that are answered in words; and whether names may be missing because a file could not be read."""

    kinds: Mapping[str, str | None]
    words: Mapping[str, tuple[str, ...] | None]
    in_words: Iterable[str] = ()
    incomplete: bool = False


def settle(raw: Raw, wanted: str, known: Known, text: str) -> Formula:
    """The formula with its kinds settled so that it gives the wanted kind. Raises FormulaProblem or NotSettled."""
    settler = _Settler(known)
    tree = settler.settled(raw, wanted)
    if worthless := without_value(tree):
        raise FormulaProblem(_start(raw), say.no_machine_gives_it_a_value(worthless))
    return Formula(tree, text, wanted, tuple(dict.fromkeys(settler.names)))


def _triples(operator: str, left: Iterable[str], right: Iterable[str]) -> list[Triple]:
    """Every way in which the kinds of two parts fit an operator."""
    pairs = [(one, other) for one in left for other in right]
    found: list[Triple] = []
    for one, other in pairs:
        if operator == "+" and other == difference_of(one):
            found.append((one, one, other))
        elif operator == "+" and one == difference_of(other):
            found.append((other, one, other))
        elif operator == "-":
            if other == difference_of(one):
                found.append((one, one, other))
            elif one == other:
                found.append((difference_of(one), one, other))
        elif operator == "*" and "temperature" not in (one, other):
            if one == "number":
                found.append((other, one, other))
            elif other == "number":
                found.append((one, one, other))
        elif operator == "/" and one != "temperature":
            if other == "number":
                found.append((one, one, other))
            elif one == other:
                found.append(("number", one, other))
    return found


class _Settler:
    """Settles one formula; gathers the names it refers to."""

    def __init__(self, known: Known) -> None:
        self.known = known
        self.names: list[str] = []
        self.found: dict[int, tuple[str, ...]] = {}

    def possible(self, raw: Raw) -> tuple[str, ...]:
        """The kinds a part may have, seen from below. Never empty."""
        if id(raw) not in self.found:
            self.found[id(raw)] = self.possible_of(raw)
        return self.found[id(raw)]

    def possible_of(self, raw: Raw) -> tuple[str, ...]:
        match raw:
            case RawNumber():
                return units_named(raw.unit) if raw.unit else ("number",)
            case RawName():
                return (self.kind_of(raw),)
            case RawNegative():
                return self.possible(raw.part)
            case RawCall() if raw.name in PICKS:
                return self.common(raw)
            case RawCall():
                return (self.figure(raw).gives,)
            case RawWork():
                left, right = self.possible(raw.left), self.possible(raw.right)
                results = dict.fromkeys(triple[0] for triple in _triples(raw.operator, left, right))
                if not results:
                    raise FormulaProblem(raw.offset, _cannot_join(raw.operator, left, right), "wrong-kind")
                return tuple(results)

    def kind_of(self, raw: RawName) -> str:
        if raw.name in self.known.kinds:
            kind = self.known.kinds[raw.name]
            if kind is None:
                raise NotSettled(raw.name)
            return kind
        if raw.name in self.known.words:
            message = say.only_functions_take_words(raw.name)
            raise FormulaProblem(raw.offset, message, "wrong-kind")
        if raw.name in self.known.in_words:
            message = say.answered_in_words(raw.name)
            raise FormulaProblem(raw.offset, message, "wrong-kind")
        if self.known.incomplete:
            raise NotSettled(raw.name)
        if raw.name in trade_functions():
            raise FormulaProblem(raw.offset, say.function_wants_brackets(raw.name))
        raise UnknownInFormula(raw.offset, raw.name, self.known.kinds, "value")

    def figure(self, raw: RawCall) -> Figure:
        if raw.name not in trade_functions():
            raise UnknownInFormula(raw.offset, raw.name, (*trade_functions(), *PICKS), "trade function")
        return trade_functions()[raw.name]

    def common(self, raw: RawCall) -> tuple[str, ...]:
        kinds = list(self.possible(raw.arguments[0]))
        for argument in raw.arguments[1:]:
            others = self.possible(argument)
            left = [kind for kind in kinds if kind in others]
            if not left:
                message = say.compares_unlike_kinds(raw.name, _or(kinds), _or(others))
                raise FormulaProblem(raw.offset, message, "wrong-kind")
            kinds = left
        return tuple(kinds)

    def settled(self, raw: Raw, wanted: str) -> Tree:
        """The part as it is when it gives the wanted kind."""
        kinds = self.possible(raw)
        if wanted not in kinds:
            raise FormulaProblem(_start(raw), _unwanted(raw, kinds, wanted), "wrong-kind")
        match raw:
            case RawNumber():
                return Value(_quantity(raw, wanted))
            case RawName():
                self.names.append(raw.name)
                return Lookup(raw.name, wanted)
            case RawNegative(RawNumber() as number):
                # The minus is part of the number: -5 degC is a temperature, not a temperature turned round.
                return Value(_quantity(number, wanted, -1.0))
            case RawNegative():
                if wanted == "temperature":
                    raise FormulaProblem(raw.offset, say.TEMPERATURE_TURNED_ROUND, "wrong-kind")
                return Negative(self.settled(raw.part, wanted))
            case RawCall() if raw.name in PICKS:
                return Pick(raw.name, tuple(self.settled(argument, wanted) for argument in raw.arguments))
            case RawCall():
                return self.call(raw, self.figure(raw))
            case RawWork():
                triples = _triples(raw.operator, self.possible(raw.left), self.possible(raw.right))
                _, left, right = next(triple for triple in triples if triple[0] == wanted)
                return Work(raw.operator, self.settled(raw.left, left), self.settled(raw.right, right), wanted)

    def call(self, raw: RawCall, figure: Figure) -> Tree:
        takes = figure.takes
        least = sum(1 for one in takes if one.default is None)
        if not least <= len(raw.arguments) <= len(takes):
            wanted = ", ".join(f"{one.name} ({one.kind})" for one in takes)
            message = say.other_number_of_values(raw.name, len(raw.arguments), wanted)
            raise FormulaProblem(raw.offset, message, "wrong-kind")
        arguments = tuple(
            self.word(argument, one.words) if one.kind == "word" else self.settled(argument, one.kind)
            for one, argument in zip(takes, raw.arguments, strict=False)
        )
        return Call(raw.name, arguments)

    def word(self, raw: Raw, words: tuple[str, ...]) -> Tree:
        """A word argument: one of the function's own words, or a machine feature whose value is one."""
        if isinstance(raw, RawName) and raw.name in words:
            return Word(raw.name)
        if isinstance(raw, RawName) and raw.name in self.known.words:
            values = self.known.words[raw.name]
            if values is not None and not set(values) & set(words):
                message = say.has_none_of_the_words(raw.name, ", ".join(words))
                raise FormulaProblem(raw.offset, message, "wrong-kind")
            self.names.append(raw.name)
            return Lookup(raw.name, "word")
        raise FormulaProblem(_start(raw), say.one_of_the_words(", ".join(words)), "wrong-kind")


def without_value(tree: Tree) -> str:
    """Why a part that rests on nothing but its own numbers can never be worked out; '' where there is none."""
    for part in parts_of(tree):
        if worthless := without_value(part):
            return worthless
    try:
        if isinstance(tree, Work) and tree.operator == "/":
            divisor = value_of(tree.right, _nothing_known)
            if isinstance(divisor, Quantity) and divisor.value == 0:
                return say.DIVISION_BY_ZERO  # whatever is divided
        value_of(tree, _nothing_known)
    except NotKnown:
        return ""
    except (CannotWorkOut, OutOfRange, WrongArguments) as problem:
        return str(problem)
    return ""


def _nothing_known(name: str) -> Quantity:
    raise NotKnown(name)


class UnknownInFormula(FormulaProblem):
    """A name that is not known; `choices` are those that are, for a suggestion."""

    def __init__(self, offset: int, name: str, choices: Iterable[str], what: str) -> None:
        self.name, self.choices = name, choices
        super().__init__(offset, say.there_is_no(what, name), "unknown-name")


def _quantity(raw: RawNumber, kind: str, sign: float = 1.0) -> Quantity:
    """The number in the kind's base unit, whatever its size: a formula's constants need not be readings."""
    known = KINDS[kind]
    unit = unit_in(known, raw.unit) if raw.unit else ""
    factor, offset = known.units[unit or known.base]
    return Quantity(sign * raw.value * factor + offset, kind)


def _start(raw: Raw) -> int:
    return _start(raw.left) if isinstance(raw, RawWork) else raw.offset


def _or(kinds: Iterable[str]) -> str:
    return " or ".join(with_article(kind) for kind in kinds)


def _unwanted(raw: Raw, kinds: tuple[str, ...], wanted: str) -> str:
    if isinstance(raw, RawNumber) and not raw.unit:
        unit = KINDS[wanted].base
        return say.plain_number_for_quantity(raw.text, with_article(wanted), unit)
    return say.gives_other_kind(_or(kinds), with_article(wanted))


def _cannot_join(operator: str, left: Iterable[str], right: Iterable[str]) -> str:
    left, right = tuple(left), tuple(right)
    if operator in "*/" and "temperature" in left + right and "number" in left + right:
        return say.TEMPERATURE_SCALED
    return say.cannot_join(operator, _or(left), _or(right))
