"""The record of a calculation: what it takes, what it gives, where it comes from; and calling it with quantities."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from expert.trade import sentences as say
from expert.trade.errors import WrongArguments
from expert.trade.quantities.units import KINDS, Quantity, difference_of, echo, with_article

STANDINGS = {
    "law": say.BY_LAW,
    "pub": say.BY_PRINT,
    "lib": say.BY_LIBRARY,
    "mem": say.BY_MEMORY,
    "cp": say.BY_PRACTICE,
}


@dataclass(frozen=True, slots=True)
class Input:
    """One argument. kind "word" takes one of `words`; any other kind a quantity, handed over in `unit`.

    default None: must be given. Inputs with a default come last. `needs_unit`: a bare number could mean too much, as a
    volume in millilitres or in litres. `also`: spellings that may follow a plain number, such as mg/L.
    """

    name: str
    kind: str
    unit: str
    meaning: str
    default: float | None = None
    words: tuple[str, ...] = ()
    needs_unit: bool = False
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Figure:
    """One calculation of the trade. `call` takes and gives plain floats in the units named (words as str).

    `within`: how far the formula itself is out at best, in the unit it gives; 0: nothing beside its inputs.
    """

    name: str
    title: str
    formula: str
    takes: tuple[Input, ...]
    gives: str
    unit: str
    source: str
    standing: str
    valid: str
    call: Callable[..., float]
    within: float = 0.0

    def least_arguments(self) -> int:
        """How many arguments must be given."""
        return sum(1 for wanted in self.takes if wanted.default is None)


def work_out(figure: Figure, arguments: Sequence[Quantity | str]) -> Quantity:
    """The figure's result for quantities and words in its own order, later ones with a default left out at will.

    Raises WrongArguments for a wrong number, kind or word and for an over-range reading, OutOfRange from the
    calculation itself.
    """
    least, most = figure.least_arguments(), len(figure.takes)
    if not least <= len(arguments) <= most:
        count = str(least) if least == most else f"{least} to {most}"
        names = ", ".join(wanted.name for wanted in figure.takes)
        raise WrongArguments(say.other_number_of_arguments(figure.name, count, names, len(arguments)))
    plain = [_plain(figure, wanted, given) for wanted, given in zip(figure.takes, arguments, strict=False)]
    factor, offset = KINDS[figure.gives].units[figure.unit]
    return Quantity(figure.call(*plain) * factor + offset, figure.gives)


def _plain(figure: Figure, wanted: Input, given: Quantity | str) -> float | str:
    where = f"{wanted.name} of {figure.name}"
    if wanted.kind == "word":
        if isinstance(given, str) and given in wanted.words:
            return given
        found = echo(given) if isinstance(given, str) else with_article(given.kind)
        raise WrongArguments(say.one_of_the_words(where, ", ".join(wanted.words), found))
    if isinstance(given, str):
        raise WrongArguments(say.word_for_a_quantity(where, with_article(wanted.kind), echo(given)))
    if given.kind != wanted.kind:
        raise WrongArguments(
            say.other_kind_than_wanted(where, with_article(wanted.kind), with_article(given.kind), _hint(wanted, given))
        )
    if math.isinf(given.value):
        raise WrongArguments(say.argument_is_over_range(where))
    factor, offset = KINDS[wanted.kind].units[wanted.unit]
    return (given.value - offset) / factor


def _hint(wanted: Input, given: Quantity) -> str:
    """A word of help where two kinds are easily taken for each other."""
    if {wanted.kind, given.kind} == {"gauge_pressure", "absolute_pressure"}:
        return say.ABSOLUTE_HINT
    return say.DIFFERENCE_HINT if wanted.kind == difference_of(given.kind) else ""
