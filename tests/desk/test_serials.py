"""A machine that comes back is known again by a key of its serial number; the number itself is nowhere."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from expert.desk.serials import hidden, secret_path
from expert.desk.session import Session
from expert.shop.sums.filters import Filters, choose
from expert.shop.sums.index import index_of
from expert.shop.sums.totals import totals
from expert.trace.reading import read_trace
from expert.trace.records import TakenIn
from tests.dialogue.small_rules import small_knowledge, small_shop
from tests.shop.test_audit import COIL_JOB


@pytest.fixture(autouse=True)
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("EXPERT_SHOP", str(tmp_path / "profile" / "shop.yaml"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


def test_however_a_number_is_written_its_key_is_the_same_and_keeps_its_place() -> None:
    key = hidden("serial AB-1234 x")
    assert hidden("SERIAL: ab1234X") == key.replace("SERIAL", "serial") and key.startswith("serial key:")
    assert hidden("Ann, serial 99, element_power 1200 W").startswith("Ann, serial key:")
    assert hidden("Ann, serial 99, element_power 1200 W").endswith(", element_power 1200 W")
    assert hidden(key) == key and hidden("element_power 1200 W") == "element_power 1200 W"
    assert secret_path().stat().st_mode & 0o77 == 0


def test_another_shop_has_other_keys(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ours = hidden("serial 1234")
    monkeypatch.setenv("EXPERT_SHOP", str(tmp_path / "elsewhere" / "shop.yaml"))
    assert hidden("serial 1234") != ours


def job(folder: Path, number: str, serial: str, day: int) -> Path:
    moment = datetime(2026, 1, 1, 9, tzinfo=UTC) + timedelta(days=day)

    def clock() -> datetime:
        nonlocal moment
        moment += timedelta(seconds=30)
        return moment

    path = folder / f"{number}.jsonl"
    session, _ = Session.open(small_knowledge(), small_shop(), path, number, clock)
    for position, line in enumerate(COIL_JOB):
        if position == 2:
            session.say(f"serial {serial}")
        session.say(line)
    session.close()
    return path


def test_a_machine_that_comes_back_is_linked_in_the_sums(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    for number, serial, day in (("1", "XY 77-1", 0), ("2", "xy771", 30), ("3", "xy772", 31), ("4", "XY771", 300)):
        path = job(folder, number, serial, day)
        assert b"77-1" not in path.read_bytes() and b"xy77" not in path.read_bytes().lower()
    taken = [r for r in read_trace(path).records if isinstance(r, TakenIn)]
    assert len(taken[0].serial_key) == 20
    with index_of(folder, lambda read, of: None) as index:
        choose(index, Filters())
        rows = {total.of.key: total.rows for total in totals(index)}
    # Back after 30 days; after 270 it is a new story.
    assert rows["come_backs"] == (("1", "2", 30),)
    repairs, first_time, _ = rows["first_time_fix"][0]
    assert (repairs, first_time) == (4, 3)
