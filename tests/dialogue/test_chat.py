"""The chat driven by keys: through prompt_toolkit's pipe input, and once through a real pseudo-terminal."""

from __future__ import annotations

import io
import os
import re
import sys
import threading
import time
from pathlib import Path

import pexpect
import pytest
from prompt_toolkit.key_binding.key_processor import KeyPress
from prompt_toolkit.keys import Keys

from expert.desk.session import LONGEST_LINE
from expert.terminal.chat import talk_in_terminal
from expert.terminal.keyboard import CUT, KEPT_LINES, KEPT_OF_A_PASTE, QUIET, TAIL, ShortPasteParser, TypedBefore
from expert.terminal.prompt import Chat
from expert.trace.errors import TraceNotWritten
from expert.trace.reading import read_trace
from expert.trace.records import Closed, Paused
from tests.dialogue import small_rules
from tests.dialogue.terminals import CTRL_D, ENTER, AtSize, Terminal

UP, CTRL_C = "\x1b[A", "\x03"
WHOLE_JOB = "Ann|1|ok|no fill|ok|n|1|y|y|y|y|OL|done|y|y|y|y|1|ok|ok|no|"
PASTE, PASTED = "\x1b[200~", "\x1b[201~"


@pytest.fixture
def terminal(at_size: AtSize) -> Terminal:
    return at_size(80, 24)


def test_a_whole_job_by_keys(terminal: Terminal) -> None:
    terminal.talk(WHOLE_JOB)
    trace = read_trace(terminal.path)
    assert trace.is_sealed
    assert [record.outcome for record in trace.records if isinstance(record, Closed)] == ["repaired"]
    assert "FOUND: fill valve: coil open." in terminal.screen
    assert "! Mains kills. Pull the plug." in terminal.screen


@pytest.mark.parametrize("columns, rows", [(80, 24), (120, 40), (20, 90)])
def test_lines_keep_to_the_width(at_size: AtSize, columns: int, rows: int) -> None:
    terminal = at_size(columns, rows)
    terminal.talk("Ann|1|ok|no fill|ok|n|1|y|y|help|why|")
    assert max(len(line) for line in terminal.screen.split("\n") if not line.startswith(">")) <= columns


def test_danger_is_told_in_words(terminal: Terminal) -> None:
    terminal.talk("Ann|1|ok|steam jet|ok|n|1|y|2 bar|")
    assert "STOP! The boiler pressure is out of control. Pull the plug." in terminal.screen


