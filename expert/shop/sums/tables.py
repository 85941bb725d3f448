"""The tables of the index, and how the facts of jobs get into them.

Facts travel as JSON Lines in a file of their own, because DuckDB reads such a file far faster than it takes rows.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

from expert.shop.sums.facts import JobFacts

if TYPE_CHECKING:
    from duckdb import DuckDBPyConnection

# To be raised with every change of the tables or of what is gathered: an index of another number is built anew.
SHAPE = 3
TABLES = {
    "shape": "number INTEGER",
    "files": "file INTEGER, name VARCHAR, signature VARCHAR",
    "jobs": (
        "file INTEGER, job VARCHAR, purpose VARCHAR, opened TIMESTAMP, last TIMESTAMP, status VARCHAR, outcome VARCHAR,"
        " technician VARCHAR, machine VARCHAR, machine_key VARCHAR, minutes DOUBLE, attempts INTEGER,"
        " failed_proofs INTEGER, currency VARCHAR, work_cost DOUBLE, parts_cost DOUBLE, verdict VARCHAR,"
        " true_fault VARCHAR"
    ),
    "complaints": "file INTEGER, complaint VARCHAR",
    "faults": "file INTEGER, fault VARCHAR, standing VARCHAR, repaired BOOLEAN",
    "questions": (
        "file INTEGER, question VARCHAR, answered INTEGER, cannot INTEGER, taken_back INTEGER, contradicted INTEGER"
    ),
    "rules": "file INTEGER, rule VARCHAR",
    "stops": "file INTEGER, rule VARCHAR",
    "live": "file INTEGER, technician VARCHAR, answers INTEGER",
    "parts": "file INTEGER, part VARCHAR",
    "names": "kind VARCHAR, id VARCHAR, name VARCHAR",
}
OF_A_JOB = tuple(table for table in TABLES if table not in ("shape", "names"))
_QUESTION = "STRUCT(question VARCHAR, answered INTEGER, cannot INTEGER, taken_back INTEGER, contradicted INTEGER)[]"
_ROW = {
    **dict.fromkeys(("name", "signature", "job", "purpose", "opened", "last", "status", "outcome"), "VARCHAR"),
    **dict.fromkeys(("technician", "machine", "machine_key", "currency", "verdict", "true_fault"), "VARCHAR"),
    "file": "INTEGER",
    **dict.fromkeys(("minutes", "work_cost", "parts_cost"), "DOUBLE"),
    "attempts": "INTEGER",
    "failed_proofs": "INTEGER",
    "complaints": "VARCHAR[]",
    "faults": "STRUCT(fault VARCHAR, standing VARCHAR, repaired BOOLEAN)[]",
    "questions": _QUESTION,
    "rules": "VARCHAR[]",
    "stops": "VARCHAR[]",
    "live": "STRUCT(technician VARCHAR, answers INTEGER)[]",
    "parts": "VARCHAR[]",
}
_FILL = {
    "files": "SELECT file, name, signature FROM fresh",
    "jobs": (
        "SELECT file, job, purpose, try_cast(opened AS TIMESTAMP), try_cast(last AS TIMESTAMP), status, outcome,"
        " technician, machine, machine_key, minutes, attempts, failed_proofs, currency, work_cost, parts_cost,"
        " verdict, true_fault FROM fresh"
    ),
    "complaints": "SELECT file, unnest(complaints) FROM fresh",
    "faults": "SELECT file, unnest(faults, recursive := true) FROM fresh",
    "questions": "SELECT file, unnest(questions, recursive := true) FROM fresh",
    "rules": "SELECT file, unnest(rules) FROM fresh",
    "stops": "SELECT file, unnest(stops) FROM fresh",
    "live": "SELECT file, unnest(live, recursive := true) FROM fresh",
    "parts": "SELECT file, unnest(parts) FROM fresh",
}


def create(index: DuckDBPyConnection) -> None:
    """Make the empty tables."""
    for table, columns in TABLES.items():
        index.execute(f"CREATE TABLE {table} ({columns})")
    index.execute("INSERT INTO shape VALUES (?)", [SHAPE])


def has_our_shape(index: DuckDBPyConnection) -> bool:
    """Whether the tables are those of this program."""
    found = index.execute("SELECT count(*) FROM information_schema.tables WHERE table_name = 'shape'").fetchone()
    if not found or not found[0]:
        return False
    return index.execute("SELECT number FROM shape").fetchall() == [(SHAPE,)]


def row_of(name: str, signature: str, facts: JobFacts) -> str:
    """One line for `load`."""
    row: dict[str, Any] = asdict(facts)
    row |= {"name": name, "signature": signature}
    row["faults"] = [
        {"fault": fault, "standing": standing, "repaired": fault in facts.repaired}
        for fault, standing in facts.faults.items()
    ]
    row["questions"] = [{"question": question, **counts} for question, counts in row["questions"].items()]
    row["live"] = [{"technician": who, "answers": answers} for who, answers in facts.live.items()]
    del row["repaired"]
    return json.dumps(row)


def write_rows(file: IO[str], first: int, rows: Iterable[str]) -> int:
    """Number rows from `first` on and write them; gives the next number."""
    for first, row in enumerate(rows, first):  # noqa: B020
        file.write(f'{{"file":{first},{row[1:]}\n')
    return first + 1


def load(index: DuckDBPyConnection, rows: Path) -> None:
    """Add the rows of a file to the tables."""
    columns = "{" + ", ".join(f"{name}: '{kind}'" for name, kind in _ROW.items()) + "}"
    index.execute(
        f"CREATE OR REPLACE TEMP TABLE fresh AS SELECT * FROM read_json(?, format := 'newline_delimited',"
        f" columns := {columns}, maximum_object_size := 16000000)",
        [str(rows)],
    )
    for table, selection in _FILL.items():
        index.execute(f"INSERT INTO {table} {selection}")
    index.execute("DROP TABLE fresh")


def forget(index: DuckDBPyConnection, files: Iterable[int]) -> None:
    """Remove the jobs with these numbers from all tables."""
    index.execute("CREATE OR REPLACE TEMP TABLE gone AS SELECT unnest(?::INTEGER[]) AS file", [list(files)])
    for table in OF_A_JOB:
        index.execute(f"DELETE FROM {table} WHERE file IN (SELECT file FROM gone)")
    index.execute("DROP TABLE gone")
