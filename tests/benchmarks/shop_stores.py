"""Two embedded stores for the shop's index, measured in one run: `python -m tests.benchmarks.shop_stores [--json]`.

The same invented jobs are put into DuckDB and into SQLite, and the same six sums are worked out in both.
"""

from __future__ import annotations

import argparse
import csv
import json
import random
import sqlite3
import tempfile
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import duckdb

TABLES = {
    "jobs": "id INTEGER, opened DOUBLE PRECISION, outcome VARCHAR, minutes DOUBLE PRECISION, technician VARCHAR, "
    "machine VARCHAR",
    "questions": "id INTEGER, question VARCHAR, answered INTEGER, taken_back INTEGER, contradicted INTEGER",
    "rules": "id INTEGER, rule VARCHAR",
    "faults": "id INTEGER, fault VARCHAR",
}
SUMS = (
    "SELECT outcome, count(*), avg(minutes) FROM jobs WHERE opened > ? GROUP BY 1",
    "SELECT fault, count(*) FROM faults JOIN jobs USING (id) WHERE opened > ? GROUP BY 1 ORDER BY 2 DESC",
    "SELECT question, sum(answered), sum(taken_back), sum(contradicted) FROM questions JOIN jobs USING (id) "
    "WHERE opened > ? GROUP BY 1 ORDER BY 2 DESC",
    "SELECT rule, outcome, count(*) FROM rules JOIN jobs USING (id) WHERE opened > ? GROUP BY 1, 2",
    "SELECT technician, count(*) FROM jobs WHERE opened > ? GROUP BY 1",
    "SELECT count(*) FROM (SELECT machine FROM jobs WHERE opened > ? GROUP BY 1 HAVING count(*) > 1) AS back",
)


def invented(jobs: int) -> dict[str, list[tuple[Any, ...]]]:
    chance = random.Random(1)
    rows: dict[str, list[tuple[Any, ...]]] = {table: [] for table in TABLES}
    for job in range(jobs):
        outcome = chance.choice(("repaired", "unrepaired", "normal", "stopped"))
        technician, machine = f"technician {chance.randrange(12)}", f"machine {chance.randrange(jobs // 2)}"
        rows["jobs"].append((job, job * 600.0, outcome, chance.randrange(10, 300), technician, machine))
        for question in chance.sample(range(150), 20):
            back, against = int(chance.random() < 0.02), int(chance.random() < 0.01)
            rows["questions"].append((job, f"question_{question}", 1, back, against))
        rows["rules"] += [(job, f"rule_{rule}") for rule in chance.sample(range(300), 15)]
        rows["faults"].append((job, f"fault_{chance.randrange(130)}"))
    return rows


def timed(call: Callable[[], Any]) -> float:
    began = time.perf_counter()
    call()
    return time.perf_counter() - began


def in_sqlite(place: Path, rows: dict[str, list[tuple[Any, ...]]]) -> dict[str, float]:
    store = sqlite3.connect(place)

    def fill() -> None:
        store.execute("PRAGMA journal_mode = OFF")
        store.execute("PRAGMA synchronous = OFF")
        for table, columns in TABLES.items():
            key = columns.replace("id INTEGER", "id INTEGER PRIMARY KEY", 1) if table == "jobs" else columns
            store.execute(f"CREATE TABLE {table} ({key})")
            marks = ", ".join("?" * (columns.count(",") + 1))
            store.executemany(f"INSERT INTO {table} VALUES ({marks})", rows[table])
        store.commit()

    return measured(fill, lambda query: store.execute(query, (0.0,)).fetchall(), place)


def in_duckdb(place: Path, rows: dict[str, list[tuple[Any, ...]]], folder: Path) -> dict[str, float]:
    for table, content in rows.items():
        with (folder / f"{table}.csv").open("w", newline="") as file:
            csv.writer(file).writerows(content)
    store = duckdb.connect(str(place))

    def fill() -> None:
        for table, columns in TABLES.items():
            store.execute(f"CREATE TABLE {table} ({columns})")
            store.execute(f"INSERT INTO {table} SELECT * FROM read_csv('{folder / table}.csv', header = false)")
        store.execute("CHECKPOINT")

    return measured(fill, lambda query: store.execute(query, (0.0,)).fetchall(), place)


def measured(fill: Callable[[], None], ask: Callable[[str], Iterable[Any]], place: Path) -> dict[str, float]:
    filled = timed(fill)
    return {"fill_s": filled, "sums_s": timed(lambda: [ask(query) for query in SUMS]), "mb": place.stat().st_size / 1e6}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=100_000)
    parser.add_argument("--json", action="store_true")
    chosen = parser.parse_args()
    rows = invented(chosen.jobs)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        result = {
            "sqlite": in_sqlite(folder / "jobs.sqlite", rows),
            "duckdb": in_duckdb(folder / "jobs.duckdb", rows, folder),
        }
    if chosen.json:
        print(json.dumps(result, indent=2))
        return
    for store, figures in result.items():
        print(store, ", ".join(f"{name} {figure:.2f}" for name, figure in figures.items()))
    print(f"six sums: SQLite takes {result['sqlite']['sums_s'] / result['duckdb']['sums_s']:.0f} times as long")


if __name__ == "__main__":
    main()
