"""The list of jobs, and finding a job by its number with or without zeros."""

from __future__ import annotations

import json
import os
import shlex
import shutil
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from expert.cli import main
from expert.desk.job_list import open_jobs
from expert.desk.opening import shop_of, trace_path
from expert.desk.session import Session
from tests.dialogue.shipped_desk import shipped_knowledge
from tests.dialogue.small_rules import small_knowledge, small_shop

DEMOS = Path(__file__).resolve().parents[2] / "transcripts_demo"
INTAKE = ("Ann", "1", "ok", "no fill", "ok", "no", "2")


def job_at(folder: Path, number: str, *lines: str, minute: int = 0) -> Path:
    moment = datetime(2026, 1, 31, 9, minute, tzinfo=UTC)

    def clock() -> datetime:
        nonlocal moment
        moment += timedelta(seconds=1)
        return moment

    session, _ = Session.open(small_knowledge(), small_shop(), folder / f"{number}.jsonl", number, clock)
    for line in lines:
        session.say(line)
    session.close()
    return folder / f"{number}.jsonl"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    job_at(tmp_path, "0001", *INTAKE, "pause")
    job_at(tmp_path, "0002", "Bob", minute=5)
    shutil.copy(DEMOS / "demo-3-normal.jsonl", tmp_path)
    (tmp_path / "0009.jsonl").write_bytes(b"{}\n")
    return tmp_path


def expert(*arguments: object, typed: str = "") -> Result:
    return CliRunner().invoke(main, list(map(str, arguments)), input=typed)


LISTED = """\
0002  open  Bob  2026-01-31 09:05
      waits for: Which machine type is it? Type its number.
      go on: expert resume --jobs {folder} 0002
0001  paused  Ann  2026-01-31 09:00
!     left: covers on, mains on
      waits for: Is it out? (yes / no)
      go on: expert resume --jobs {folder} 0001
0009  damaged
      damaged: a line is an object with the keys at, chain, packed, records,
        seq
"""


def test_open_jobs_the_latest_first_and_damaged_ones_are_not_hidden(folder: Path) -> None:
    result = expert("jobs", "--jobs", folder)
    assert result.exit_code == 0
    assert result.stdout == LISTED.format(folder=shlex.quote(str(folder)))


def test_a_long_list_is_cut_and_says_so(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("expert.cli.bench.MOST_OPEN", 1)
    listed = LISTED.format(folder=shlex.quote(str(folder)))
    os.utime(folder / "0002.jsonl", (4e9, 4e9))
    cut = expert("jobs", "--jobs", folder).stdout
    first = "".join(listed.splitlines(keepends=True)[:3])
    assert cut == first + "... and 2 open jobs more, touched earlier: expert jobs --all\n"
    assert json.loads(expert("jobs", "--jobs", folder, "--json").stdout)["open_left_off"] == 2
    assert "0001" not in expert("resume", "--jobs", folder).stdout
    assert expert("jobs", "--jobs", folder, "--all").stdout == listed


def test_closed_ones_on_request(folder: Path) -> None:
    listed = json.loads(expert("jobs", "--jobs", folder, "--closed", "--json").stdout)["jobs"]
    assert [(entry["job"], entry["status"], entry["outcome"]) for entry in listed] == [
        ("0002", "open", ""),
        ("0001", "paused", ""),
        ("0009", "damaged", ""),
        ("demo-3-normal", "closed", "normal"),
    ]
    assert listed[1]["left"]["mains"] == "on"


def test_an_empty_folder(tmp_path: Path) -> None:
    assert expert("jobs", "--jobs", tmp_path).stdout == f"No job is open in {tmp_path}.\n"
    result = expert("resume", "--jobs", tmp_path)
    assert (result.exit_code, result.stderr) == (
        2,
        f"No job is open in {tmp_path}. Open one with: expert bench\n",
    )


@pytest.mark.parametrize(
    "typed, meant",
    [("2", "0002"), ("0002", "0002"), ("02", "0002"), ("7", "7"), ("demo-3-normal", "demo-3-normal")],
)
def test_zeros_need_not_be_typed(folder: Path, typed: str, meant: str) -> None:
    assert trace_path(typed, folder) == folder / f"{meant}.jsonl"


def test_the_exact_number_comes_first_and_two_that_fit_are_not_guessed(folder: Path) -> None:
    shutil.copy(folder / "0002.jsonl", folder / "00002.jsonl")
    assert trace_path("2", folder) == folder / "2.jsonl"
    assert not trace_path("2", folder).exists()
    shutil.copy(folder / "0002.jsonl", folder / "2.jsonl")
    assert trace_path("2", folder) == folder / "2.jsonl"


def test_resume_without_a_number_shows_the_open_ones_where_nobody_can_pick(folder: Path) -> None:
    result = expert("resume", "--jobs", folder)
    assert result.exit_code == 2
    assert result.stderr == "Which one? Type its number behind: expert resume\n"
    assert "0001  paused" in result.stdout and "0009" not in result.stdout


def test_a_machine_that_was_left_on_is_not_listed_as_cold(tmp_path: Path) -> None:
    knowledge = shipped_knowledge()
    session, _ = Session.open(knowledge, shop_of(knowledge), tmp_path / "1.jsonl", "1", lambda: datetime.now(UTC))
    for line in ("Ann", "1", "ok", "leaks at the rim", "1", "ok", "no", "1", "1", "1", "centre", "on", "pause"):
        session.say(line)
    session.close()
    listed = expert("jobs", "--jobs", tmp_path).stdout.splitlines()
    assert listed[1:3] == [
        "!     left: mains on, covers on, boiler warm, pressure some, element connected,",
        "        altered nothing",
    ]
    assert json.loads(expert("jobs", "--jobs", tmp_path, "--json").stdout)["jobs"][0]["left"]["pressure"] == "some"


def test_a_closed_job_is_not_listed(tmp_path: Path) -> None:
    shutil.copy(DEMOS / "demo-1-straight.jsonl", tmp_path)
    assert open_jobs(tmp_path) == ((), 0)
