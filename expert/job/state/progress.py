"""How far a search had come when it last moved."""

from __future__ import annotations

from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Progress:
    """How the search stood when a question last had an effect: `mark`, with the questions `settled` by then."""

    mark: tuple[object, ...]
    settled: frozenset[str]
