"""The outcome that words mean: any part of what is shown that fits one outcome only, in any case, with small slips."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import SequenceMatcher

# Words that turn a sentence round: left out or put in, it says the opposite.
TURNS = frozenset(("no", "not", "none", "nothing", "never", "without", "nor", "neither", "hardly", "isn't", "doesn't"))
LITTLE = frozenset(("a", "an", "the", "it", "is", "of", "and", "or", "its", "are", "there"))
WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)?")
LEAST_SLIPPED = 6  # letters; in a shorter word another letter makes another word
ALIKE = 0.8
LONGEST = 80


def outcome_meant(text: str, labels: Mapping[str, str]) -> str:
    """The one outcome whose word or label the text is, begins, or is a part of; '' when none or several fit.

    labels: what is shown for each outcome, '' where its word is.

    >>> flows = {"none": "nothing comes", "thin": "a thin stream or drops", "full": "full stream"}
    >>> outcome_meant("Thin stream", flows), outcome_meant("thin streem", flows), outcome_meant("stream", flows)
    ('thin', 'thin', '')
    >>> outcome_meant("comes", flows), outcome_meant("no full stream", flows)
    ('', '')
    """
    typed = " ".join(text.casefold().replace("_", " ").split())[:LONGEST]
    shown = {
        outcome: [part for part in (outcome.replace("_", " "), label.casefold()) if part]
        for outcome, label in labels.items()
    }
    for fits in (_is, _begins, _is_part, _is_nearly_part):
        fitting = [outcome for outcome, parts in shown.items() if any(fits(typed, part) for part in parts)]
        if fitting:
            return fitting[0] if len(fitting) == 1 else ""
    return ""


def _is(typed: str, shown: str) -> bool:
    return typed == shown


def _begins(typed: str, shown: str) -> bool:
    # A no is no beginning of nothing.
    return len(typed) > 1 and shown.startswith(f"{typed} " if typed in TURNS else typed)


def _is_part(typed: str, shown: str) -> bool:
    """Every word typed stands in what is shown, and none that turns it round is left out."""
    words, there = _words(typed), _words(shown)
    return bool(words) and words <= there and words & TURNS == there & TURNS and bool(words - TURNS)


def _is_nearly_part(typed: str, shown: str) -> bool:
    """The same with a slip in the longer words."""
    words, there = _words(typed), _words(shown)
    if not words - TURNS or words & TURNS != there & TURNS:
        return False
    return all(word in there or any(alike(word, other) for other in there) for word in words)


def alike(one: str, other: str) -> bool:
    # What is put in front of a word turns it round: connected, disconnected.
    long_enough = min(len(one), len(other)) >= LEAST_SLIPPED
    return long_enough and one[0] == other[0] and SequenceMatcher(None, one, other).ratio() >= ALIKE


def _words(text: str) -> frozenset[str]:
    return frozenset(WORD.findall(text.replace("’", "'"))) - LITTLE
