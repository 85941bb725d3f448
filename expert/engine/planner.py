"""What to ask next: authored order first, arithmetic second, and every choice explains itself.

A candidate is a question that may be put and whose outcomes would change the standing of an open suspect. Each is worth
its expected gain in bits, divided by its minutes, those of the bench moves it needs and those of the asking. Where a
fired check list has an open suspect that can be tested, its tests come first.
"""

from __future__ import annotations

from expert.engine.bearing import questions_that_bear
from expert.engine.candidates import LEAST_GAIN, Candidate, candidate_for, least_gain
from expert.engine.gain import beliefs, effects_of, expected_gain
from expert.engine.knowledge import atoms_of
from expert.engine.paving import paving
from expert.engine.ways import Situation, way_to_ask
from expert.language.model import Suspect
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Choice:
    """The question to put next and why.

    `danger_first`: it may show a danger and the bench stands for it already. `ahead_by` and `ahead_for`: the rule whose
    check list put it ahead, and for which suspect. `others`: the runners-up. `second_reading`: it is put once more to
    see whether the answer stays, and not for what it may tell.
    """

    best: Candidate
    ahead_by: str | None
    ahead_for: str | None
    others: tuple[Candidate, ...]
    danger_first: bool = False
    second_reading: bool = False


def choose(situation: Situation) -> Choice | None:
    """The question to put next, or None when no question left can tell anything."""
    if situation.picture.settled or not (situation.picture.suspects or _may_be_normal(situation)):
        return None
    candidates = dead_first(situation, worth_asking(situation))
    if not candidates:
        return None
    # Whoever stands at the machine learns of a danger first, before any test that is merely quicker.
    if dangers := [candidate for candidate in candidates if candidate.danger and not candidate.route.moves]:
        ranked = _by_worth(dangers)
        return Choice(ranked[0], None, None, tuple(ranked[1:4]), danger_first=True)
    rule, suspect, first = _put_ahead(situation, candidates)
    ranked = _by_worth(first or candidates)
    return Choice(ranked[0], rule, suspect, tuple(ranked[1:4]))


def dead_first(situation: Situation, candidates: list[Candidate]) -> list[Candidate]:
    """Without live tests that would tell nothing which a test outside live work may decide just as well.

    A live test is put when it bears on a suspect that no other test left decides.
    """
    base = situation.knowledge.base
    live = {c.question for c in candidates if base.bench.is_live(base.questions[c.question].bench)}
    decided = frozenset().union(*(c.decides for c in candidates if c.question not in live))
    return [c for c in candidates if c.question not in live or not decided.issuperset(c.settles)]


def _by_worth(candidates: list[Candidate]) -> list[Candidate]:
    """The most bits a minute first; of equals the one that stands first in the rules."""
    return sorted(candidates, key=lambda candidate: -candidate.worth)


def _may_be_normal(situation: Situation) -> bool:
    """Whether the rules know a normal behaviour that would answer an open complaint."""
    normal = situation.knowledge.normal_rules
    return any(normal.get(complaint) for complaint in situation.picture.complaints_open)


def worth_asking(situation: Situation) -> list[Candidate]:
    """Questions whose own outcomes change a suspect's standing; if none, those that pave the way for one."""
    knowledge, state, picture = situation.knowledge, situation.state, situation.picture
    belief = beliefs(knowledge, picture)
    suspects = [suspect.fault for suspect in picture.suspects]
    direct = []
    bearing = questions_that_bear(knowledge, picture)
    for question in knowledge.base.questions.values():
        way = way_to_ask(situation, question) if question.id in bearing else None
        if way is None:
            continue
        effects = effects_of(knowledge, state, question, picture)
        if any(effect.touches(suspects) for effect in effects.values()):
            gain = max(expected_gain(knowledge, question, effects, belief), least_gain(effects))
            if gain > LEAST_GAIN:
                direct.append(candidate_for(question, way, gain, suspects, effects))
    return direct or list(paving(situation, belief, suspects))


def _put_ahead(situation: Situation, candidates: list[Candidate]) -> tuple[str | None, str | None, list[Candidate]]:
    """The fired check list that decides, its first open suspect that can be tested, and that suspect's tests.

    The list of the rule with the most conditions goes first: it rests on the most knowledge.
    """
    base, state = situation.knowledge.base, situation.state
    open_suspects = {suspect.fault for suspect in situation.picture.suspects}
    lists = [
        (rule, conclusion)
        for rule in base.rules.values()
        if rule.id in state.fired
        for conclusion in rule.then
        if isinstance(conclusion, Suspect) and conclusion.in_order
    ]
    for rule, check in sorted(lists, key=lambda pair: -len(atoms_of(pair[0].when))):
        for fault in check.faults:
            tests = [candidate for candidate in candidates if fault in candidate.settles]
            if fault in open_suspects and tests:
                return rule.id, fault, tests
    return None, None, []
