"""One step ahead: questions that tell nothing alone, but would together with one more answer."""

from __future__ import annotations

from collections.abc import Iterable

from expert.engine.candidates import LEAST_GAIN, Candidate, candidate_for, least_gain
from expert.engine.gain import effect_of, expected_gain
from expert.engine.knowledge import Knowledge
from expert.engine.state import State
from expert.engine.ways import Situation, way_to_ask
from expert.language.model import ALWAYS, All, Any, Condition, Is, Narrow, Normal, Rule

SUPPOSED = 0.5  # chance that another answer, supposed for looking one step ahead, comes out as supposed


def paving(situation: Situation, belief: dict[str, float], suspects: list[str]) -> Iterable[Candidate]:
    """Questions that tell nothing alone, but would together with one more answer.

    For each rule that could settle something, the other tests it needs are supposed to come out as it wants.
    """
    knowledge, state = situation.knowledge, situation.state
    best: dict[str, Candidate] = {}
    for rule in knowledge.base.rules.values():
        if rule.id in state.fired or not _bears_on(rule, suspects, situation.picture.complaints_open):
            continue
        if state.truth(rule.when) is False:
            continue
        for question_id in knowledge.questions_of(rule.when):
            question = knowledge.base.questions[question_id]
            way = way_to_ask(situation, question)
            if way is None:
                continue
            scratch, supposed = _suppose_others(knowledge, state, rule.when, question_id)
            effects = {
                outcome: effect_of(knowledge, scratch.what_if(question_id, (outcome,)), situation.picture)
                for outcome in state.possible(question_id)
            }
            if not any(effect.touches(suspects) for effect in effects.values()):
                continue
            gain = max(expected_gain(knowledge, question, effects, belief), least_gain(effects)) * SUPPOSED**supposed
            if gain > LEAST_GAIN:
                candidate = candidate_for(question, way, gain, suspects, effects)
                if question_id not in best or candidate.worth > best[question_id].worth:
                    best[question_id] = candidate
    return [best[question] for question in knowledge.base.questions if question in best]


def _bears_on(rule: Rule, suspects: list[str], complaints_open: tuple[str, ...]) -> bool:
    """Whether a rule could narrow a suspect, weigh for or against one, or answer a complaint as normal."""
    for conclusion in rule.then:
        match conclusion:
            case Narrow(fact=fault) if fault in suspects:
                return True
            case Normal(complaints=complaints) if set(complaints) & set(complaints_open):
                return True
            case _ if getattr(conclusion, "fault", None) in suspects:
                return True
    return False


def _suppose_others(knowledge: Knowledge, state: State, condition: Condition, question: str) -> tuple[State, int]:
    """A scratch state in which the tests that do not rest on the question come out as the condition wants them."""
    scratch = state.copy()
    supposed = 0
    for atom in _wanted(state, condition):
        if question in knowledge.behind_fact(atom.fact) or state.truth(atom) is not None:
            continue
        scratch.narrow(f"supposed {supposed}", atom.fact, atom.outcomes)
        supposed += 1
    return scratch, supposed


def _wanted(state: State, condition: Condition) -> Iterable[Is]:
    """Tests which together would make the condition true: of alternatives, the first that can still hold."""
    match condition:
        case Is():
            yield condition
        case All(parts=parts):
            for part in parts:
                yield from _wanted(state, part)
        case Any(parts=parts):
            open_parts = [part for part in parts if state.truth(part) is not False]
            yield from _wanted(state, open_parts[0] if open_parts else ALWAYS)
