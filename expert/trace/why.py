"""Why a question was put: what the planner weighed at that moment. Part of the record `PromptPut`."""

from __future__ import annotations

from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Considered:
    """A question that could have been put: what it would tell (bits) and cost (minutes, with the moves it needs)."""

    question: str
    bits: float
    minutes: float
    moves: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Suspicion:
    """A fault that was still open: its weight in decibans and its share of belief (0 to 1)."""

    fault: str
    decibans: int
    share: float


@dataclass(frozen=True, slots=True)
class Why:
    """Why this was put.

    `aim`: the question that is wanted, where another has to come before it. `rule` and `ahead_for`: the rule whose
    check list put it ahead, and for which suspect, or "". `settles`: suspects whose standing an answer could change.
    `before_move`: the bench move before which it must be known, or "". `hazard`: the danger for whose release it is
    put, or "". `candidates` and `suspects`: the first ranks highest.
    """

    aim: str = ""
    rule: str = ""
    ahead_for: str = ""
    settles: tuple[str, ...] = ()
    candidates: tuple[Considered, ...] = ()
    suspects: tuple[Suspicion, ...] = ()
    before_move: str = ""
    hazard: str = ""


NO_REASON = Why()
