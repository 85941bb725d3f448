"""Slips planted in the shipped rules are seen by `expert check`, at their place.

A lean sample: all kinds at many places are tried by `python -m tests.benchmarks.slips`, with the worked cases.
"""

from __future__ import annotations

import random

import pytest

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
MEANING = [kind for kind in meaning_kinds(FILES) if kind.name in SEEN]
SAMPLE = random.Random(18).sample(BY_TABLE, 24)


@pytest.fixture(scope="module")
def judge() -> Judge:
    return Judge(FILES)


def test_there_are_enough_kinds() -> None:
    names = {kind.name for kind in (*BY_TABLE, *meaning_kinds(FILES), *record_kinds(FILES))}
    assert len(names) >= 120 and len(MEANING) == len(SEEN)


@pytest.mark.parametrize("kind", [*SAMPLE, *MEANING], ids=lambda kind: kind.name)
def test_a_slip_of_this_kind_is_seen_at_its_place(kind: Kind, judge: Judge) -> None:
    slip = planted(FILES, TEXTS, kind, random.Random(kind.name))
    assert slip is not None
    found = judge.new(slip)
    assert found, f"nobody sees it: {slip.place.path} {slip.place.way}"
    assert judge.at_its_place(slip, found), [str(problem) for problem in found]
