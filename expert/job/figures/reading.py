"""The values of a calculation as people type them, and what comes out, with the uncertainty carried through."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from expert.job.figures.usual import two_of
from expert.job.sentences import figures as say
from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.figures.register import FIGURES, Figure, Input, work_out
from expert.trade.quantities.reading import is_bare_number, number_and_unit
from expert.trade.quantities.units import KINDS, NotAQuantity, Quantity, difference_of, echo, read_quantity

MOST_PIECES = 60
_PLUS_MINUS = re.compile(r"\s*(?:\+-|\+/-|±)\s*")
_BY_NAME = re.compile(r"([a-z][a-z0-9_]*)=(.*)", re.DOTALL)
_PIECES = re.compile(r'"([^"]*)"|(\S+)')


class NoFigure(ValueError):
    """There is no such calculation, or its values cannot be read; the message says what would do."""


@dataclass(frozen=True, slots=True)
class Argument:
    """One value handed to a calculation. `uncertainty` None: given as exact. `assumed`: the calculation's own."""

    takes: Input
    value: Quantity | str
    uncertainty: Quantity | None = None
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class Result:
    """What a calculation gives. `uncertainty` None: every value was given as exact."""

    figure: Figure
    arguments: tuple[Argument, ...]
    value: Quantity
    uncertainty: Quantity | None


def figure_named(name: str) -> Figure:
    """The calculation of that name. Raises NoFigure with names that come near.

    >>> figure_named("element_resistence")
    Traceback (most recent call last):
    expert.job.figures.reading.NoFigure: there is no figure 'element_resistence'; near it: element_resistance
    """
    word = name.strip().casefold()
    if word in FIGURES:
        return FIGURES[word]
    near = dict.fromkeys(difflib.get_close_matches(word, FIGURES, 3, 0.75))
    near |= dict.fromkeys(known for known in FIGURES if len(word) > 2 and word in known)
    hint = say.near_it(", ".join(list(near)[:5])) if near else say.LIST_SHOWS_ALL
    raise NoFigure(say.no_figure(echo(name), hint))


def pieces_of(line: str) -> list[str]:
    """The words of a line; what stands in double quotes is one.

    >>> pieces_of('230 V "1400 W"')
    ['230', 'V', '1400 W']
    """
    return [quoted or plain for quoted, plain in _PIECES.findall(line)]


def calculate(figure: Figure, pieces: Sequence[str]) -> Result:
    """The calculation with the values that the pieces make up. Raises NoFigure, WrongArguments, OutOfRange.

    >>> result = calculate(figure_named("element_power"), ["230 V +- 2.3", "26.4 ohm +- 0.44"])
    >>> round(result.value.value), round(result.uncertainty.value)      # uncertainties: 2004 and 52 W
    (2004, 52)
    """
    arguments = arguments_of(figure, pieces)
    values = [argument.value for argument in arguments]
    return Result(figure, arguments, work_out(figure, values), _carried(figure, arguments))


def arguments_of(figure: Figure, pieces: Sequence[str]) -> tuple[Argument, ...]:
    """A value for each input, typed or assumed; whether the calculation holds for them is not looked at."""
    if len(pieces) > MOST_PIECES:
        raise NoFigure(say.too_many_words(len(pieces), figure.name))
    given = _matched(tuple(pieces), figure.takes, {})
    if given is None:
        given = _by_the_numbers(figure, pieces)
    return tuple(given.get(one.name) or Argument(one, _default(one), assumed=True) for one in figure.takes)


def _missing(figure: Figure, given: Mapping[str, Argument]) -> str:
    names = [wanted.name for wanted in figure.takes if wanted.default is None and wanted.name not in given]
    return say.still_wants(figure.name, ", ".join(names))


def _default(wanted: Input) -> Quantity:
    factor, offset = KINDS[wanted.kind].units[wanted.unit]
    assert wanted.default is not None
    return Quantity(wanted.default * factor + offset, wanted.kind)


# ---------------------------------------------------------------- which pieces belong together


def _matched(
    pieces: tuple[str, ...], free: tuple[Input, ...], given: dict[str, Argument]
) -> dict[str, Argument] | None:
    """Pieces joined to values so that all are used up, the longest that reads first; None when nothing fits."""
    if not pieces:
        return given if all(wanted.default is not None for wanted in free) else None
    named = _BY_NAME.fullmatch(pieces[0])
    if named is not None:
        wanted = next((one for one in free if one.name == named[1]), None)
        pieces = (named[2], *pieces[1:])
    else:
        wanted = free[0] if free else None
    if wanted is None:
        return None
    rest = tuple(one for one in free if one is not wanted)
    for length in range(min(len(pieces), 8), 0, -1):
        try:
            argument = read_argument(wanted, " ".join(pieces[:length]))
        except NoFigure:
            continue
        found = _matched(pieces[length:], rest, {**given, wanted.name: argument})
        if found is not None:
            return found
    return None


