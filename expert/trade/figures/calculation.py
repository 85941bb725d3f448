"""The record of a calculation: what it takes, what it gives, where it comes from; and calling it with quantities."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from expert.trade.errors import WrongArguments
from expert.trade.quantities.units import KINDS, Quantity, difference_of, echo, with_article

STANDINGS = {
    "law": "a law of physics or a definition",
    "pub": "read in print that gives or quotes it",
    "lib": "compared with a reference library",
    "mem": "from memory, to be confirmed",
    "cp": "common practice, no source",
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
        raise WrongArguments(f"{figure.name} takes {count} arguments ({names}), not {len(arguments)}")
    plain = [_plain(figure, wanted, given) for wanted, given in zip(figure.takes, arguments, strict=False)]
    factor, offset = KINDS[figure.gives].units[figure.unit]
    return Quantity(figure.call(*plain) * factor + offset, figure.gives)


def _plain(figure: Figure, wanted: Input, given: Quantity | str) -> float | str:
    where = f"{wanted.name} of {figure.name}"
    if wanted.kind == "word":
        if isinstance(given, str) and given in wanted.words:
            return given
        found = echo(given) if isinstance(given, str) else with_article(given.kind)
        raise WrongArguments(f"{where} is one of {', '.join(wanted.words)}, not {found}")
    if isinstance(given, str):
        raise WrongArguments(f"{where} is {with_article(wanted.kind)}, not the word {echo(given)}")
    if given.kind != wanted.kind:
        raise WrongArguments(
            f"{where} is {with_article(wanted.kind)}, not {with_article(given.kind)}{_hint(wanted, given)}"
        )
    if math.isinf(given.value):
        raise WrongArguments(f"{where} is over range (OL); nothing can be worked out from it")
    factor, offset = KINDS[wanted.kind].units[wanted.unit]
    return (given.value - offset) / factor


def _hint(wanted: Input, given: Quantity) -> str:
    """A word of help where two kinds are easily taken for each other."""
    if {wanted.kind, given.kind} == {"gauge_pressure", "absolute_pressure"}:
        return " (absolute is gauge plus air pressure)"
    return " (a difference is wanted)" if wanted.kind == difference_of(given.kind) else ""
