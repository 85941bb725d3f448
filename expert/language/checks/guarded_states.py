"""Bench states that can hurt: their cautions, who may work in them, and how they are come into."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from itertools import product

from expert.language.model import Caution, Move, Position
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {
    "caution-missing": say.CAUTION_MISSING,
    "state-unguarded": say.STATE_UNGUARDED,
    "move-into-danger": say.MOVE_INTO_DANGER,
    "hand-on-live-part": say.HAND_ON_LIVE_PART,
}
_HAND = re.compile(
    r"\b(?:pull|push|clip|hold|loosen|undo|unscrew|take|fit|touch|press|probe|insulated probes|wriggle|tug|connect)\b"
    r"(?!\s+(?:nothing|the\s+(?:towel|stick|plug|lever|set point)))[^.;]*?"
    r"\b(?:terminals?|wires?|leads?|clips?|joints?|tabs?|line|plugs?|relay|probe|board|copper)\b",
    re.IGNORECASE,
)
_DEAD = re.compile(r"\b(?:nothing|unplug|plug out|beforehand|not|never)\b", re.IGNORECASE)


def check(draft: Draft) -> Iterable[Problem]:
    """Cautions first, then what the bench file allows, then hands."""
    if len(draft.cautions) < len(draft.names.places["caution"]):
        return
    for cautions, state, place in _asked_for(draft):
        for caution in draft.cautions.values():
            if caution.id not in cautions and any(needed.items() <= state.items() for needed in caution.needed_in):
                message = say.caution_in_state(_said(state), caution.id)
                yield Problem(draft.place(*place), message, "caution-missing")
    yield from _spoken_of(draft)
    for caution in draft.cautions.values():
        yield from _unguarded(draft, caution)
    yield from _hands(draft)


def _asked_for(draft: Draft) -> Iterator[tuple[tuple[str, ...], Mapping[str, str], tuple[str, ...]]]:
    """The cautions and bench state of everything that is worked at, with its place."""
    for question in draft.questions.values():
        yield question.cautions, question.bench, ("question", question.id, "cautions")
        if question.prepare is not None:
            yield question.cautions, question.prepare.bench, ("question", question.id, "prepare")
    for fault in draft.faults.values():
        yield fault.repair.cautions, fault.repair.bench, ("fault", fault.id, "repair", "cautions")
    for move in draft.bench.moves:
        stood = {dimension: states[0] for dimension, states in move.needs.items() if len(states) == 1}
        yield move.cautions, {**stood, **move.makes}, ("move", move.id, "cautions")


def _spoken_of(draft: Draft) -> Iterator[Problem]:
    """What is done with something that has a caution of its own, such as descaler."""
    words = {
        caution.id: re.compile(rf"\b(?:{'|'.join(map(re.escape, caution.needed_with))})\b", re.IGNORECASE)
        for caution in draft.cautions.values()
        if caution.needed_with
    }
    for sentences, cautions, place in _told(draft):
        for name, pattern in words.items():
            found = next((word for text in sentences if (word := _first(pattern, text))), "")
            if found and name not in cautions:
                message = say.caution_with_words(found.lower(), name)
                yield Problem(draft.place(*place), message, "caution-missing")


@lru_cache(maxsize=20_000)  # the sentences of one reading are those of the last, but for the one that was edited
def _first(pattern: re.Pattern[str], sentence: str) -> str:
    found = pattern.search(sentence)
    return found[0] if found else ""


def _told(draft: Draft) -> Iterator[tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]]:
    """What is to be done, with its cautions and its place."""
    for question in draft.questions.values():
        steps = question.prepare.steps if question.prepare is not None else ()
        yield (question.how, *steps), question.cautions, ("question", question.id, "cautions")
    for fault in draft.faults.values():
        repair = fault.repair
        yield (*repair.steps, *repair.consumables), repair.cautions, ("fault", fault.id, "repair", "cautions")


def _unguarded(draft: Draft, caution: Caution) -> Iterator[Problem]:
    bench = draft.bench
    at = draft.place("bench", "bench")
    for state in caution.needed_in if bench.moves else ():
        if caution.work == "qualified" and not _covered(state, (*bench.qualified_only, *bench.passing_only)):
            message = say.only_for_the_qualified(caution.id, _said(state))
            yield Problem(at, message, "state-unguarded")
        if caution.work == "none":
            if not _covered(state, bench.passing_only):
                message = say.nobody_works_there(caution.id, _said(state))
                yield Problem(at, message, "state-unguarded")
            for move in bench.moves:
                if _leads_into(draft, move, state):
                    message = say.move_may_lead_into(move.id, _said(state))
                    yield Problem(draft.place("move", move.id, "needs"), message, "move-into-danger")


def _covered(state: Mapping[str, str], combinations: Iterable[Mapping[str, str]]) -> bool:
    return any(combination.items() <= state.items() for combination in combinations)


def _leads_into(draft: Draft, move: Move, danger: Mapping[str, str]) -> bool:
    """Whether a machine that stands otherwise may come into the state by this move, its covers taken off by it."""
    if not any(move.makes.get(name) == value for name, value in danger.items()):
        return False
    before = {name: move.needs.get(name, draft.bench.states.get(name, ())) for name in danger}
    for combination in product(*before.values()):
        stood = dict(zip(before, combination, strict=True))
        now = {**stood, **{name: value for name, value in move.makes.items() if name in danger}}
        if now == dict(danger) and stood != dict(danger) and not _passed(draft, stood):
            return True
    return False


def _passed(draft: Draft, stood: Mapping[str, str]) -> bool:
    """Whether the state is one that the qualified come from: what becomes of it in time is theirs to let out."""
    return _covered(stood, draft.bench.qualified_only)


def _hands(draft: Draft) -> Iterator[Problem]:
    live = [state for caution in draft.cautions.values() if caution.work == "qualified" for state in caution.needed_in]
    for question in draft.questions.values():
        if not any(state.items() <= question.bench.items() for state in live):
            continue
        for sentence in re.split(r"(?<=[.;!?])\s+", question.how):
            if (hand := _HAND.search(sentence)) and not _DEAD.search(sentence[: hand.end()]):
                at: Position = draft.place("question", question.id, "how")
                message = say.hand_in_live_machine(hand.group()[:60])
                yield Problem(at, message, "hand-on-live-part")


def _said(state: Mapping[str, str]) -> str:
    return ", ".join(f"{dimension} {value}" for dimension, value in state.items())
