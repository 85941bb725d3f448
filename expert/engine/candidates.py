"""Questions worth asking, each with what it would tell and what it costs."""

from __future__ import annotations

from collections.abc import Mapping

from expert.engine.bench import Route
from expert.engine.gain import Effect
from expert.engine.ways import Way
from expert.language.model import Question
from expert.trade.frozen import dataclass

LEAST_GAIN = 1e-6  # bits; below this two shares differ by rounding only
DANGER_GAIN = 0.3  # bits credited to a question that may show a danger behind a suspect
NORMAL_GAIN = 0.1  # bits credited to a question that can only tell whether the behaviour is normal
ASKING = 0.5  # minutes for reading a question, putting down the tool and answering, beside those of the test itself


@dataclass(frozen=True, slots=True)
class Candidate:
    """A question worth asking. `asks` is put; it is the question itself or one that must be answered before it.

    `settles`: suspects whose standing an answer could change; `decides`: those that it could confirm or clear.
    """

    question: str
    asks: str
    gain: float
    minutes: float
    route: Route
    settles: tuple[str, ...]
    danger: bool = False
    decides: frozenset[str] = frozenset()

    @property
    def worth(self) -> float:
        """Bits a minute, the asking included: ten looks of a few seconds are no better than one test of a minute."""
        return self.gain / (ASKING + self.minutes + self.route.minutes)


def least_gain(effects: Mapping[str, Effect]) -> float:
    """What a question is worth though it tells nothing between the suspects: dangers, then normal behaviour."""
    if any(effect.danger for effect in effects.values()):
        return DANGER_GAIN
    return NORMAL_GAIN if any(effect.normal for effect in effects.values()) else 0.0


def candidate_for(
    question: Question, way: Way, gain: float, suspects: list[str], effects: Mapping[str, Effect]
) -> Candidate:
    moved = frozenset().union(*(effect.moved for effect in effects.values()))
    settles = tuple(suspect for suspect in suspects if suspect in moved)
    danger = any(effect.danger for effect in effects.values())
    decides = frozenset().union(*(effect.confirmed | effect.cleared for effect in effects.values()))
    return Candidate(question.id, way.asks, gain, way.minutes, way.route, settles, danger, decides)
