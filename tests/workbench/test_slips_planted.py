"""Slips planted in the shipped rules are seen by `expert check`, or told by `cases --changed`, at their place.

A lean sample: all kinds at twenty places each are tried by `python -m tests.benchmarks.slips`.
"""

from __future__ import annotations

import random

import pytest

from expert.language.load import read_rules
from expert.workbench.case_runs.changed import Meanings, changed_meanings, meanings_in
from tests.workbench.judging import Judge
from tests.workbench.slips import Kind, planted, shipped_files, table_kinds, texts_of
from tests.workbench.slips_of_meaning import meaning_kinds
from tests.workbench.slips_of_records import record_kinds

FILES = shipped_files()
TEXTS = texts_of(FILES)
BY_TABLE = table_kinds(FILES)
# Of the slips that change the meaning, those that check alone always sees.
SEEN = (
    "a rule: an impossible condition",
    "a conclusion: confirmed and cleared",
    "a conclusion: 'points_away' written for 'points_to'",
    "a conclusion: 'points_to' written for 'points_away'",
    "a fault: 'dangerous' deleted",
    "a repair: 'bench' deleted",
    "a repair: 'cautions' deleted",
    "a fault: 'prove' emptied",
    "a repair: 'steps' emptied",
    "a question: two questions in one",
    "a question: too long",
    "a limit: the ends of a span swapped",
    "the bench file: 'service' deleted",
    "the bench file: 'after_opening' deleted",
    "the bench file: 'qualified_only' deleted",
    "a machine file: one entry of 'features' deleted",
)
OF_MEANING = [*meaning_kinds(FILES), *record_kinds(FILES)]
MEANING = [kind for kind in OF_MEANING if kind.name in SEEN]
TOLD = random.Random(11).sample([kind for kind in OF_MEANING if kind.name not in SEEN], 14)
SAMPLE = random.Random(18).sample(BY_TABLE, 24)


@pytest.fixture(scope="module")
def judge() -> Judge:
    return Judge(FILES)


def test_there_are_enough_kinds() -> None:
    names = {kind.name for kind in (*BY_TABLE, *OF_MEANING)}
    assert len(names) >= 400 and len(OF_MEANING) >= 120 and len(MEANING) == len(SEEN)


@pytest.mark.parametrize("kind", [*SAMPLE, *MEANING], ids=lambda kind: kind.name)
def test_a_slip_of_this_kind_is_seen_at_its_place(kind: Kind, judge: Judge) -> None:
    slip = planted(FILES, TEXTS, kind, random.Random(kind.name))
    assert slip is not None
    found = judge.new(slip)
    assert found, f"nobody sees it: {slip.place.path} {slip.place.way}"
    assert judge.at_its_place(slip, found), [str(problem) for problem in found]


@pytest.fixture(scope="module")
def meanings() -> Meanings:
    return meanings_in(read_rules(TEXTS))


@pytest.mark.parametrize("kind", TOLD, ids=lambda kind: kind.name)
def test_a_slip_that_changes_the_meaning_is_seen_or_told_at_its_place(
    kind: Kind, judge: Judge, meanings: Meanings
) -> None:
    slip = planted(FILES, TEXTS, kind, random.Random(f"{kind.name} once more"))
    assert slip is not None
    base, found = judge.look(slip)
    told = list(changed_meanings(base, meanings)) if base is not None else []
    assert judge.at_its_place(slip, [*found, *told]), f"{slip.place.path} {slip.place.way} {slip.change}"
