"""The record of the simulated machines: what it holds is what they show, and what the rules make of it."""

from __future__ import annotations

import random

import pytest

from expert.job.answers.sound import CANNOT_TELL
from expert.machine import COMPLAINTS, complaints
from expert.witness.record import as_text, load_record, shipped_records
from expert.witness.recording import ALL, as_brought_in, said_of
from expert.workbench.checks import advice
from tests.workbench.make_record import RECORD, current, loaded

SAMPLE = random.Random(18).sample(range(len(ALL)), 5)


@pytest.mark.parametrize("number", SAMPLE)
def test_the_record_says_what_the_machine_shows(number: int) -> None:
    """A sample; all of it is made anew by `python -m tests.workbench.make_record`."""
    (base, table), record = loaded(), load_record(RECORD)
    row = record.shown[number]
    assert (row.place, row.fault) == ALL[number] and row.ids == table.faults.get(row.fault, ())
    machine = as_brought_in(row.place, row.fault)
    assert row.noticed == complaints(machine)
    for question in random.Random(number).sample(current(record, table), 10):
        if question in base.questions:
            assert said_of(base, table, machine, question) == row.typed.get(question, CANNOT_TELL), question


def test_the_record_is_not_left_behind_by_its_table() -> None:
    """A new line is no reason to spend ten minutes; when one in ten is new, the record is made anew."""
    _, table = loaded()
    assert len(current(load_record(RECORD), table)) > 0.9 * len(table.lines)


def test_what_owners_notice_has_a_complaint_in_the_rules() -> None:
    (base, table), record = loaded(), load_record(RECORD)
    assert record.complains == table.complains and set(table.complains) == set(COMPLAINTS)
    assert {name for names in table.complains.values() for name in names} <= base.complaints.keys()


def test_a_record_that_is_written_reads_the_same() -> None:
    assert as_text(load_record(RECORD)) == RECORD.read_text(encoding="utf-8")
    assert [as_text(record) for record in shipped_records()] == [as_text(load_record(RECORD))]


def test_the_shipped_rules_are_free_of_advice() -> None:
    """What `expert check` finds in them is mended at once, so that whoever edits sees only what the edit did."""
    assert [str(problem) for problem in advice(loaded()[0])] == []
