"""Sums over a folder of jobs: the same that DuckDB gives from the plain files; kept up to date; told as text."""

from __future__ import annotations

import csv
import json
import re
import shutil
import statistics
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

import duckdb
import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.shop.sums.filters import Filters, choose
from expert.shop.sums.index import index_of
from expert.shop.sums.totals import totals
from expert.shop.sums.words import shown
from expert.trace.reading import read_trace
from expert.trace.records import Closed

ROOT = Path(__file__).resolve().parents[2]
DEMOS = sorted((ROOT / "transcripts_demo").glob("*.jsonl"))


@pytest.fixture
def jobs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder = tmp_path / "jobs"
    folder.mkdir()
    for path in DEMOS:
        shutil.copy(path, folder)
    return folder


def sums(folder: Path, filters: Filters = Filters()) -> dict[str, tuple[tuple[Any, ...], ...]]:  # noqa: B008
    with index_of(folder, lambda read, of: None) as index:
        choose(index, filters)
        return {total.of.key: total.rows for total in totals(index)}


def read_by(folder: Path) -> list[str]:
    read: list[str] = []
    with index_of(folder, lambda count, of: read.append(f"{count} of {of}")):
        return read


PLAIN = """
SELECT filename, seq, json_keys(record)[1] AS kind, record->json_keys(record)[1] AS data FROM (
  SELECT filename, seq, unnest(records) AS record FROM read_json('{folder}/*.jsonl', format = 'newline_delimited',
    filename = true, columns = {{records: 'JSON[]', seq: 'INTEGER'}}))
"""
SAME = [
    pytest.param(
        "outcomes",
        # What was handed over and not taken on stands open; the others are closed.
        """SELECT coalesce(data->>'outcome', kind) AS outcome, count(*) AS n FROM plain
        WHERE kind IN ('closed', 'handed_over') GROUP BY 1 ORDER BY n DESC, 1""",
        slice(0, 2),
        id="outcomes",
    ),
    pytest.param(
        "questions",
        """SELECT data->>'question' AS q, count(*) FROM plain WHERE kind IN ('answered', 'cannot_tell') GROUP BY q""",
        None,
        id="questions",
    ),
    pytest.param(
        "stops",
        "SELECT data->>'rule', count(DISTINCT filename) AS n FROM plain WHERE kind = 'stopped' GROUP BY 1",
        slice(0, 2),
        id="stops",
    ),
    pytest.param(
        "parts_used",
        """SELECT part, count(*) FROM (SELECT unnest(from_json(data->'parts', '["VARCHAR"]')) AS part FROM plain
        WHERE kind = 'closed') GROUP BY part""",
        slice(0, 2),
        id="parts",
    ),
    pytest.param(
        "faults",
        """SELECT data->>'fault', count(DISTINCT filename) FROM plain WHERE kind = 'repaired' GROUP BY 1""",
        slice(0, 3, 2),
        id="faults",
    ),
]


@pytest.mark.parametrize("key, query, columns", SAME)
def test_the_plain_files_read_with_duckdb_give_the_same(
    jobs: Path, key: str, query: str, columns: slice | None
) -> None:
    plain = duckdb.connect()
    plain.execute(f"CREATE VIEW plain AS {PLAIN.format(folder=jobs)}")
    rows = sums(jobs)[key]
    ours = [row[columns] for row in rows] if columns else [(row[0], row[2] + row[3]) for row in rows]
    assert ours and Counter(ours) == Counter(plain.execute(query).fetchall())


def test_minutes_and_questions_at_a_glance(jobs: Path) -> None:
    closed = [record.minutes for path in DEMOS for record in read_trace(path).records if isinstance(record, Closed)]
    (overview,) = sums(jobs)["overview"]
    assert overview[:4] == (5, 4, 1, statistics.median(closed)) and len(closed) == 4


