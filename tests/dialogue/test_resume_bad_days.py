"""Bad days: full disks, read-only folders, second technicians, clocks put back, numbers and files that will not do."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from expert.desk import session as session_module
from expert.desk.session import Session
from expert.desk.taking_up import resume
from expert.engine.knowledge import knowledge_of
from expert.language.load import load_rules
from expert.trace.reading import read_trace
from expert.trace.records import Closed, Resumed, Sealed
from expert.trace.storage import TraceFile
from expert.trace.verifying import verify
from expert.trace.writing import TraceWriter
from tests.dialogue.command_line import AT_THE_PUMP, GO_ON, HERE, INTAKE, PUMP_QUESTION, STANDS, Ran, Shop, run, said
from tests.dialogue.phases import TO_THE_CLOSE
from tests.dialogue.small_rules import small_knowledge, small_shop

TO_THE_END = "".join(f"{line}\n" for line in (*TO_THE_CLOSE, "1", "ok", "ok", "no"))

# ---------------------------------------------------------------- the disk


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 128 kbyte. Where none can be mounted, the test with a failing file stands in."""
    folder = tmp_path / "disk"
    folder.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", "size=128k", "tmpfs", str(folder)]
    if not shutil.which("mount") or subprocess.run(command, capture_output=True, check=False).returncode:
        pytest.skip("no small disk can be mounted here")
    yield folder
    subprocess.run(["umount", str(folder)], check=True)


def test_a_disk_that_runs_full_loses_only_the_line_that_was_refused(tmp_path: Path, small_disk: Path) -> None:
    shop = Shop(Shop.at(tmp_path).rules, small_disk)
    notes = "".join(f"note {number} {'x' * 1500}\n" for number in range(80))
    full = shop.bench(AT_THE_PUMP + notes)
    path = shop.trace()
    assert (full.code, full.err) == (
        2,
        f"{path} cannot be written: No space left on device. This step was not recorded.\n",
    )
    acknowledged = full.out.count("Noted.")
    assert 0 < acknowledged < 80
    assert len(said(path)) == len(AT_THE_PUMP.splitlines()) + acknowledged
    subprocess.run(["mount", "-o", "remount,size=1m", str(small_disk)], check=True)
    assert shop.resume(HERE + "yes\n") == Ran(0, STANDS + PUMP_QUESTION + GO_ON, "")


def test_a_disk_that_is_full_from_the_start_opens_no_job(tmp_path: Path, small_disk: Path) -> None:
    shop = Shop(Shop.at(tmp_path).rules, small_disk)
    with (small_disk / "ballast").open("wb", buffering=0) as ballast, pytest.raises(OSError, match="No space"):
        while ballast.write(b"x" * 4096):
            pass
    full = shop.bench(INTAKE)
    assert (full.code, full.out) == (2, "")
    assert full.err.endswith("cannot be written: No space left on device. The job was not opened.\n")
    assert [file.name for file in (small_disk / ".rules").iterdir()] == [], "half a copy of the rules is none"


