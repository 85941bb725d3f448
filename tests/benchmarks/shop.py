"""Sums over many traces: `python -m tests.benchmarks.shop [--traces 100000] [--json]`.

Traces are made by multiplying the demo jobs. Measured are the first reading, the sums afterwards, the most memory that
this process took, and DuckDB reading the same files for the same outcomes, faults, questions and stops.
"""

from __future__ import annotations

import argparse
import json
import resource
import shutil
import tempfile
import time
from pathlib import Path

import duckdb

from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.shop.sums.filters import Filters
from expert.shop.sums.index import index_of
from expert.shop.sums.words import in_words
from expert.shop.sums.working_out import sums_of

DEMOS = Path(__file__).resolve().parents[2] / "transcripts_demo"
# As fast as it can: only the fields that are wanted, in columns with types of their own.
PLAIN = """
CREATE TABLE plain AS SELECT filename, unnest(records) AS record FROM read_json('{folder}/*.jsonl',
  format = 'newline_delimited', filename = true, maximum_object_size = 2000000,
  columns = {{records: 'STRUCT(closed STRUCT(outcome VARCHAR, minutes DOUBLE), repaired STRUCT(fault VARCHAR),
    answered STRUCT(question VARCHAR), cannot_tell STRUCT(question VARCHAR), taken_back STRUCT(question VARCHAR),
    fired STRUCT(rule VARCHAR), stopped STRUCT(rule VARCHAR))[]'}})
"""
SAME = (
    "SELECT record.closed.outcome, count(*), median(record.closed.minutes) FROM plain GROUP BY 1",
    "SELECT record.repaired.fault, count(DISTINCT filename) FROM plain GROUP BY 1",
    "SELECT coalesce(record.answered.question, record.cannot_tell.question, record.taken_back.question), count(*)"
    " FROM plain GROUP BY 1",
    "SELECT coalesce(record.fired.rule, record.stopped.rule), count(DISTINCT filename) FROM plain GROUP BY 1",
)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--traces", type=int, default=5_000)
    parser.add_argument("--json", action="store_true")
    chosen = parser.parse_args()
    base = load_rules(Path(shipped("rules")))
    with tempfile.TemporaryDirectory() as name:
        folder, index = Path(name) / "jobs", Path(name) / "index.duckdb"
        folder.mkdir()
        demos = sorted(DEMOS.glob("*.jsonl"))
        for number in range(chosen.traces):
            shutil.copyfile(demos[number % len(demos)], folder / f"{number:06d}.jsonl")
        began = time.perf_counter()
        with index_of(folder, lambda read, of: None, index):
            first = time.perf_counter() - began
        began = time.perf_counter()
        text = "\n".join(in_words(sums_of(folder, None, Filters(), lambda _: base, index)))
        again = time.perf_counter() - began
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e3
        began = time.perf_counter()
        plain = duckdb.connect()
        plain.execute(PLAIN.format(folder=folder))
        rows = [plain.execute(query).fetchall() for query in SAME]
        by_duckdb = time.perf_counter() - began
        size = sum(path.stat().st_size for path in demos) / len(demos) / 1e3
    result = {
        "traces": chosen.traces,
        "kb_a_trace": size,
        "first_s": first,
        "again_s": again,
        "memory_mb": memory,
        "duckdb_s": by_duckdb,
        "first_against_duckdb": first / by_duckdb,
        "lines_of_text": text.count("\n"),
        "rows_of_duckdb": sum(map(len, rows)),
    }
    print(json.dumps(result, indent=2) if chosen.json else "\n".join(f"{k}: {v:.4g}" for k, v in result.items()))


if __name__ == "__main__":
    main()
