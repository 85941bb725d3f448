"""A season of invented jobs: marked, apart from real ones, the same from the same seed, and audited like any job."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.machine import PLATES, SENSORS, Build, sound_machine
from expert.practice.invented import PEOPLE, TABLE, brought, invent
from expert.shop.audit import audit_trace
from expert.shop.report.making import job_page
from expert.shop.review.book import read_reviews
from expert.shop.review.invented import review_invented
from expert.shop.sums.filters import Filters
from expert.shop.sums.working_out import sums_of
from expert.trace.reading import read_trace
from expert.trace.records import Opened, TakenIn
from expert.witness.answering import answer
from expert.witness.table import load_table


def test_the_seed_alone_decides_what_comes_in() -> None:
    folder = Path(shipped("rules"))
    base, table = load_rules(folder), load_table(folder / TABLE)
    season = tuple(brought(base, table, 200, 7))
    assert season == tuple(brought(base, table, 200, 7)) != tuple(brought(base, table, 200, 8))
    assert {one.technician for one in season} == set(PEOPLE)
    assert all(one.complaint in base.complaints for one in season)
    sorts = [len(one.faults) for one in season]
    assert sorts.count(0) and sorts.count(2) and sorts.count(1) > 150
    assert [one.at for one in season] == sorted(one.at for one in season)
    came_back = len(season) - len({one.serial for one in season})
    assert 10 < came_back < 45, "some machines come back"
    # Whoever makes the season of the README sees come-backs, whatever the seed.
    for seed in (1, 2, 3):
        first = tuple(brought(base, table, 20, seed))
        assert len({one.serial for one in first[:10]}) <= 8


def test_a_small_season(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder = tmp_path / "season"
    truths = invent(folder, 2, 3, lambda done, of: None)
    sealed = [path for path in folder.glob("*.jsonl") if read_trace(path).is_sealed]
    assert review_invented(folder, ((truth.number, truth.verdict, truth.fault) for truth in truths)) == len(sealed)
    assert all(not one.trouble for path in sealed for one in read_reviews(path, read_trace(path).lines[-1].digest))
    assert all(isinstance(r, TakenIn) is False or r.serial_key for path in sealed for r in read_trace(path).records)
    for path in sorted(folder.glob("*.jsonl")):
        trace = read_trace(path)
        opened = trace.records[0]
        assert isinstance(opened, Opened) and opened.purpose == "invented"
        assert not audit_trace(path).is_damaged
        assert "INVENTED JOBS: nothing here happened." in job_page(path)
    base = load_rules(Path(shipped("rules")))
    sums = sums_of(folder, None, Filters(), lambda _: base)
    assert sums.purpose == "invented"
    assert next(total for total in sums.totals if total.of.key == "overview").rows[0][0] == 2
    real = sums_of(folder, None, Filters(purpose="real"), lambda _: base)
    assert next(total for total in real.totals if total.of.key == "apart").rows == (("invented", 2),)
    with pytest.raises(FileExistsError):
        invent(folder, 2, 3, lambda done, of: None)


def test_what_stands_on_a_part_is_typed_whatever_the_machine() -> None:
    folder = Path(shipped("rules"))
    base, table = load_rules(folder), load_table(folder / TABLE)
    machine = sound_machine(Build(PLATES["230/50"], SENSORS[0]), 1)
    stamped = {name: line for name, line in table.lines.items() if line.types}
    assert stamped
    for name, line in stamped.items():
        assert answer(machine, base.questions[name], line).text == line.types
