"""What the rule base names: which ids there are, where, and which outcomes and kinds they have.

Filled in one quick pass over all files before any record is built, so that records may mention each other in any
order and a record that is itself broken is still known by name.
"""

from __future__ import annotations

import difflib
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from expert.language.model import Position
from expert.language.sentences import reading as say
from expert.language.yaml.nodes import Node, Scalar

_MOST_SUGGESTIONS = 100  # Looking for near misses is slow; beyond so many problems nobody reads them.
_MOST_LISTED = 12


@dataclass(slots=True)
class Names:
    """All names of a rule base.

    `places`: space -> id -> where it was first given. `outcomes`: fact -> its outcomes, None if its record does not
    let them be known. `faults_of`: part -> its faults. `kinds`: name in formulas -> kind, None likewise.
    `words`: machine.<feature> -> its values.
    `lists`: named lists. `conditions`: named conditions, each with the file and node that hold it. `mentions`: where
    each of them is used.
    `incomplete`: spaces whose files could not be read whole, so that an unknown name proves nothing.
    """

    places: dict[str, dict[str, Position]] = field(default_factory=lambda: defaultdict(dict))
    outcomes: dict[str, tuple[str, ...] | None] = field(default_factory=dict)
    faults_of: dict[str, tuple[str, ...]] = field(default_factory=dict)
    states: dict[str, tuple[str, ...]] = field(default_factory=dict)
    kinds: dict[str, str | None] = field(default_factory=dict)
    words: dict[str, tuple[str, ...] | None] = field(default_factory=dict)
    lists: dict[str, list[Scalar]] = field(default_factory=dict)
    conditions: dict[str, tuple[str, Node]] = field(default_factory=dict)
    mentions: dict[tuple[str, str], list[Position]] = field(default_factory=lambda: defaultdict(list))
    incomplete: set[str] = field(default_factory=set)
    suggestions_left: int = _MOST_SUGGESTIONS
    likenesses: dict[tuple[str, int, str], str] = field(default_factory=dict)

    def instead(self, wrong: str, known: Iterable[str]) -> str:
        """The tail of a message: the nearest known name, or the list if it is short, or that there is none."""
        if self.suggestions_left <= 0:
            return ""
        choices = sorted(known)
        if not choices:
            return say.THERE_IS_NONE
        near = self.nearest(wrong, choices)
        if near:
            return say.did_you_mean(near)
        return say.there_is(", ".join(choices)) if len(choices) <= _MOST_LISTED else ""

    def did_you_mean(self, wrong: str, known: Iterable[str]) -> str:
        """Only the nearest known name, as the tail of a message, or nothing."""
        near = self.nearest(wrong, list(known))
        return say.did_you_mean(near) if near else ""

    def nearest(self, wrong: str, known: list[str]) -> str:
        """The known name most like a wrong one, or nothing."""
        if not known or len(wrong) > 80:
            return ""
        # The same slip is often made in many places: look once.
        asked = (wrong, len(known), known[0])
        if asked not in self.likenesses:
            if self.suggestions_left <= 0:
                return ""
            self.suggestions_left -= 1
            typed = wrong.lower().replace("-", "_").replace(" ", "_")
            found = difflib.get_close_matches(typed, known, 1, 0.65 if len(wrong) < 6 else 0.78)
            self.likenesses[asked] = found[0] if found else ""
        return self.likenesses[asked]
