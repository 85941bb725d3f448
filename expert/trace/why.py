"""Why a question was put: what the planner weighed at that moment. Part of the record `Put`."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Candidate:
    """A question that could have been put: what it would tell (bits) and cost (minutes, with the moves it needs)."""

    question: str
    bits: float
    minutes: float
    moves: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Suspicion:
    """A fault that was still open, with its share of the weight (0 to 1)."""

    fault: str
    weight: float


@dataclass(frozen=True, slots=True)
class Why:
    """Why this was put. `rule`: the rule whose check list put it ahead, or "". Both lists: the first ranks highest."""

    rule: str = ""
    candidates: tuple[Candidate, ...] = ()
    suspects: tuple[Suspicion, ...] = ()
