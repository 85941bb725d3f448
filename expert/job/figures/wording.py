"""The calculations of the trade in words: the list, what one takes, and a result. For the command and the dialogue."""

from __future__ import annotations

import math
from collections.abc import Mapping
from textwrap import wrap
from typing import Any

from expert.job.figures.reading import Argument, NoFigure, Result
from expert.job.figures.usual import two_of, usual_value
from expert.job.sentences import figures as say
from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.figures.of_boiler import BOILER_FIGURES
from expert.trade.figures.of_circuits import CIRCUIT_FIGURES
from expert.trade.figures.of_elements import ELEMENT_FIGURES
from expert.trade.figures.of_flow import FLOW_FIGURES
from expert.trade.figures.of_heating import HEATING_FIGURES
from expert.trade.figures.of_safety import SAFETY_FIGURES
from expert.trade.figures.of_sensors import SENSOR_FIGURES
from expert.trade.figures.of_steam import STEAM_FIGURES
from expert.trade.figures.of_water import WATER_FIGURES
from expert.trade.figures.register import FIGURES, STANDINGS, Figure, Input
from expert.trade.quantities.units import KINDS, Quantity, show

GROUPS: Mapping[str, tuple[Figure, ...]] = {
    say.STEAM: STEAM_FIGURES,
    say.BOILER: BOILER_FIGURES,
    say.HEATING: HEATING_FIGURES,
    say.FLOW: FLOW_FIGURES,
    say.ELEMENTS: ELEMENT_FIGURES,
    say.SENSORS: SENSOR_FIGURES,
    say.CIRCUITS: CIRCUIT_FIGURES,
    say.SAFETY: SAFETY_FIGURES,
    say.WATER: WATER_FIGURES,
}
WIDTH = 79
HOW_TO_ASK = (say.HOW_TO_TYPE, say.WHAT_THERE_IS)
NOT_POSSIBLE = (NoFigure, OutOfRange, WrongArguments)


def list_of_figures() -> list[str]:
    """Every name with its title, by what it is about."""
    wide = max(map(len, FIGURES)) + 2
    lines: list[str] = []
    for title, figures in GROUPS.items():
        lines.append(title)
        for figure in figures:
            lines += wrapped(f"  {figure.name:<{wide}}{figure.title}", " " * (wide + 2))
    return lines


def wrapped(line: str, further: str = "    ") -> list[str]:
    """A line in pieces that an 80-column terminal holds, `further` before each but the first."""
    return wrap(line, WIDTH, subsequent_indent=further, drop_whitespace=True, break_long_words=False)


def list_as_data() -> list[dict[str, Any]]:
    """The same for another program."""
    return [{"kind": kind, **about_as_data(figure)} for kind, figures in GROUPS.items() for figure in figures]


def about(figure: Figure) -> list[str]:
    """What a calculation takes and gives, and where it comes from."""
    takes = [f"  {_input_in_words(wanted)}" for wanted in figure.takes]
    lines = [
        f"{figure.name}: {figure.title}",
        f"Formula: {figure.formula}",
        "Takes:" if takes else "Takes nothing.",
        *takes,
        say.gives(KINDS[figure.gives].words, figure.unit or "plain numbers"),
        say.holds(figure.valid),
        say.source(figure.source, STANDINGS[figure.standing]),
    ]
    # The example stays in one piece: it is there to be copied.
    return [piece for line in lines for piece in wrapped(line)] + [f"Example: {example_of(figure)}"]


def example_of(figure: Figure) -> str:
    """A command that works this figure out for values that are usual at the bench."""
    return " ".join(("expert figure", figure.name, *(_quoted(usual_value(figure, one)) for one in figure.takes)))


def _quoted(value: str) -> str:
    return f'"{value}"' if " " in value else value


def about_as_data(figure: Figure) -> dict[str, Any]:
    """The same for another program."""
    return {
        "figure": figure.name,
        "title": figure.title,
        "formula": figure.formula,
        "takes": [
            {
                "name": wanted.name,
                "kind": wanted.kind,
                "unit": wanted.unit,
                "meaning": wanted.meaning,
                "default": wanted.default,
                "words": list(wanted.words),
            }
            for wanted in figure.takes
        ],
        "gives": figure.gives,
        "unit": figure.unit,
        "valid": figure.valid,
        "source": figure.source,
        "standing": figure.standing,
    }


def _input_in_words(wanted: Input) -> str:
    if wanted.kind == "word":
        unit = say.one_of(", ".join(wanted.words))
    else:
        unit = say.bare_number_in(KINDS[wanted.kind].words, wanted.unit) if wanted.unit else "number"
        if wanted.needs_unit:
            unit = say.with_its_unit(KINDS[wanted.kind].words, two_of(wanted.kind))
    default = f" [{wanted.default:g} {wanted.unit}".rstrip() + "]" if wanted.default is not None else ""
    return f"{wanted.name}: {wanted.meaning} ({unit}){default}"


