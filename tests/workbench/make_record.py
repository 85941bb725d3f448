"""Makes the records of the simulated machines anew: `python -m tests.workbench.make_record [QUESTION...]`.

Without questions every machine is asked everything, which takes minutes. With them, only these are asked anew, and
those whose line in the table has changed since; the rest stays as it was recorded.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from multiprocessing import Pool
from pathlib import Path

from expert.job.answers.sound import CANNOT_TELL
from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.witness.record import SUFFIX, MachineRecord, Shown, as_text, load_record
from expert.witness.recording import ALL, as_brought_in, digest_of, record_of, said_of, show
from expert.witness.table import Table, load_table

RULES = Path(__file__).parents[2] / "rules"
TABLE = RULES / "simulated" / "heat_exchanger_lever_tank.yaml"
RECORD = TABLE.with_name(TABLE.stem + SUFFIX)
_loaded: list[tuple[RuleBase, Table]] = []


def loaded() -> tuple[RuleBase, Table]:
    """The rules and the table, read once in each process."""
    if not _loaded:
        _loaded.append((load_rules(RULES), load_table(TABLE)))
    return _loaded[0]


def current(record: MachineRecord, table: Table) -> list[str]:
    """The questions whose line in the table is the one that the record was made by."""
    return [name for name in sorted(table.lines) if record.lines.get(name) == digest_of(table.lines[name])]


def _show(one: tuple[str, str]) -> Shown:
    return show(*loaded(), *one)


def _show_some(work: tuple[Shown, tuple[str, ...]]) -> Shown:
    """A machine of the record with these questions asked anew."""
    (base, table), (shown, questions) = loaded(), work
    machine = as_brought_in(shown.place, shown.fault)
    said = {name: said_of(base, table, machine, name) for name in questions}
    kept = {name: text for name, text in shown.typed.items() if name in base.questions and name not in said}
    typed = kept | {name: text for name, text in said.items() if text != CANNOT_TELL}
    return replace(shown, ids=table.faults.get(shown.fault, ()), typed=typed)


def main(questions: list[str]) -> None:
    base, table = loaded()
    record = load_record(RECORD)
    anew = {*table.lines} - {*current(record, table)} | {*questions}
    some = tuple(name for name in base.questions if name in anew)
    with Pool() as pool:
        if questions and len(record.shown) == len(ALL):
            shown = tuple(pool.imap(_show_some, [(one, some) for one in record.shown], chunksize=4))
        else:
            shown = tuple(pool.imap(_show, ALL, chunksize=4))
    RECORD.write_text(as_text(record_of(base, table, shown)), encoding="utf-8")
    print(f"{RECORD}: {len(shown)} machines, {sum(len(one.typed) for one in shown)} answers")


if __name__ == "__main__":
    main(sys.argv[1:])
