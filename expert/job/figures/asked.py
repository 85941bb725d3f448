"""What `figure ...` says in the dialogue: how to ask, the list, a page, a result or a curve."""

from __future__ import annotations

from expert.job.figures.curve import curve_in_words, curve_of, has_range
from expert.job.figures.reading import calculate, figure_named, pieces_of
from expert.job.figures.wording import HOW_TO_ASK, about, list_of_figures, result_in_words


def figure_at_the_prompt(rest: str, system: str) -> list[str]:
    """What `figure ...` says in the dialogue. Raises NoFigure, OutOfRange or WrongArguments."""
    name, *pieces = pieces_of(rest) or [""]
    if not name or name in ("help", "--help"):
        return list(HOW_TO_ASK)
    if name in ("list", "--list"):
        return list_of_figures()
    figure = figure_named(name)
    asks_how = not pieces and figure.least_arguments() > 0
    if asks_how or pieces in (["help"], ["--help"]):
        return about(figure)
    if has_range(pieces):
        return curve_in_words(curve_of(figure, pieces), system)
    return result_in_words(calculate(figure, pieces), system)
