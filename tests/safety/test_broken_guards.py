"""Each guard is broken on purpose, and the judge finds it: in the program, and in the rules that it is played with."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice
from types import ModuleType

import pytest

from expert.engine import bench as engine_bench
from expert.engine import hazards as engine_hazards
from expert.engine.knowledge import knowledge_of
from expert.job.answers import putting
from expert.job.bench import first
from expert.job.prompts import closing, ending, move
from expert.job.state import bench, hazards
from expert.job.wording import customer
from expert.language.model import RuleBase
from tests.dialogue.shipped_desk import shipped_knowledge
from tests.safety.hunting import Hunt

BASE = shipped_knowledge().base
MOST_JOBS = 150


def codes_found(played: RuleBase, wanted: set[str], jobs: Iterator[int]) -> set[str]:
    """What the judge, who knows the shipped rules, says of jobs with these rules, until it has said what is wanted."""
    hunt = Hunt(knowledge_of(played), judging=BASE)
    found: set[str] = set()
    for number in jobs:
        found |= {violation.code for violation in hunt.job(number).judge.found}
        if found & wanted:
            break
    return found


def everywhere(monkeypatch: pytest.MonkeyPatch, module: ModuleType, name: str, other: object) -> None:
    """Put another function in its place, wherever it was imported to."""
    real = getattr(module, name)
    users = [m for key, m in sys.modules.items() if key.startswith("expert.") and getattr(m, name, None) is real]
    assert users
    for user in users:
        monkeypatch.setattr(user, name, other)


real_map = bench.bench_map
Broken = tuple[ModuleType, str, object, set[str]]
GUARDS: dict[str, Broken] = {
    "hazards are never watched": (hazards, "watch", lambda turn: None, {"forbidden", "fine"}),
    "hazards bar no state": (
        bench,
        "bench_map",
        lambda job, qualified=None, any_move=False, no_hazards=False, strict=False: real_map(
            job, qualified, any_move, no_hazards=True, strict=strict
        ),
        {"forbidden"},
    ),
    "any test releases": (
        engine_hazards,
        "passed",
        lambda release, question, begin, known: question in known.answers,
        {"release"},
    ),
    "a repair alone releases": (
        engine_hazards,
        "tests_of",
        lambda release, known: tuple(release.tests)[:1],
        {"release"},
    ),
    "what was taken back is forgotten": (
        engine_hazards,
        "corrected",
        lambda standing, causes, known: None if causes else engine_hazards.Released("taken back", ()),
        {"release"},
    ),
    "no cautions": (putting, "show_cautions", lambda turn, cautions: None, {"cautions"}),
    "any word confirms": (move, "confirmed", lambda line, word: True, {"word"}),
    "any ending is open": (ending, "endings_open_to", lambda job: ("repaired", "normal", "handed_over"), {"fine"}),
    "release tests in any order": (
        engine_hazards,
        "next_test",
        lambda release, standing, known: (engine_hazards.tests_left(release, standing, known) or (None,))[-1],
        {"order"},
    ),
    "no slip says not to use it": (customer, "not_to_be_used", lambda job, ending: [], {"slip"}),
    "leaving is never refused": (closing, "refuse_leaving", lambda turn: None, {"left"}),
}


@pytest.mark.parametrize("name", GUARDS)
def test_a_guard_of_the_program(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    module, function, other, codes = GUARDS[name]
    everywhere(monkeypatch, module, function, other)
    if function == "bench_map":  # behind it stands another: no move is put that leads into a danger
        everywhere(monkeypatch, first, "leads_into_danger", lambda job, move: False)
    assert codes_found(BASE, codes, iter(range(1, 2 * MOST_JOBS))) & codes


def test_the_guard_of_live_work(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engine_bench.BenchMap, "allowed", lambda self, state: True)
    monkeypatch.setattr(engine_bench.BenchMap, "_may_lead", lambda self, before, further: True)
    assert "live" in codes_found(BASE, {"live"}, iter(range(1, MOST_JOBS)))


def test_live_work_is_no_way_to_something_else(monkeypatch: pytest.MonkeyPatch) -> None:
    real = engine_bench.BenchMap._places_from
    monkeypatch.setattr(engine_bench.BenchMap, "_places_from", lambda self, start, live: real(self, start, True))
    jobs = jobs_that_seek("insulation_is_low_when_hot")
    assert "through-live" in codes_found(BASE, {"through-live"}, jobs)


# ---------------------------------------------------------------- in the rules


def without_cautions(base: RuleBase) -> RuleBase:
    questions = {name: replace(question, cautions=()) for name, question in base.questions.items()}
    return replace(base, questions=questions)


def moves_without_cautions(base: RuleBase) -> RuleBase:
    return replace(base, bench=replace(base.bench, moves=tuple(replace(m, cautions=()) for m in base.bench.moves)))


def anybody_is_qualified(base: RuleBase) -> RuleBase:
    return replace(base, bench=replace(base.bench, qualified_only=()))


def nothing_is_put_back(base: RuleBase) -> RuleBase:
    moves = (replace(m, needs={k: v for k, v in m.needs.items() if k != "altered"}) for m in base.bench.moves)
    return replace(base, bench=replace(base.bench, moves=tuple(moves)))


def handed_back_open(base: RuleBase) -> RuleBase:
    return replace(base, bench=replace(base.bench, hand_back={"mains": "isolated"}))


RULES: dict[str, tuple[Callable[[RuleBase], RuleBase], set[str]]] = {
    "questions without cautions": (without_cautions, {"cautions"}),
    "moves without cautions": (moves_without_cautions, {"cautions"}),
    "anybody does live work": (anybody_is_qualified, {"live"}),
    "nothing is put back": (nothing_is_put_back, {"altered"}),
}


@pytest.mark.parametrize("name", RULES)
def test_a_guard_of_the_rules(name: str) -> None:
    change, codes = RULES[name]
    assert codes_found(change(BASE), codes, iter(range(1, MOST_JOBS))) & codes


def jobs_that_seek(hazard: str) -> Iterator[int]:
    """Every job whose number leaves this rest seeks this hazard, where it can be sought at all."""
    place = list(BASE.hazards).index(hazard)
    return iter(range(place + len(BASE.hazards), MOST_JOBS * len(BASE.hazards), len(BASE.hazards)))


def without(hazard: str) -> RuleBase:
    return replace(BASE, hazards={name: record for name, record in BASE.hazards.items() if name != hazard})


@pytest.mark.parametrize("name", BASE.hazards)
def test_a_hazard_that_is_left_out(name: str) -> None:
    codes = {"forbidden", "fine", "not-recorded"}
    assert codes_found(without(name), codes, islice(jobs_that_seek(name), 20)) & codes


@pytest.mark.parametrize("name", [name for name, hazard in BASE.hazards.items() if hazard.forbids][:5])
def test_the_deed_itself_is_seen(name: str) -> None:
    codes = {"forbidden", "fine"}
    assert codes_found(without(name), codes, islice(jobs_that_seek(name), 100)) & codes
