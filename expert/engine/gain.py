"""How much an answer would tell: expected information in bits, from the rules themselves.

The suspects stand as rival explanations, each with its share of belief. What an outcome would do to each of them is
found by asking the engine *what if*; nothing here knows a rule. A cleared suspect cannot have shown that outcome, a
confirmed one leaves little room for the others, evidence shifts the odds by its decibans. The gain is the mutual
information between explanation and outcome (C. E. Shannon, A Mathematical Theory of Communication, 1948).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import log2

from expert.engine.knowledge import Knowledge
from expert.engine.state import Change, State
from expert.engine.suspicion import Picture, evidence_of
from expert.language.model import Question
from expert.trade.frozen import dataclass

SOMETHING_ELSE = "something else"
"""The explanation beside all suspects: nothing is wrong, or something no rule knows."""

SOMETHING_ELSE_WEIGHT = -5
NORMAL_WEIGHT = (
    10  # where the rules know a normal behaviour behind an open complaint, it is as likely as a common fault
)

UNSOUND_SHARE = 0.25  # how often an outcome that is not the sound one is seen where the suspect has no bearing on it
RIVAL_SHARE = 0.02  # how often an outcome that confirms one suspect is seen under another (two faults at once)
CLASH_SHARE = 0.001  # an outcome that contradicts what is known
NOT_SHOWN_SHARE = 0.1  # an outcome other than the one that the fault is said to show


@dataclass(frozen=True, slots=True)
class Effect:
    """What one outcome would do.

    Suspects cleared and confirmed, decibans moved, a complaint answered as normal, a danger met that concerns a
    suspect, a contradiction with what is known. `moved`: all whose standing would change.
    """

    cleared: frozenset[str]
    confirmed: frozenset[str]
    decibans: Mapping[str, int]
    normal: bool
    danger: bool
    clash: bool
    moved: frozenset[str]

    def touches(self, suspects: Iterable[str]) -> bool:
        """Whether the standing of one of these suspects would change, a complaint be answered or a danger met."""
        return self.normal or self.danger or not self.moved.isdisjoint(suspects)

    def bears_on(self, suspect: str) -> bool:
        """Whether the standing of this suspect would change."""
        return suspect in self.moved


def effect_of(knowledge: Knowledge, change: Change, picture: Picture) -> Effect:
    """The engine's change, seen from the suspects."""
    faults, fired = knowledge.base.faults, set(change.fired)
    left = {fact: after for fact, (_, after) in change.narrowed.items()}
    cleared = frozenset(fact for fact, after in left.items() if after == ("absent",) and fact in faults)
    confirmed = frozenset(fact for fact, after in left.items() if after == ("present",) and fact in faults)
    decibans = evidence_of(knowledge, change.fired)
    return Effect(
        cleared=cleared,
        confirmed=confirmed,
        decibans=decibans,
        normal=any(not fired.isdisjoint(knowledge.normal_rules.get(c, ())) for c in picture.complaints_open),
        danger=any(
            knowledge.named[rule] & {suspect.fault for suspect in picture.suspects}
            for rule in fired & knowledge.stopping
        ),
        clash=any(not after for after in left.values()),
        moved=cleared | confirmed | {fault for fault, moved in decibans.items() if moved},
    )


def effects_of(knowledge: Knowledge, state: State, question: Question, picture: Picture) -> dict[str, Effect]:
    """What each outcome of a question would do that is still possible."""
    return {
        outcome: effect_of(knowledge, state.what_if(question.id, (outcome,)), picture)
        for outcome in state.possible(question.id)
    }


def beliefs(knowledge: Knowledge, picture: Picture) -> dict[str, float]:
    """The share of belief of each open suspect and of 'something else'; they add up to 1."""
    odds = {suspect.fault: 10 ** (suspect.decibans / 10) for suspect in picture.suspects}
    known_normal = any(knowledge.normal_rules.get(complaint) for complaint in picture.complaints_open)
    odds[SOMETHING_ELSE] = 10 ** ((NORMAL_WEIGHT if known_normal else SOMETHING_ELSE_WEIGHT) / 10)
    total = sum(odds.values())
    return {explanation: share / total for explanation, share in odds.items()}


def expected_gain(
    knowledge: Knowledge, question: Question, effects: Mapping[str, Effect], belief: Mapping[str, float]
) -> float:
    """Expected information of a question about which explanation is true, in bits; 0 when it separates nothing."""
    kinds = _told_apart(knowledge, question, effects, belief)
    gain = 0.0
    for outcome in effects:
        chance = sum(share * seen[outcome] for share, seen in kinds)
        for share, seen in kinds:
            given = seen[outcome]
            if given > 0 and share > 0:
                gain += share * given * log2(given / chance)
    return max(gain, 0.0)


def _told_apart(
    knowledge: Knowledge, question: Question, effects: Mapping[str, Effect], belief: Mapping[str, float]
) -> list[tuple[float, dict[str, float]]]:
    """The explanations as the question sees them: the share of belief in each, and how often it shows each outcome.

    All faults that the question has nothing to do with would show the same, so they count as one explanation.
    """
    faults = knowledge.base.faults
    apart = {SOMETHING_ELSE}.union(*(effect.moved for effect in effects.values()))
    alike, kinds = 0.0, []
    for explanation, share in belief.items():
        if explanation in apart or question.id in faults[explanation].shows:
            kinds.append((share, _outcome_shares(knowledge, question, effects, explanation)))
        else:
            alike += share
    return [*kinds, (alike, _outcome_shares(knowledge, question, effects, ""))]


def _outcome_shares(
    knowledge: Knowledge, question: Question, effects: Mapping[str, Effect], explanation: str
) -> dict[str, float]:
    """How often each outcome is to be expected if this explanation is true; they add up to 1."""
    fault = knowledge.base.faults.get(explanation)
    shows = fault.shows.get(question.id, ()) if fault else ()
    raw: dict[str, float] = {}
    for outcome, effect in effects.items():
        share = 1.0 if not question.sound or outcome in question.sound else UNSOUND_SHARE
        if shows:
            share = 1.0 if outcome in shows else NOT_SHOWN_SHARE
        another_is_confirmed = effect.confirmed and explanation not in effect.confirmed
        it_is_normal = effect.normal and explanation != SOMETHING_ELSE
        if explanation in effect.cleared:
            share = 0.0
        elif another_is_confirmed or it_is_normal:
            share *= RIVAL_SHARE
        raw[outcome] = share * 10 ** (effect.decibans.get(explanation, 0) / 10) * (CLASH_SHARE if effect.clash else 1.0)
    total = sum(raw.values())
    # An explanation that no outcome allows says nothing about which will be seen.
    return {outcome: share / total if total else 1 / len(raw) for outcome, share in raw.items()}
