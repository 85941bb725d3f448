"""Ended from outside, odd keys, streams that are none, a fault of the program: a sentence, always."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pexpect
import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.desk.faults import faults_folder
from expert.job import steps
from expert.job import steps as steps_module
from expert.job.state.job import Foreseen, Job
from expert.trace.reading import read_trace
from expert.trace.records import Record, Said
from tests.dialogue.command_line import AT_THE_PUMP, Ran, Shop, run
from tests.dialogue.shipped_desk import ShippedDesk
from tests.dialogue.small_folder import small_folder
from tests.dialogue.terminals import AtSize

SECONDS = 30


def command(folder: Path, *words: str) -> list[str]:
    return ["-m", "expert.cli", "bench", "--rules", str(folder / "rules"), "--jobs", str(folder / "jobs"), *words]


def environment(folder: Path, **more: str) -> dict[str, str]:
    apart = {"HOME": str(folder), "XDG_STATE_HOME": str(folder / "state"), "XDG_DATA_HOME": str(folder / "data")}
    return {**os.environ, "TERM": "xterm", "NO_COLOR": "1", "PROMPT_TOOLKIT_NO_CPR": "1", **apart, **more}


@pytest.fixture
def bench(tmp_path: Path) -> pexpect.spawn:
    small_folder(tmp_path / "rules")
    child = pexpect.spawn(
        sys.executable, command(tmp_path), env=environment(tmp_path), timeout=SECONDS, dimensions=(24, 80)
    )
    child.expect("Type your name")
    child.expect(re.escape("\x1b[?2004h"))  # the prompt stands
    return child


def left_of(child: pexpect.spawn) -> str:
    child.expect(pexpect.EOF)
    child.close()
    return re.sub(r"\x1b(\[[0-?]*[ -/]*[@-~]|[=>])", "", child.before.decode())


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP], ids=["SIGTERM", "SIGHUP"])
def test_a_job_ended_from_outside_leaves_its_command(bench: pexpect.spawn, tmp_path: Path, number: int) -> None:
    bench.send("Ann\r")
    bench.expect("Type its number")
    bench.kill(number)
    said = left_of(bench)
    assert "Ended from outside." in said and "Nothing is lost. Go on with:" in said
    assert f"expert resume --rules {tmp_path}/rules --jobs {tmp_path}/jobs 0001" in said.replace("\r\n", "")
    assert bench.exitstatus == 128 + number
    assert [record.text for record in read_trace(tmp_path / "jobs" / "0001.jsonl").records if isinstance(record, Said)]


@pytest.mark.parametrize("keys", ["\x1b[31m", "\x1b[<0m", "\x1b[M !!", "\x1b[1;2;3;4m", "\x1b[99~", "\x1bO"], ids=ascii)
def test_keys_that_are_no_answer_end_nothing(bench: pexpect.spawn, keys: str) -> None:
    bench.send(keys)
    bench.send("Ann\r")
    bench.expect("Type its number")
    bench.send("\x03\x03")
    assert "Traceback" not in left_of(bench)


def run_with(folder: Path, streams: str, typed: bytes = b"", **more: str) -> subprocess.CompletedProcess[bytes]:
    """The bench started by a shell that does this with its streams."""
    small_folder(folder / "rules")
    words = " ".join(f"'{word}'" for word in [sys.executable, *command(folder, "--plain")])
    line = streams.replace("BENCH", words)
    return subprocess.run(
        ["bash", "-c", line], input=typed, capture_output=True, env=environment(folder, **more), timeout=SECONDS
    )


@pytest.mark.parametrize(
    ("streams", "code", "word"),
    [
        ("BENCH <&-", 0, b"Nothing is lost. Go on with:"),
        ("BENCH >&-", 2, b"There is nowhere to write to: standard output is closed."),
        ("BENCH >/dev/full", 2, b"No space left on device"),
        ("BENCH 2>&-", 0, b"Nothing is lost. Go on with:"),
        ("BENCH <&- >&- 2>&-", 2, b""),
        ("set -o pipefail; BENCH | head -1", 0, b"Whoever read the output went away."),
    ],
)
def test_odd_streams(tmp_path: Path, streams: str, code: int, word: bytes) -> None:
    ran = run_with(tmp_path, streams, AT_THE_PUMP.encode())
    assert ran.returncode == code, ran
    assert word in ran.stdout + ran.stderr
    assert b"Traceback" not in ran.stdout + ran.stderr and b"Exception ignored" not in ran.stderr


@pytest.mark.parametrize("encoding", ["ascii", "utf-16", "latin-1"])
def test_streams_of_another_encoding(tmp_path: Path, encoding: str) -> None:
    ran = run_with(tmp_path, "BENCH", AT_THE_PUMP.encode(encoding), PYTHONIOENCODING=encoding)
    assert ran.returncode == 0, ran
    assert b"Traceback" not in ran.stderr


def test_a_pipe_is_no_trace_and_keeps_nobody_waiting(tmp_path: Path) -> None:
    pipe = tmp_path / "7.jsonl"
    os.mkfifo(pipe)
    ran = run("audit", pipe)
    assert ran == Ran(2, "", f"{pipe} is not a file: a trace is one\n")


# ---------------------------------------------------------------- a fault of the program


@pytest.fixture
def faulty(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A program that fails at the line 'boom', and keeps the particulars in a folder of its own."""
    step = steps_module.step

    def fails(job: Job, line: str, foreseen: Foreseen | None = None) -> tuple[Job, tuple[Record, ...]]:
        if "boom" in line:
            raise ZeroDivisionError("a \x1b[31mplanted\x1b[0m fault")
        return step(job, line, foreseen)

    monkeypatch.setattr(steps_module, "step", fails)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return faults_folder()


TOLD = [
    "The program failed here; that is a fault of the program, not yours. The line",
    "  was not taken. Nothing that was answered is lost.",
]


def test_a_fault_takes_no_line_and_the_job_goes_on(faulty: Path, tmp_path: Path) -> None:
    shop = Shop.at(tmp_path)
    words = ["bench", "--plain", "--rules", str(shop.rules), "--jobs", str(shop.jobs), "--job", "7"]
    ran = CliRunner().invoke(main, words, input=AT_THE_PUMP + "boom\nno\n")
    assert ran.exit_code == 0
    assert f"> boom\n{TOLD[0]}\n{TOLD[1]}" in ran.stdout
    assert "FOUND: pump: dead." in ran.stdout
    (report,) = faulty.iterdir()
    assert f"  {report}\n> no\n" in ran.stdout
    text = report.read_text(encoding="utf-8")
    assert "ZeroDivisionError: a planted fault" in text and "\x1b" not in text
    assert "boom" not in [record.text for record in read_trace(shop.trace()).records if isinstance(record, Said)]
    assert shop.resume().code == 0


def test_a_fault_in_the_chat(faulty: Path, at_size: AtSize) -> None:
    terminal = at_size(80, 24)
    terminal.talk("Ann|boom|")
    assert "The line was not taken." in " ".join(terminal.screen.split())
    assert terminal.said[0] == "Ann" and "boom" not in terminal.said


def test_a_job_that_goes_round_is_a_fault_and_no_bench_that_hangs(monkeypatch: pytest.MonkeyPatch) -> None:
    desk = ShippedDesk().intake()
    monkeypatch.setattr(steps, "search_on", lambda turn: None)
    with pytest.raises(steps.GoesRound, match="FIND"):
        steps.step(desk.job, "sound")