def test_no_colour_is_written_where_none_is_wanted(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    terminal.talk("Ann|1|ok|steam jet|ok|n|1|y|2 bar|")
    assert "STOP!" in terminal.screen
    assert not re.findall(r"\x1b\[[\d;]*(?:3[0-8]|4[0-8]|9\d|10\d)[;m]", terminal.out.getvalue())


def test_f1_is_help_where_nothing_is_typed(terminal: Terminal) -> None:
    f1 = "\x1bOP"
    terminal.talk(f"{f1}An{f1}n|")
    assert terminal.said == ["help", "Ann", "pause"]


def test_ctrl_c_once_loses_nothing_and_says_so(terminal: Terminal) -> None:
    terminal.talk(f"Ann|1|half a li{CTRL_C}ok|{CTRL_C}no fill|")
    assert terminal.said == ["Ann", "1", "ok", "no fill", "pause"]
    assert terminal.screen.count("Nothing is lost: every answer is on the disk.") == 2


@pytest.mark.parametrize("keys", [CTRL_C + CTRL_C, CTRL_D], ids=["Ctrl-C twice", "Ctrl-D"])
def test_leaving_is_recorded(terminal: Terminal, keys: str) -> None:
    terminal.talk(f"Ann|{keys}")
    assert isinstance(read_trace(terminal.path).records[-1], Paused)
    assert "Paused. Nothing is lost. Go on with:\n  expert resume " in terminal.screen


def test_leaving_at_an_open_take_back_takes_nothing_back(terminal: Terminal) -> None:
    terminal.talk("Ann|1|ok|no fill|ok|n|1|y|y|take back 1|")
    assert terminal.said[-3:] == ["take back 1", "no", "pause"]
    assert terminal.session.job.given[1].holds


def test_a_line_that_was_not_recorded_can_be_sent_again(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    append, refusals = terminal.session.writer.append, ["the disk is full"]

    def full_once(records: object) -> None:
        if refusals:
            raise TraceNotWritten(refusals.pop())
        append(records)  # type: ignore[arg-type]

    monkeypatch.setattr(terminal.session.writer, "append", full_once)
    terminal.talk("Ann||1|")
    assert terminal.said == ["Ann", "1", "pause"]
    assert "NOT RECORDED: the disk is full" in terminal.screen


@pytest.mark.parametrize("keys", [CTRL_C + CTRL_C, CTRL_C + CTRL_D], ids=["Ctrl-C twice", "Ctrl-C, Ctrl-D"])
def test_a_job_that_cannot_be_written_can_be_left(terminal: Terminal, keys: str) -> None:
    terminal.path.rename(terminal.path.with_name("8.jsonl"))
    terminal.talk(f"Ann|{keys}")
    told = "7.jsonl was renamed to 8.jsonl while the job was open; this step was not recorded."
    assert " ".join(terminal.screen.split()).count(told) == 2
    assert "Nothing is lost. Go on with:\n  expert resume " in terminal.screen
    assert not terminal.path.exists()


# ---------------------------------------------------------------- pastes


def test_of_a_huge_paste_only_the_beginning_is_kept() -> None:
    keys: list[KeyPress] = []
    parser = ShortPasteParser(keys.append)
    for piece in (PASTE, *["a" * 1024] * 10_000, PASTED[:3], PASTED[3:], "b"):
        parser.feed(piece)
    pasted, after = keys
    assert KEPT_OF_A_PASTE <= len(pasted.data) <= KEPT_OF_A_PASTE + TAIL
    assert after.data == "b"


def test_of_a_flood_without_marks_only_the_beginning_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [0.0]
    monkeypatch.setattr("time.monotonic", lambda: now[0])
    keys: list[KeyPress] = []
    parser = ShortPasteParser(keys.append)
    for piece in (*["yes\r" * 256] * 10_000, "yes\r"):
        parser.feed(piece)
    assert {key.key for key in keys} == {Keys.BracketedPaste}
    assert sum(len(key.data) for key in keys) == KEPT_OF_A_PASTE
    now[0] += 2 * QUIET
    parser.feed("b\r")
    assert [key.key for key in keys[-2:]] == ["b", Keys.ControlM]


@pytest.mark.parametrize(
    "marks, letters",
    [((PASTE, PASTED), "a"), (("", ""), "a"), (("", ""), "a\r")],
    ids=["marked", "a flood of letters", "a flood of lines"],
)
def test_ten_megabytes_pasted_into_the_prompt(terminal: Terminal, marks: tuple[str, str], letters: str) -> None:
    flood = marks[0] + letters * (10_000_000 // len(letters)) + marks[1]
    typed_apart(terminal, flood, ENTER, CTRL_D)
    pasted, *again, last = terminal.said
    assert set(again) <= {""}  # Enter was pressed once more before the line was said
    assert (len(pasted) <= LONGEST_LINE, set(pasted.removesuffix(CUT)) - {" "}, last) == (True, {"a"}, "pause")


def typed_apart(terminal: Terminal, flood: str, *keys: str) -> None:
    """Talk while a flood comes and then these keys, each pressed until a line is said, as impatient fingers would.

    A key that comes while the flood is still being read belongs to the flood and is dropped, however long that takes.
    """
    over = threading.Event()

    def typing() -> None:
        terminal.keys.send_text(flood)
        for key in keys:
            said = len(terminal.said)
            while len(terminal.said) == said and not over.wait(0.5):
                terminal.keys.send_text(key)

    typist = threading.Thread(target=typing)
    typist.start()
    talk_in_terminal(terminal.session, terminal.opening)
    over.set()
    typist.join()


def test_ctrl_c_ends_a_flood(terminal: Terminal) -> None:
    typed_apart(terminal, "yes\r" * 2_000 + CTRL_C + "yes\r" * 10, CTRL_D)
    assert terminal.said == ["pause"]
    assert "Nothing is lost: every answer is on the disk." in terminal.screen


def test_a_paste_of_several_lines_is_one_line_and_is_not_sent_off(terminal: Terminal) -> None:
    terminal.talk(f"{PASTE}Ann\r\nBen\x1b[31m\n{PASTED} Lee|")
    assert terminal.said == ["Ann  Ben Lee", "pause"]


# ---------------------------------------------------------------- lines typed before


def test_the_up_key_brings_back_lines_of_earlier_jobs(terminal: Terminal, tmp_path: Path) -> None:
    file = tmp_path / "state" / "bench-expert" / "typed_lines.txt"
    file.parent.mkdir(parents=True)
    file.write_text("Zoe\n", "utf-8")
    chat = Chat(terminal.session)

    def type_when_ready() -> None:
        until = time.monotonic() + 10
        while len(chat.prompt.default_buffer._working_lines) < 2 and time.monotonic() < until:
            time.sleep(0.01)
        terminal.keys.send_text(UP + ENTER)
        terminal.keys.send_text(CTRL_D)

    typist = threading.Thread(target=type_when_ready)
    typist.start()
    chat.talk(terminal.opening)
    typist.join()
    assert terminal.said == ["Zoe", "pause"]
    assert file.read_text("utf-8") == "Zoe\n"  # the same line twice is kept once


def test_only_the_latest_lines_are_kept(tmp_path: Path) -> None:
    file = tmp_path / "lines.txt"
    file.write_text("".join(f"{number}\n" for number in range(3 * KEPT_LINES)), "utf-8")
    newest_first = list(TypedBefore(file).load_history_strings())
    assert (newest_first[0], newest_first[-1]) == (str(3 * KEPT_LINES - 1), str(2 * KEPT_LINES))
    assert len(file.read_text("utf-8").splitlines()) == KEPT_LINES
    assert file.stat().st_mode & 0o077 == 0


def test_a_job_goes_on_where_typed_lines_cannot_be_kept(terminal: Terminal, tmp_path: Path) -> None:
    (tmp_path / "state").write_text("a file where a folder is wanted", "utf-8")
    terminal.talk("Ann|1|")
    assert terminal.said == ["Ann", "1", "pause"]
    assert terminal.screen.replace("\n  ", " ").count("Typed lines are not kept for the next job:") == 1


# ---------------------------------------------------------------- a real terminal


def small_rules_folder(folder: Path) -> Path:
    """The small rule base as files."""
    for name, text in {
        "features.yaml": small_rules.FEATURES,
        "machines/test_machine.yaml": small_rules.MACHINE,
        "complaints.yaml": small_rules.COMPLAINTS,
        "cautions.yaml": small_rules.CAUTIONS,
        "instruments.yaml": small_rules.INSTRUMENTS,
        "bench.yaml": small_rules.BENCH,
        "circuits/fill.yaml": small_rules.CIRCUIT,
    }.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def see(child: pexpect.spawn, text: str) -> None:
    """Wait for a text; answer meanwhile where the cursor stands, as every terminal does when asked."""
    while child.expect([re.escape(text), re.escape("\x1b[6n")]):
        child.send("\x1b[1;1R")


@pytest.mark.parametrize(
    ("rows", "columns", "no_colour"), [(24, 80, ""), (40, 120, "1")], ids=["80x24", "120x40 without colour"]
)
def test_a_whole_job_at_a_real_terminal(tmp_path: Path, rows: int, columns: int, no_colour: str) -> None:
    rules, jobs = small_rules_folder(tmp_path / "rules"), tmp_path / "jobs"
    arguments = ["-m", "expert.cli", "bench", "--rules", str(rules), "--jobs", str(jobs), "--job", "8"]
    environment = {
        **os.environ,
        "XDG_STATE_HOME": str(tmp_path / "state"),
        "TERM": "xterm-256color",
        "NO_COLOR": no_colour,
    }
    child = pexpect.spawn(
        sys.executable, arguments, dimensions=(rows, columns), encoding="utf-8", timeout=20, env=environment
    )
    child.logfile_read = io.StringIO()
    see(child, "Who is at the bench? Type your name.")
    see(child, "Job 8 | INTAKE > make safe > find > repair > prove > close")
    for line, reply in (
        ("Ann", "Type its number."),
        ("1", "Compare with the rating plate."),
        ("ok", "What is the complaint?"),
        ("no fill", "Another complaint?"),
        ("ok", "Qualified for"),
        ("n", "How does the machine stand now?"),
        ("1", "3 suspects: 43% each fill valve: coil open; pump: dead"),
        ("y", "Does the pump run?"),
        ("y", "Pull the plug."),
        ("y", "Undo the screws."),
        ("y", "What does the coil read?"),
        ("OL", "FOUND: fill valve: coil open."),
        ("done", "Screw them on."),
        ("y", "Switch on. (2 min, as before: how)"),
        ("y", "Does water arrive in the boiler?"),
        ("y", "Is it out?"),
        ("y", "How does the job end?"),
        ("1", "Parts used:"),
        ("ok", "Minutes spent:"),
        ("ok", "Anything the next person should know?"),
        ("no", "Job 8 is closed: repaired"),
    ):
        child.send(line + "\r")
        see(child, reply)
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    assert read_trace(jobs / "8.jsonl").is_sealed
    coloured = re.findall(r"\x1b\[[\d;]*(?:3[0-8]|4[0-8]|9\d|10\d)[;m]", child.logfile_read.getvalue())
    assert bool(coloured) == (not no_colour)