def test_a_failing_file_refuses_the_line_and_keeps_the_job(at_the_pump: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patched:

        def full(self: TraceFile, content: bytes) -> None:
            self._file.write(content[:20])
            raise OSError(28, os.strerror(28))

        patched.setattr(TraceFile, "_write_all", full)
        message = f"{at_the_pump.trace()} cannot be written: No space left on device. This step was not recorded.\n"
        assert at_the_pump.resume(HERE + "yes\n") == Ran(2, "", message)
    assert at_the_pump.resume(HERE + "yes\n") == Ran(0, STANDS + PUMP_QUESTION + GO_ON, "")


def test_a_seal_that_cannot_be_written_is_set_on_resume(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patched:

        def full(self: TraceWriter, *_: object) -> None:
            raise session_module.TraceNotWritten(f"{self.path} cannot be written: No space left on device.")

        patched.setattr(TraceWriter, "seal", full)
        closed = shop.bench(TO_THE_END)
        assert "Job 7 is closed: repaired, 41 min.\n" in closed.out
        assert " ".join(closed.out.split()).endswith(
            "cannot be written: No space left on device. Only the seal is missing; it is set when the job is resumed."
        )
    again = shop.resume()
    assert again.out.endswith("Job 7 is closed: repaired, 41 min.\n")
    kinds = [type(record) for record in read_trace(shop.trace()).records[-3:]]
    assert kinds == [Closed, Resumed, Sealed]


def test_a_read_only_folder_is_said_before_anything_is_asked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shop = Shop.at(tmp_path)
    shop.bench(AT_THE_PUMP)
    shutil.copytree(shop.jobs, tmp_path / "empty", ignore=shutil.ignore_patterns("*"))

    real = os.open

    def denied(path: object, *rest: int, **__: object) -> int:
        if path == os.devnull:
            return real(os.devnull, *rest)
        raise PermissionError(13, os.strerror(13))

    # Permissions do not bind the user under whom tests may run, so the system's refusal is played.
    monkeypatch.setattr(os, "open", denied)
    monkeypatch.setattr(os, "mkdir", denied)
    not_gone_on = f"{shop.trace()} cannot be written: Permission denied. The job was not taken up again.\n"
    assert shop.resume() == Ran(2, "", not_gone_on)
    pin = next((shop.jobs / ".rules").iterdir()).name
    not_opened = f"{tmp_path}/empty/.rules/{pin} cannot be written: Permission denied. The job was not opened.\n"
    assert Shop(shop.rules, tmp_path / "empty").bench(INTAKE) == Ran(2, "", not_opened)


# ---------------------------------------------------------------- other people and clocks


def test_a_second_technician_is_told_that_the_job_is_in_use(at_the_pump: Shop) -> None:
    path = at_the_pump.trace()
    length = path.stat().st_size
    session, _ = resume(knowledge_of(load_rules(at_the_pump.rules)), path, lambda: datetime.now(UTC))
    in_use = f"{path} is in use: another terminal is working on this job\n"
    assert at_the_pump.resume(HERE + "yes\n") == Ran(2, "", in_use)
    assert at_the_pump.bench(INTAKE) == Ran(2, "", in_use)
    session.say("yes")
    session.close()
    assert path.stat().st_size > length
    assert at_the_pump.resume(HERE + "yes\n").code == 0


def test_a_clock_that_was_put_back_stops_nobody_and_is_noted(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    noon, morning = datetime(2026, 1, 31, 12, tzinfo=UTC), datetime(2026, 1, 31, 8, tzinfo=UTC)
    session, _ = Session.open(small_knowledge(), small_shop(), path, "7", lambda: noon)
    session.say("Ann")
    session.close()
    session, opening = resume(small_knowledge(), path, lambda: morning)
    assert [getattr(record, "question", "") for record in opening] == ["machine"]
    session.say("1")
    session.close()
    assert [str(problem) for problem in verify(read_trace(path)) if problem.code == "clock-back"] == [
        f"{path}:3:1: the clock was put back: 2026-01-31T08:00:00Z follows 2026-01-31T12:00:00Z [clock-back]"
    ]


# ---------------------------------------------------------------- numbers and files that will not do


@pytest.mark.parametrize(
    "number", ["../7", "..", "a/b", "/etc/x", "7\n", "~", "-7", "x" * 50, "7.jsonl/..", "\x1b[2J7"]
)
def test_a_job_number_cannot_leave_the_folder(shop: Shop, number: str) -> None:
    result = run("bench", "--plain", "--rules", shop.rules, "--jobs", shop.jobs, f"--job={number}")
    shown = ascii(number if len(number) <= 40 else number[:40] + "...")
    what_will_do = "letters a to z, digits, '-', '.' and '_' will do, 1 to 40 of them, the first a letter or a digit"
    assert result == Ran(2, "", f"{shown} is not a job number: {what_will_do}\n")
    assert not shop.jobs.exists()


def test_a_device_name_is_no_job_number(shop: Shop) -> None:
    message = "'con' is not a job number: some systems keep that name for a device; add a digit\n"
    assert shop.bench(INTAKE, "con") == Ran(2, "", message)
    assert shop.resume("", "con") == Ran(2, "", message)


def test_a_number_that_is_taken(at_the_pump: Shop) -> None:
    message = f"{at_the_pump.trace()} is there already: resume that job, or take another number\n"
    assert at_the_pump.bench(INTAKE) == Ran(2, "", message)


def test_a_job_that_is_not_there(shop: Shop) -> None:
    assert shop.resume() == Ran(2, "", f"{shop.trace()} is not there: there is no such job to go on with\n")


def test_what_is_no_file_is_no_job(shop: Shop) -> None:
    shop.jobs.mkdir()
    os.mkfifo(shop.trace("8"))
    shop.trace("9").mkdir()
    for number in ("8", "9"):
        message = f"{shop.trace(number)} is not there: there is no such job to go on with\n"
        assert shop.resume("", number) == Ran(2, "", message)


def test_a_closed_job_stays_closed(shop: Shop) -> None:
    shop.bench(TO_THE_END)
    sealed = shop.trace().read_bytes()
    message = f"{shop.trace()} is sealed: the job is closed, and nothing can be added to it\n"
    assert shop.resume(HERE + "yes\n") == Ran(2, "", message)
    assert shop.trace().read_bytes() == sealed


def test_jobs_in_a_place_that_is_no_folder(shop: Shop, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    for place, reason in ((tmp_path / "file", "Not a directory"), (tmp_path / ("x" * 300), "File name too long")):
        result = run("bench", "--plain", "--rules", shop.rules, "--jobs", place)
        assert (result.code, result.out) == (2, "")
        assert result.err.startswith(f"{place}/.rules/")
        assert result.err.endswith(f" cannot be written: {reason}. The job was not opened.\n")


def test_a_trace_that_is_something_else(shop: Shop) -> None:
    shop.jobs.mkdir()
    shop.trace().write_text(json.dumps({"a": 1}) + "\n{}\n", "utf-8")
    message = f"{shop.trace()}:1:1: a line is an object with the keys at, chain, packed, records, seq [damaged-trace]\n"
    assert shop.resume() == Ran(2, "", message)
