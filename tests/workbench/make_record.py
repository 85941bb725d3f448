"""Makes the records of the simulated machines anew: `python -m tests.workbench.make_record`. Takes minutes."""

from __future__ import annotations

from multiprocessing import Pool
from pathlib import Path

from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.witness.record import SUFFIX, Shown, as_text
from expert.witness.recording import ALL, record_of, show
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


def _show(one: tuple[str, str]) -> Shown:
    return show(*loaded(), *one)


def main() -> None:
    with Pool() as pool:
        shown = tuple(pool.imap(_show, ALL, chunksize=4))
    RECORD.write_text(as_text(record_of(*loaded(), shown)), encoding="utf-8")
    print(f"{RECORD}: {len(shown)} machines, {sum(len(one.typed) for one in shown)} answers")


if __name__ == "__main__":
    main()