def _by_the_numbers(figure: Figure, pieces: Sequence[str]) -> dict[str, Argument]:
    """The same, each value beginning at a number, a word or a name: for its message when nothing fits."""
    given: dict[str, Argument] = {}
    words = {word for wanted in figure.takes for word in wanted.words}
    texts: list[str] = []
    for piece in pieces:
        begins = piece in words or _BY_NAME.fullmatch(piece) or re.match(r"(?i)[+-]?[.,]?[0-9]|ol$|#?awg", piece)
        if texts and (not begins or _PLUS_MINUS.search(texts[-1][-3:])):
            texts[-1] += f" {piece}"
        else:
            texts.append(piece)
    for text in texts:
        wanted, value = _whose(figure, text, given)
        given[wanted.name] = read_argument(wanted, value)
    raise NoFigure(_missing(figure, given))


def _whose(figure: Figure, text: str, given: Mapping[str, Argument]) -> tuple[Input, str]:
    """The input that a text is meant for, and its value. Raises NoFigure."""
    names = ", ".join(wanted.name for wanted in figure.takes)
    named = _BY_NAME.fullmatch(text)
    if named is not None:
        wanted = next((one for one in figure.takes if one.name == named[1]), None)
        if wanted is None:
            raise NoFigure(say.has_no_value(figure.name, echo(named[1]), names))
        if wanted.name in given:
            raise NoFigure(say.given_twice(named[1]))
        return wanted, named[2]
    free = [one for one in figure.takes if one.name not in given]
    if not free:
        raise NoFigure(say.one_too_many(figure.name, names or "no value", echo(text)))
    return free[0], text


# ---------------------------------------------------------------- one value


def read_argument(wanted: Input, text: str) -> Argument:
    """One value: a word, or a quantity, with `+-` and its uncertainty if it has one. Raises NoFigure.

    A bare number has the unit of the calculation; a bare uncertainty that of its value; `+- 1 %` is of the value.
    """
    if wanted.kind == "word":
        word = next((word for word in wanted.words if word.casefold() == text.strip().casefold()), None)
        if word is None:
            raise NoFigure(say.none_of_the_words(wanted.name, echo(text), ", ".join(wanted.words)))
        return Argument(wanted, word)
    parts = _PLUS_MINUS.split(text)
    if len(parts) > 2:
        raise NoFigure(say.more_than_one_uncertainty(wanted.name, echo(text)))
    for spelling in wanted.also:
        parts = [part.removesuffix(spelling).rstrip() for part in parts]
    try:
        if wanted.needs_unit and is_bare_number(parts[0]):
            raise NoFigure(say.of_what(wanted.name, echo(text), two_of(wanted.kind)))
        value = read_quantity(parts[0], wanted.kind, wanted.unit)
        if math.isinf(value.value):
            raise NoFigure(say.over_range(wanted.name))
        return Argument(wanted, value, _uncertainty(wanted, value, *parts) if len(parts) == 2 else None)
    except NotAQuantity as problem:
        raise NoFigure(f"{wanted.name}: {problem}") from None


def _uncertainty(wanted: Input, value: Quantity, typed: str, text: str) -> Quantity:
    kind = difference_of(wanted.kind)
    number, unit = number_and_unit(text)
    if number < 0:
        raise NoFigure(say.uncertainty_not_positive(wanted.name))
    if unit == "%" and wanted.unit != "%":
        return Quantity(number / 100 * abs(value.value), kind)
    try:
        own = number_and_unit(typed)[1] or wanted.unit
    except NotAQuantity:  # such as 2 min 30, which has several units
        own = wanted.unit
    return read_quantity(f"{number!r} {unit or own}".strip(), kind)


def _carried(figure: Figure, arguments: Sequence[Argument]) -> Quantity | None:
    """The uncertainty of the result: each value moved by its own either way, root of the sum of squares.

    Source: JCGM 100:2008, 5.1.3 note 2 (numerical differences), values independent of each other.
    """
    if not any(argument.uncertainty for argument in arguments):
        return None
    total = 0.0
    for moved in arguments:
        if moved.uncertainty is not None:
            ends = [_with(figure, arguments, moved, sign * moved.uncertainty.value) for sign in (1, -1)]
            total += ((ends[0] - ends[1]) / 2) ** 2
    return Quantity(math.sqrt(total), difference_of(figure.gives))


def _with(figure: Figure, arguments: Sequence[Argument], moved: Argument, by: float) -> float:
    assert isinstance(moved.value, Quantity)
    shifted = replace(moved, value=Quantity(moved.value.value + by, moved.value.kind))
    values = [(shifted if argument is moved else argument).value for argument in arguments]
    try:
        return work_out(figure, values).value
    except (OutOfRange, WrongArguments) as problem:
        raise NoFigure(say.moved_by_its_uncertainty(moved.takes.name, str(problem))) from None