def result_in_words(result: Result, system: str = "metric") -> list[str]:
    """The result with its unit, the values it rests on, its formula and its source."""
    figure = result.figure
    values = "; ".join(_argument_in_words(argument, system) for argument in result.arguments)
    lines = [f"{figure.title}: {_value_in_words(result, system)}"]
    if values:
        lines.append(f"  from {values}")
    lines += [
        f"  {figure.formula}",
        f"  {say.holds(figure.valid)}",
        f"  {say.source(figure.source, STANDINGS[figure.standing])}",
    ]
    if result.uncertainty is not None:
        lines.append(say.HOW_UNCERTAINTY_IS_CARRIED)
    return [piece for line in lines for piece in wrapped(line)]


def _value_in_words(result: Result, system: str) -> str:
    unit = result.figure.unit if result.figure.gives == "number" else None
    spread = result.uncertainty
    if figure_is_out := result.figure.within:
        places = max(0, -math.floor(math.log10(figure_is_out)))
        return say.formula_out_by(f"{result.value.value:.{places}f}", figure_is_out)
    if spread is None and result.figure.gives.endswith("_difference") and 0 < abs(result.value.value) < 1:
        return spread_in_words(result.value, unit, system)
    if spread is None or not spread.value:
        return show(result.value, unit, system) + ("" if spread is None else " ±0")
    rounded = Quantity(round(result.value.value, _last_place(spread)), result.value.kind)
    return f"{show(rounded, unit, system)} ±{spread_in_words(spread, unit, system)}"


def _argument_in_words(argument: Argument, system: str) -> str:
    name = argument.takes.name.replace("_", " ")
    if isinstance(argument.value, str):
        return f"{name} {argument.value}"
    plain = argument.takes.kind == "number"  # a coefficient may be far smaller than any reading
    unit = argument.takes.unit if plain else None
    shown = f"{argument.value.value:.8g} {unit or ''}".rstrip() if plain and unit != "%" else ""
    text = f"{name} {shown or show(argument.value, unit, system)}"
    if argument.uncertainty is not None:
        text += f" ±{spread_in_words(argument.uncertainty, unit, system)}"
    return f"{text} (assumed)" if argument.assumed else text


def spread_in_words(spread: Quantity, unit: str | None = None, system: str = "metric") -> str:
    """An uncertainty with the two digits that it deserves.

    >>> spread_in_words(Quantity(0.075, "pressure_difference")), spread_in_words(Quantity(52.4, "power"))
    ('0.075 bar', '52 W')
    """
    shown = show(spread, unit, system)
    kind = KINDS[spread.kind]
    written = shown.rpartition(" ")[2] if " " in shown else ""
    factor = next((factor for name, (factor, _) in kind.units.items() if kind.shown.get(name, name) == written), None)
    if spread.kind == "time" or not spread.value or factor is None:
        return shown
    in_unit = Quantity(spread.value / factor, "number")
    return f"{round(in_unit.value, _last_place(in_unit)):g} {written}".rstrip()


def _last_place(spread: Quantity) -> int:
    """The decimals that keep two digits of an uncertainty."""
    return 1 - math.floor(math.log10(abs(spread.value)))


def result_as_data(result: Result, system: str = "metric") -> dict[str, Any]:
    """The result for another program: plain numbers in the calculation's own units."""
    figure = result.figure
    return {
        "figure": figure.name,
        "inputs": {
            argument.takes.name: argument.value
            if isinstance(argument.value, str)
            else {
                "value": in_unit(argument.value, argument.takes.unit),
                "unit": argument.takes.unit,
                "uncertainty": _spread(argument.uncertainty, argument.takes.kind, argument.takes.unit),
                "assumed": argument.assumed,
            }
            for argument in result.arguments
        },
        "value": in_unit(result.value, figure.unit),
        "unit": figure.unit,
        "uncertainty": _spread(result.uncertainty, figure.gives, figure.unit),
        "shown": _value_in_words(result, system),
        "formula": figure.formula,
        "valid": figure.valid,
        "source": figure.source,
        "standing": figure.standing,
    }


def in_unit(quantity: Quantity, unit: str) -> float:
    factor, offset = KINDS[quantity.kind].units[unit]
    return (quantity.value - offset) / factor


def _spread(spread: Quantity | None, kind: str, unit: str) -> float | None:
    """An uncertainty in the unit of its value: an offset, as that of degF, plays no part."""
    return None if spread is None else spread.value / KINDS[kind].units[unit][0]
