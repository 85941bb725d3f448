"""From a view to a page. Every value is escaped by the template engine; a name that is missing is an error."""

from __future__ import annotations

import textwrap
from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from expert.trace.cleaning import clean


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("expert.shop.report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["spoken"] = spoken
    environment.filters["folded"] = folded
    environment.finalize = _shown
    return environment


def page(template: str, **view: Any) -> str:
    """The page that a template makes of these values."""
    return _environment().get_template(template).render(view)


def spoken(word: str) -> str:
    """An id as words.

    >>> spoken("left_by_elimination")
    'left by elimination'
    """
    return word.replace("_", " ")


def folded(text: str, width: int, most: int = 3) -> list[str]:
    """Lines of at most so many characters for a picture, where nothing wraps by itself; a long text is cut.

    >>> folded("pump thermal limiter: open for good", 16)
    ['pump thermal', 'limiter: open', 'for good']
    """
    return textwrap.wrap(clean(text), width, max_lines=most, placeholder=" ...") or [""]


def _shown(value: object) -> object:
    """Numbers of pictures without needless digits; text without control sequences; None as nothing."""
    if value is None:
        return ""
    if isinstance(value, float):
        return f"{value:.1f}".removesuffix(".0")
    # A text that is marked as safe comes from a template of ours and stays.
    return clean(value, 20_000) if type(value) is str else value