def test_only_what_changed_is_read_again(jobs: Path) -> None:
    assert read_by(jobs) == ["5 of 5"]
    assert read_by(jobs) == []
    (jobs / DEMOS[0].name).touch()
    shutil.copy(DEMOS[1], jobs / "another.jsonl")
    assert read_by(jobs) == ["2 of 2"]
    assert sums(jobs)["overview"][0][0] == 6
    (jobs / "another.jsonl").unlink()
    assert read_by(jobs) == []
    assert sums(jobs)["overview"][0][0] == 5


def test_an_index_that_is_broken_is_made_anew(jobs: Path, tmp_path: Path) -> None:
    before = sums(jobs)
    (index,) = (tmp_path / "cache").rglob("*.duckdb")
    index.write_bytes(b"no index at all")
    assert sums(jobs) == before


def test_a_changed_trace_is_told_apart_and_not_counted(jobs: Path) -> None:
    path = jobs / DEMOS[0].name
    path.write_bytes(re.sub(rb'"minutes":[1-9][0-9]+\.0', b'"minutes":10.5', path.read_bytes()))
    (jobs / "nothing.jsonl").write_bytes(b"")
    (jobs / "hostile.jsonl").write_bytes(b'{"at":[[[[\n' * 3)
    result = sums(jobs)
    assert result["apart"] == (("damaged", 3),)
    assert result["overview"][0][0] == 4


FILTERS = [
    pytest.param(Filters(technician="INES"), 3, id="technician"),
    pytest.param(Filters(machine="lever"), 5, id="machine"),
    pytest.param(Filters(machine="rotary"), 0, id="no such machine"),
    pytest.param(Filters(since=date(2026, 3, 3)), 0, id="since"),
    pytest.param(Filters(since=date(2026, 3, 2), until=date(2026, 3, 2)), 5, id="one day"),
    pytest.param(Filters(until=date(2026, 3, 1)), 0, id="until"),
    pytest.param(Filters(purpose="practice"), 0, id="practice"),
]


@pytest.mark.parametrize("filters, count", FILTERS)
def test_filters(jobs: Path, filters: Filters, count: int) -> None:
    assert sums(jobs, filters)["overview"][0][0] == count


def test_many_traces_are_read_by_several_processes(jobs: Path) -> None:
    for number in range(240):
        shutil.copy(DEMOS[number % 5], jobs / f"{number:04d}.jsonl")
    assert sums(jobs)["overview"][0][0] == 245


# ---------------------------------------------------------------- the command


def shop(*arguments: object) -> str:
    result = CliRunner().invoke(main, ["shop", *map(str, arguments)])
    assert (result.exit_code, result.stderr) == (0, ""), result.output
    return result.stdout


OUTCOMES = """\
Jobs by outcome
  Closed jobs by how they ended, the others by how they stand.
  outcome      jobs
  repaired        3
  handed over     1
  normal          1
"""


def test_as_text_within_the_width(jobs: Path) -> None:
    text = shop(jobs)
    assert OUTCOMES in text
    assert max(map(len, text.splitlines()[1:])) <= 79


def test_json_and_csv_hold_the_same(jobs: Path, tmp_path: Path) -> None:
    data = json.loads(shop(jobs, "--json"))
    assert shop(jobs, "--csv", tmp_path / "csv") == f"{len(data['sums'])} files in {tmp_path / 'csv'}\n"
    for key, rows in data["sums"].items():
        with (tmp_path / "csv" / f"{key}.csv").open(encoding="utf-8", newline="") as file:
            assert [list(row.values()) for row in csv.DictReader(file)] == [
                ["" if cell is None else str(cell) for cell in row.values()] for row in rows
            ]


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["shop", str(tmp_path / "none")])
    assert (result.exit_code, "none" in result.stderr, result.stdout) == (2, True, "")


def test_a_name_that_would_be_a_formula_stays_text(jobs: Path, tmp_path: Path) -> None:
    from expert.shop.sums.words import _harmless

    assert [_harmless(cell) for cell in ("=1+1", "@x", "Ann", 3)] == ["'=1+1", "'@x", "Ann", 3]
    assert shown("name", "a\x1b[31mb") == "ab"
