"""Phrases of the table such as `Volts(element.a, element.b)`: what hands do and what is observed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import expert.machine as simulated
from expert.machine.bench import actions
from expert.machine.seeing import observations

BOILING = "BOILING"  # the temperature at which water boils where the machine stands
_PHRASE = re.compile(r"(\w+)\((.*)\)")
_COMPARED = re.compile(r"Compared\(([a-z_.0-9]+)\)")
_KNOWN: dict[str, Any] = {name: getattr(simulated, name) for name in simulated.__all__}


@dataclass(frozen=True, slots=True)
class Compared:
    """What is read off a part, its marking or its menu, as this machine was made or not: "as made" or "changed".

    `what`: the machine's own name of the value, such as mains.controller.set_point.
    """

    what: str


@dataclass(frozen=True, slots=True)
class Noticed:
    """What the owner has noticed in use, in the machine's own words for complaints."""


class BadPhrase(ValueError):
    """A phrase that the machine does not know. The message says what was found."""


Asked = simulated.Observation | Compared | Noticed


def action_of(text: str) -> simulated.Action:
    """What hands do. Raises BadPhrase.

    >>> action_of("Tap(steam, 0.5)")
    Tap(which='steam', share=0.5)
    """
    made: simulated.Action = _made(text, actions)
    return made


def observation_of(text: str) -> Asked:
    """What is observed. Raises BadPhrase.

    >>> observation_of("Insulation(alone=element)").alone
    'element'
    """
    if match := _COMPARED.fullmatch(text.strip()):
        return Compared(match[1])
    if text.strip() == "Noticed()":
        return Noticed()
    made: Asked = _made(text, observations)
    return made


def _made(text: str, where: Any) -> Any:
    match = _PHRASE.fullmatch(text.strip())
    if match is None or match[1] not in _KNOWN or getattr(where, match[1], None) is not _KNOWN[match[1]]:
        raise BadPhrase(f"'{text}' is nothing that can be done to or asked of the machine")
    given: list[object] = []
    named: dict[str, object] = {}
    for piece in filter(None, (piece.strip() for piece in match[2].split(","))):
        name, equals, value = piece.partition("=")
        if equals:
            named[name.strip()] = _value(value.strip())
        else:
            given.append(_value(piece))
    try:
        return _KNOWN[match[1]](*given, **named)
    except TypeError as problem:
        raise BadPhrase(f"'{text}': {problem}") from None


def _value(text: str) -> object:
    if text in ("true", "false"):
        return text == "true"
    try:
        number = float(text)
    except ValueError:
        return text
    return int(number) if number.is_integer() and "." not in text else number
