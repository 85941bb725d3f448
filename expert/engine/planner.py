"""What to ask next: authored order first, arithmetic second, and every choice explains itself.

A candidate is a question that may be put and whose outcomes would change the standing of an open suspect. Each is worth
its expected gain in bits, divided by its minutes, those of the bench moves it needs and those of the asking. Where a
fired check list has an open suspect that can be tested, its tests come first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from expert.engine.bearing import questions_that_bear
from expert.engine.bench import BenchMap, BenchState, Route
from expert.engine.gain import Effect, beliefs, effect_of, effects_of, expected_gain
from expert.engine.knowledge import Knowledge, atoms_of
from expert.engine.state import State
from expert.engine.suspicion import Picture
from expert.language.model import ALWAYS, All, Any, Condition, Is, Narrow, Normal, Question, Rule, Suspect

LEAST_GAIN = 1e-6  # bits; below this two shares differ by rounding only
DANGER_GAIN = 0.3  # bits credited to a question that may show a danger behind a suspect
NORMAL_GAIN = 0.1  # bits credited to a question that can only tell whether the behaviour is normal
ASKING = 0.5  # minutes for reading a question, putting down the tool and answering, beside those of the test itself
SUPPOSED = 0.5  # chance that another answer, supposed for looking one step ahead, comes out as supposed


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


@dataclass(frozen=True, slots=True)
class Choice:
    """The question to put next and why.

    `danger_first`: it may show a danger and the bench stands for it already. `ahead_by` and `ahead_for`: the rule whose
    check list put it ahead, and for which suspect. `others`: the runners-up.
    """

    best: Candidate
    ahead_by: str | None
    ahead_for: str | None
    others: tuple[Candidate, ...]
    danger_first: bool = False


@dataclass(frozen=True, slots=True)
class Situation:
    """All the planner looks at. `settled_questions`: answered, or can't tell. `measurable`: instruments the shop owns.

    `missing_first` names the questions whose number a question's limits still lack; `prepared`: those set up already.
    """

    knowledge: Knowledge
    state: State
    picture: Picture
    settled_questions: frozenset[str]
    bench: BenchState
    bench_map: BenchMap
    applies: Callable[[str], bool]
    measurable: frozenset[str]
    missing_first: Callable[[str], tuple[str, ...]]
    prepared: frozenset[str] = frozenset()


def choose(situation: Situation) -> Choice | None:
    """The question to put next, or None when no question left can tell anything."""
    if situation.picture.settled or not (situation.picture.suspects or _may_be_normal(situation)):
        return None
    candidates = worth_asking(situation)
    if not candidates:
        return None
    # Whoever stands at the machine learns of a danger first, before any test that is merely quicker.
    if dangers := [candidate for candidate in candidates if candidate.danger and not candidate.route.moves]:
        ranked = _by_worth(dangers)
        return Choice(ranked[0], None, None, tuple(ranked[1:4]), danger_first=True)
    rule, suspect, first = _put_ahead(situation, candidates)
    ranked = _by_worth(first or candidates)
    return Choice(ranked[0], rule, suspect, tuple(ranked[1:4]))


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
            gain = max(expected_gain(knowledge, question, effects, belief), _least_gain(effects))
            if gain > LEAST_GAIN:
                direct.append(_candidate(question, way, gain, suspects, effects))
    return direct or list(_paving(situation, belief, suspects))


def _least_gain(effects: Mapping[str, Effect]) -> float:
    """What a question is worth though it tells nothing between the suspects: dangers, then normal behaviour."""
    if any(effect.danger for effect in effects.values()):
        return DANGER_GAIN
    return NORMAL_GAIN if any(effect.normal for effect in effects.values()) else 0.0


def _candidate(
    question: Question, way: Way, gain: float, suspects: list[str], effects: Mapping[str, Effect]
) -> Candidate:
    moved = frozenset().union(*(effect.moved for effect in effects.values()))
    settles = tuple(suspect for suspect in suspects if suspect in moved)
    danger = any(effect.danger for effect in effects.values())
    decides = frozenset().union(*(effect.confirmed | effect.cleared for effect in effects.values()))
    return Candidate(question.id, way.asks, gain, way.minutes, way.route, settles, danger, decides)


# ---------------------------------------------------------------- may it be put, and what does it cost


@dataclass(frozen=True, slots=True)
class Way:
    """How a question comes to be put: what is asked first, the minutes of asking, the bench route to the first."""

    asks: str
    minutes: float
    route: Route


def way_to_ask(situation: Situation, question: Question, depth: int = 4) -> Way | None:
    """The way to put a question, or None: answered, not for this machine, no instrument, no safe way there."""
    if not may_be_put(situation, question):
        return None
    route = route_to(situation, question)
    if route is None or depth == 0:
        return None
    before = first_before(situation, question)
    if before is None:
        return None
    if before == "":
        return Way(question.id, question.minutes, route)
    way = way_to_ask(situation, situation.knowledge.base.questions[before], depth - 1)
    return way and Way(way.asks, way.minutes + question.minutes, way.route)


def route_to(situation: Situation, question: Question) -> Route | None:
    """The bench moves before a question, through the state in which it is set up unless that is done."""
    ways, bench = situation.bench_map, situation.bench
    if question.prepare is None or question.id in situation.prepared:
        return ways.route(bench, question.bench)
    return ways.route_through(bench, question.prepare.bench, question.bench)


def may_be_put(situation: Situation, question: Question) -> bool:
    """Open, for this machine, and with an instrument that the shop owns."""
    return (
        question.id not in situation.settled_questions
        and situation.applies(question.id)
        and (question.measure is None or question.measure.instrument in situation.measurable)
    )


def first_before(situation: Situation, question: Question) -> str | None:
    """The question to put before this one, '' when it may be put at once, None when it may not be put at all."""
    missing = situation.missing_first(question.id)
    if missing:
        # A rating that the plate does not state cannot be asked for: the question has no limits on this machine.
        can_be_asked = missing[0] in situation.knowledge.base.questions
        return missing[0] if can_be_asked and missing[0] not in situation.settled_questions else None
    holds = situation.state.truth(question.only_if)
    if holds:
        return ""
    if holds is False:
        return None
    for needed in situation.knowledge.questions_of(question.only_if):
        if needed != question.id and needed not in situation.settled_questions:
            return needed
    return None


# ---------------------------------------------------------------- check lists


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


# ---------------------------------------------------------------- one step ahead


def _paving(situation: Situation, belief: dict[str, float], suspects: list[str]) -> Iterable[Candidate]:
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
            gain = max(expected_gain(knowledge, question, effects, belief), _least_gain(effects)) * SUPPOSED**supposed
            if gain > LEAST_GAIN:
                candidate = _candidate(question, way, gain, suspects, effects)
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
