"""Sentences that nobody may be told: to switch on in a dead machine, or to take a protective device out of its work.

Words are judged, not meanings: a sentence or part of one that begins with such a deed, without a "not" before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

from expert.language.model import Position
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {
    "step-energises": say.STEP_ENERGISES,
    "defeats-protection": say.DEFEATS_PROTECTION,
}
# Where a deed is told: at the beginning of a sentence or of a part of one.
_BEGIN = r"(?:^|[.;:!?]\s+|,\s+|\b(?:and|then|or|now)\s+)"
_ENERGISES = re.compile(
    _BEGIN
    + r"(?:(?:let\s+it\s+|let\s+the\s+machine\s+)?heat(?:\s+it|\s+the\s+\w+)?\s+(?:up|for|to)\b"
    + r"|plug\s+(?:it\s+|the\s+machine\s+)?in\b(?!to)"
    + r"|switch\s+(?:it\s+|the\s+machine\s+|the\s+mains\s+)?on\b"
    + r"|turn\s+(?:it\s+|the\s+machine\s+)on\b"
    + r"|power\s+(?:it\s+)?up\b"
    + r"|(?:watch|run|make|do)\s+(?:one|a|the|two|three)?\s*(?:full\s+|short\s+|whole\s+)*(?:heat-up|cycle|brew|fill)\b"
    + r"|run\s+the\s+(?:pump|machine|heat)\b"
    + r"|bring\s+(?:it|the\s+\w+)\s+(?:up\s+)?to\s+(?:heat|pressure|working\s+pressure)\b"
    + r"|brew\s+(?:one|a|twice|once)\b)",
    re.IGNORECASE,
)
_DEVICES = (
    r"(?:high[- ]?limits?|limit(?:s|\s+thermostat)?|thermal\s+(?:links?|limiters?|fuses?|cut-?outs?)|limiters?"
    r"|safety\s+valves?"
    r"|relief\s+valves?|over-pressure\s+valves?|safety\s+devices?|protective\s+devices?|fuses?|earth(?:\s+(?:wire|pin|core))?"
    r"|rcd|return\s+hose|interlocks?)"
)
_DEFEATS = re.compile(
    _BEGIN
    + r"(?:bridge|short(?:\s+out)?|jumper|link\s+(?:out|across|over|the)|by-?pass|block|plug\s+(?:up|the|its|an?)\b"
    + r"|clamp|wedge|pinch|tie\s+down|screw\s+down|hold\s+shut|tape\s+over|adjust|turn\s+up|tighten\s+down"
    + r"|disable|defeat|override|leave\s+out|cut\s+off)"
    + r"\s+(?:\w+\s+){0,5}?"
    + _DEVICES
    + r"\b",
    re.IGNORECASE,
)
# To take one out is part of testing and renewing it: then the same sentence says so.
_REMOVES = re.compile(
    _BEGIN + r"(?:remove|take\s+(?:out|off|away)|pull\s+out|unscrew)\s+(?:\w+\s+){0,5}?" + _DEVICES + r"\b",
    re.IGNORECASE,
)
_RENEWS = re.compile(r"\b(?:new|renew|fit|test|try|tried|measure|meter|warm|back|spanner)\b", re.IGNORECASE)


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every sentence that tells it."""
    for sentence, dead, place in _sentences(draft):
        for message, code in _told(sentence, dead):
            yield Problem(place if isinstance(place, Position) else draft.place(*place), message, code)


@lru_cache(maxsize=20_000)  # the sentences of one reading are those of the last, but for the one that was edited
def _told(sentence: str, dead: bool) -> tuple[tuple[str, str], ...]:
    """What a sentence tells that nobody may be told: the message and its code."""
    found = []
    if dead and (deed := _ENERGISES.search(sentence)) and not _negated(sentence, deed.start()):
        found.append((say.not_in_a_dead_machine(_cut(deed.group()), say.HINT_ON), "step-energises"))
    deed = _DEFEATS.search(sentence) or (not _RENEWS.search(sentence) and _REMOVES.search(sentence)) or None
    if deed and not _negated(sentence, deed.start()):
        found.append((f"'{_cut(deed.group())}'; {say.HINT_DEVICE}", "defeats-protection"))
    return tuple(found)


def _sentences(draft: Draft) -> Iterator[tuple[str, bool, Position | tuple[str, ...]]]:
    """Every sentence that tells what to do, whether the machine is dead then, and where it stands."""
    for question in draft.questions.values():
        yield question.how, _dead(draft, question.bench), ("question", question.id, "how")
        if question.prepare is not None:
            dead = _dead(draft, question.prepare.bench)
            yield from ((step, dead, ("question", question.id, "prepare")) for step in question.prepare.steps)
    for fault in draft.faults.values():
        dead = _dead(draft, fault.repair.bench)
        yield from ((step, dead, ("fault", fault.id, "repair", "steps", step)) for step in fault.repair.steps)
    for move in draft.bench.moves:
        yield from ((step, False, ("move", move.id, "steps", step)) for step in move.steps)
    for rule in draft.rules.values():
        yield from ((said, False, rule.at) for said in _said(rule.then))


def _said(conclusions: Iterable[object]) -> Iterator[str]:
    return (text for said in conclusions if isinstance(text := getattr(said, "text", None), str))


def _dead(draft: Draft, bench: Mapping[str, str]) -> bool:
    """Whether the plug is out in a state: nothing in it says otherwise than the safe state."""
    return all(bench.get(dimension, state) == state for dimension, state in draft.bench.safe.items())


def _negated(sentence: str, start: int) -> bool:
    """Whether a no stands in the same sentence before the deed."""
    before = re.split(r"[.;!?]", sentence[:start])[-1]
    return re.search(r"\b(?:not|never|nobody|no|don't|without|before|until)\b", before, re.IGNORECASE) is not None


def _cut(text: str) -> str:
    return text.strip(" .;:,!?").strip()
