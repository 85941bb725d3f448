"""What stands beside the dialogue: remarks on the line typed, the bottom lines, completions, style names."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest
from prompt_toolkit.completion import CompleteEvent
from prompt_toolkit.document import Document
from prompt_toolkit.output import ColorDepth
from prompt_toolkit.styles import DEFAULT_ATTRS

from expert.engine.gain import beliefs
from expert.job.beginning import begin
from expert.job.state.job import Job
from expert.job.state.situation import picture_of
from expert.job.steps import step
from expert.terminal import style as chat_style
from expert.terminal.beside import (
    Remark,
    bench_in_words,
    cut_to,
    joined,
    remark_on,
    suspects_in_short,
    time_so_far,
    where_it_stands,
)
from expert.terminal.completion import JobCompleter, offered
from tests.dialogue.conftest import INTAKE
from tests.dialogue.shipped_desk import ShippedDesk
from tests.dialogue.small_rules import small_knowledge, small_shop

PACKAGE = Path(chat_style.__file__).parent
TO_COIL = (*INTAKE, "yes", "yes", "yes", "yes")
TO_HISS = ("Ann", "1", "ok", "hiss", "1", "ok", "no", "1", "yes")


def job_after(*lines: str) -> Job:
    job, _ = begin(small_knowledge(), small_shop(), "7")
    for line in lines:
        job, _ = step(job, line)
    return job


REMARKS = [
    pytest.param((), "Ann", "", False, id="a name is taken as it is"),
    pytest.param(("Ann",), "1", "Test machine", False, id="a number shows the machine it means"),
    pytest.param(("Ann",), "9", "'9' is no machine type. Type 1.", True, id="a number that means no machine"),
    pytest.param(
        INTAKE[:3], "empt", "May be: Boiler does not fill", False, id="words show the complaint they may mean"
    ),
    pytest.param(INTAKE[:3], "xy", "", False, id="two letters of a complaint are no mistake yet"),
    pytest.param(
        INTAKE[:3],
        "xyz",
        "'xyz' fits no complaint. Type other words, or list to see all.",
        True,
        id="words that fit no complaint",
    ),
    pytest.param(INTAKE[:6], "2", "mains on, covers on", False, id="an arrival shows its bench state"),
    pytest.param((*INTAKE, "yes"), "y", "yes", False, id="a letter shows the answer it stands for"),
    pytest.param((*INTAKE, "yes"), "yes", "", False, id="the whole answer needs no remark"),
    pytest.param(
        (*INTAKE, "yes"), "x", "'x' is no answer here. Type yes or no, or: can't tell", True, id="no answer at all"
    ),
    pytest.param((*INTAKE, "yes"), "wh", "", False, id="the beginning of a command is no mistake"),
    pytest.param((*INTAKE, "yes"), "can't tell", "Leaves this question unanswered.", False, id="can't tell"),
    pytest.param(
        TO_COIL,
        "400",
        "400 ohm: shorted (shorted is below 475 ohm; expected 950 ohm; ohm meter: ±6 ohm).",
        False,
        id="a number shows its reading",
    ),
    pytest.param(
        TO_COIL,
        "475",
        "475 ohm is too close to a limit: it may be shorted or off_value. Both stay possible. "
        "(shorted is below 475 ohm; expected 950 ohm; ohm meter: ±6.75 ohm)",
        False,
        id="a number too close to a limit",
    ),
    pytest.param(
        TO_COIL,
        "5 bar",
        "'5 bar' is a pressure; a resistance is wanted, in ohm, kohm or Mohm, or OL. Or type: can't tell",
        True,
        id="a number of another kind",
    ),
    pytest.param(TO_HISS, "1", "with a click within minutes", False, id="a digit shows the choice it means"),
    pytest.param(
        TO_COIL,
        "take back 9",
        "There is no answer '9'. Answers that hold: 1. Type answers to see them.",
        True,
        id="take back of nothing",
    ),
    pytest.param(TO_COIL, "   ", "", False, id="spaces are nothing"),
]


@pytest.mark.parametrize("lines, typed, text, refused", REMARKS)
def test_the_remark_says_what_the_line_would_do(lines: tuple[str, ...], typed: str, text: str, refused: bool) -> None:
    assert remark_on(job_after(*lines), typed) == Remark(text, refused)


@pytest.mark.parametrize("typed", ["yes", "xx", "note a", "hand over", "pause", "take back 1", "suspects"])
def test_a_remark_changes_nothing(typed: str) -> None:
    job = job_after(*TO_COIL)
    before = (job.copy(), job.prompt)
    remark_on(job, typed)
    assert (job, job.prompt) == before


def test_a_line_is_refused_exactly_when_the_dialogue_refuses_it() -> None:
    job = job_after(*TO_COIL)
    for typed in ("12", "OL", "-5", "3 V", "yes", "what if nonsense", "note x", "1e99", "0"):
        after, records = step(job, typed)
        assert remark_on(job, typed).refused is (after is job), (typed, records)


BOTTOM = [
    pytest.param(
        (), ("Job 7 | INTAKE > make safe > find > repair > prove > close",), "Bench: not known yet", id="intake"
    ),
    pytest.param(
        INTAKE,
        ("Job 7 | FIND > repair > prove > close", "3 suspects: 43% each fill valve: coil open; pump: dead"),
        "Bench: mains isolated, covers on",
        id="search",
    ),
    pytest.param(
        (*TO_COIL, "OL"),
        ("Job 7 | REPAIR > prove > close", "found: fill valve: coil open"),
        "Bench: mains isolated, covers off",
        id="repair",
    ),
    pytest.param(
        TO_COIL,
        ("Job 7 | FIND > repair > prove > close", "2 suspects: 74% fill valve: coil open"),
        "Bench: mains isolated, covers off",
        id="two suspects",
    ),
    pytest.param(
        (*TO_COIL, "OL", "done", "yes", "yes"),
        ("Job 7 | PROVE > close", "repaired: fill valve: coil open"),
        "Bench: mains on, covers on",
        id="prove",
    ),
    pytest.param(
        TO_HISS,
        ("Job 7 | FIND > repair > prove > close", "no suspect left"),
        "Bench: mains on, covers on",
        id="nothing suspected",
    ),
    pytest.param(
        (*INTAKE[:3], "steam jet", *INTAKE[4:], "yes", "2 bar"),
        ("Job 7 | STOPPED for danger", "1 suspect: 91% heat relay: shorted"),
        "Bench: mains on, covers on",
        id="stopped",
    ),
]


@pytest.mark.parametrize("lines, standing, bench", BOTTOM)
def test_the_bottom_lines(lines: tuple[str, ...], standing: tuple[str, ...], bench: str) -> None:
    job = job_after(*lines)
    assert (where_it_stands(job), bench_in_words(job)) == (standing, bench)


@pytest.mark.parametrize("width", [1, 2, 3, 10, 24, 80])
def test_bottom_lines_are_never_wider_than_the_terminal(width: int) -> None:
    assert all(len(line) <= width for line in joined(where_it_stands(job_after(*INTAKE)), width))
    assert len(cut_to("x" * 200, width)) <= width


def test_suspects_that_are_alike_are_shown_alike() -> None:
    """None of several that weigh the same stands alone as the likeliest."""
    shipped = ShippedDesk()
    shipped.type("Ann", "1", "ok", "tingles", "ok", "no", "1", "sound", "nothing")
    desk = shipped.job
    said = suspects_in_short(desk)
    picture = picture_of(desk)
    believed = beliefs(desk.knowledge, picture)
    shares = {suspect.fault: believed[suspect.fault] for suspect in picture.suspects}
    first = f"{shares[picture.suspects[0].fault]:.0%}"
    alike = [fault for fault, share in shares.items() if f"{share:.0%}" == first]
    assert said.startswith(f"{len(shares)} suspects: {first}{' each' if len(alike) > 1 else ''} ")
    assert all(desk.fault_name(fault) in said for fault in alike)


def test_the_time_so_far() -> None:
    said = "9 min by the book, 4 by the clock"
    assert (time_so_far(job_after(*INTAKE), 4.2), time_so_far(job_after(*TO_COIL), 4.2)) == ("", said)


def test_control_sequences_do_not_reach_the_bottom_lines() -> None:
    job, _ = begin(small_knowledge(), small_shop(), "7\x1b]0;title\x07\x1b[31m")
    assert where_it_stands(job)[0].startswith("Job 7 | INTAKE")
    assert remark_on(job_after(*TO_COIL), "\x1b[31m400").text.startswith("400 ohm: shorted")


OFFERED = [
    pytest.param(("Ann",), "te", {"test_machine": "Test machine"}, id="machines by id"),
    pytest.param(INTAKE[:2], "fill", {"fill_coil ": "fill_coil (now 950 ohm)"}, id="plate names with their value"),
    pytest.param(INTAKE[:3], "puddle", {"leaks": "Water under the machine"}, id="complaints by how they are put"),
    pytest.param(INTAKE[:3], "boil", {"will_not_fill": "Boiler does not fill"}, id="complaints by name"),
    pytest.param(
        INTAKE[:6],
        "c",
        {
            "cold": "Unplugged and cold",
            "can't tell": "can't tell, or ?  leave this question; a reason may follow, such as: no meter",
            "convinced": "convinced N       go on to the repair of suspect N on your own judgement",
        },
        id="arrivals",
    ),
    pytest.param(TO_HISS, "with", {"click": "with a click within minutes"}, id="choices by label"),
    pytest.param((*INTAKE, "yes"), "ye", {"yes": ""}, id="yes"),
    pytest.param((*TO_COIL, "take back 1"), "", {"yes": "", "no": ""}, id="nothing but yes and no at a take-back"),
]  # fmt: skip


@pytest.mark.parametrize("lines, begun, words", OFFERED)
def test_what_is_offered(lines: tuple[str, ...], begun: str, words: dict[str, str]) -> None:
    assert dict(offered(job_after(*lines), begun)) == words


def test_of_several_complaints_the_last_is_completed() -> None:
    job = job_after(*INTAKE[:3])
    text = "no fill, pudd"
    found = list(JobCompleter(lambda: job).get_completions(Document(text), CompleteEvent()))
    assert [(c.text, c.start_position, c.display_text) for c in found] == [("leaks", -4, "Water under the machine")]


# ---------------------------------------------------------------- styles


def test_every_style_name_is_defined_and_every_definition_has_a_name() -> None:
    names = {value for key, value in vars(chat_style).items() if key.isupper() and isinstance(value, str)}
    assert names == set(chat_style.LOOKS)
    assert len(names) == 12


@pytest.mark.parametrize("name", [name for name, looks in chat_style.LOOKS.items() if looks not in ("", "noreverse")])
def test_every_style_changes_something(name: str) -> None:
    assert chat_style.STYLE.get_attrs_for_style_str(name) != DEFAULT_ATTRS


def test_style_names_stand_in_one_file_only() -> None:
    files = [file for file in PACKAGE.glob("*.py") if "class:" in file.read_text("utf-8")]
    assert [file.name for file in files] == ["style.py"]


def test_every_manner_of_the_dialogue_has_a_style() -> None:
    tree = ast.parse((PACKAGE.parent / "job" / "wording" / "records.py").read_text("utf-8"))
    manners = {
        node.value.elts[0].value
        for node in ast.walk(tree)
        if isinstance(node, ast.Yield)
        and isinstance(node.value, ast.Tuple)
        and isinstance(node.value.elts[0], ast.Constant)
    }
    assert manners == set(chat_style.OF_MANNER)


@pytest.mark.parametrize(
    "value, depth", [("1", ColorDepth.DEPTH_1_BIT), ("", None), (None, None)], ids=["set", "empty", "not there"]
)
def test_no_colour_where_none_is_wanted(
    monkeypatch: pytest.MonkeyPatch, value: str | None, depth: ColorDepth | None
) -> None:
    if value is None:
        monkeypatch.delenv("NO_COLOR", raising=False)
    else:
        monkeypatch.setenv("NO_COLOR", value)
    assert chat_style.color_depth() is depth


def test_the_first_question_does_not_wait_for_the_prompt_library() -> None:
    code = "import sys, expert.terminal.chat; sys.exit('prompt_toolkit' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
