"""What `expert figure` prints: the list, what a calculation takes, or its result; as data and in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from expert.job.figures import wording
from expert.job.figures.curve import curve_as_data, curve_in_words, curve_of, has_range
from expert.job.figures.reading import NoFigure, calculate, figure_named
from expert.workbench.sentences import showing as say

NOT_POSSIBLE = wording.NOT_POSSIBLE


def figure_page(name: str | None, values: Sequence[str], listed: bool, helped: bool, system: str) -> tuple[Any, str]:
    """The answer as data for another program, and as text. Raises what stands in NOT_POSSIBLE."""
    if listed:
        return wording.list_as_data(), "\n".join(wording.list_of_figures())
    if name is None:
        raise NoFigure(say.NAME_A_CALCULATION)
    figure = figure_named(name)
    if helped:
        return wording.about_as_data(figure), "\n".join(wording.about(figure))
    if has_range(values):
        curve = curve_of(figure, values)
        return curve_as_data(curve), "\n".join(curve_in_words(curve, system))
    result = calculate(figure, values)
    return wording.result_as_data(result, system), "\n".join(wording.result_in_words(result, system))
