"""Running a trace again: the same rules reproduce any job; with edited rules the differences show."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.desk.comparing import Difference
from expert.desk.replay import rerun
from expert.desk.session import Session
from expert.desk.taking_up import RulesDiffer, resume
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import read_rules
from expert.trace.reading import read_trace
from expert.trace.records import Fired, Found, Narrowed, Paused, PromptPut, Resumed, Said, Sealed, Told
from expert.trace.verifying import verify
from tests.dialogue.phases import TO_THE_CLOSE
from tests.dialogue.small_folder import FILES
from tests.dialogue.small_rules import small_knowledge, small_shop
from tests.trace.power_cut import power_cut

INTAKE = ("Ann", "1", "ok", "no fill", "ok", "no", "1")
TO_THE_POINT = (
    *("yes", "no", "1", "2", "ok", "done", "can't tell", "can't tell no light", "?", "OL", "950", "1190", "0.2 bar"),
    *("2.4 bar", "no fill", "leaks", "hisses", "blows", "list", "Ann", "fill_coil 900 ohm", "dealt with by Bo"),
)
COMMANDS = (
    *("why", "how", "what if yes", "what if 400", "suspects", "answers", "help", "take back 1", "take back 2"),
    *("note lime", "pause", "pause", "hand over", "figure list", "", "x", "\x1b[2J", "note \u202e\0\ud800"),
)
LINES = st.lists(st.sampled_from((*TO_THE_POINT, *COMMANDS)) | st.text(max_size=30), max_size=40)
STARTS = st.sampled_from([(), INTAKE, (*INTAKE, "yes"), (*INTAKE[:3], "blows, leaks", *INTAKE[4:], "yes")])


def clock() -> datetime:
    return datetime(2026, 1, 31, 9, 30, tzinfo=UTC)


def worked(path: Path, lines: list[str], knowledge: Knowledge | None = None) -> int:
    """Type the lines into a new job, resuming it after every pause; how many pauses there were."""
    knowledge = knowledge or small_knowledge()
    session, _ = Session.open(knowledge, small_shop(), path, "7", clock)
    pauses = 0
    for line in lines:
        if session.job.paused:
            pauses += 1
            session.close()
            left = session.job
            session, _ = resume(knowledge, path, clock)
            waited_at = left.left_at or left.prompt
            assert waited_at in (session.job.prompt, session.job.left_at), "the resumed job waits elsewhere"
        if session.is_over:
            break
        session.say(line)
    session.close()
    return pauses


@settings(max_examples=150, deadline=None)
@given(STARTS, LINES)
def test_any_lines_are_reproduced(
    tmp_path_factory: pytest.TempPathFactory, start: tuple[str, ...], lines: list[str]
) -> None:
    path = tmp_path_factory.mktemp("jobs") / "7.jsonl"
    worked(path, [*start, *lines])
    trace = read_trace(path)
    again = rerun(small_knowledge(), trace)
    assert again.differences == ()
    assert again.missing == ()
    assert [problem for problem in verify(trace) if problem.grade == "damage"] == []


def test_several_pauses_are_reproduced(tmp_path: Path) -> None:
    lines = [
        "Ann",
        "pause",
        "1",
        "ok",
        "pause",
        "no fill",
        "ok",
        "no",
        "1",
        "pause",
        "yes",
        "pause",
        "no",
        "pause",
        "pause",
    ]
    path = tmp_path / "7.jsonl"
    assert worked(path, [*lines, "yes"]) == 6
    trace = read_trace(path)
    assert [type(record) for record in trace.records].count(Paused) == 6
    assert [type(record) for record in trace.records].count(Resumed) == 6
    again = rerun(small_knowledge(), trace)
    assert (again.differences, again.missing) == ((), ())


@pytest.mark.parametrize("kept", range(1, 40), ids=lambda kept: f"{kept} lines")
def test_a_batch_of_which_only_a_part_was_written_is_completed(tmp_path: Path, kept: int) -> None:
    path = tmp_path / "7.jsonl"
    worked(path, [*INTAKE, "yes", "no"])
    whole = path.read_bytes().splitlines(keepends=True)
    power_cut(path, b"".join(whole[:kept]))
    before = read_trace(path).records
    session, _ = resume(small_knowledge(), path, clock)
    session.close()
    records = tuple(
        record
        for record in read_trace(path).records
        if not isinstance(record, Resumed) and getattr(record, "prompt", "") != "standing"
    )
    complete = read_trace_of(tmp_path / "whole", [record.text for record in before if isinstance(record, Said)])
    assert records == complete


def read_trace_of(folder: Path, lines: list[str]) -> tuple[object, ...]:
    folder.mkdir()
    worked(folder / "7.jsonl", lines)
    return read_trace(folder / "7.jsonl").records


def test_a_sealed_job_is_reproduced(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    worked(path, [*TO_THE_CLOSE, "1", "ok", "ok", "no"])
    trace = read_trace(path)
    assert isinstance(trace.records[-1], Sealed)
    assert rerun(small_knowledge(), trace).differences == ()


# ---------------------------------------------------------------- edited rules


def edited(old: str, new: str) -> Knowledge:
    name = next(name for name, text in FILES.items() if old in text)
    return knowledge_of(read_rules({**FILES, name: FILES[name].replace(old, new)}))


@pytest.mark.parametrize(
    ("old", "new", "differences"),
    [
        pytest.param("name: fill valve", "name: inlet valve", [], id="a name that was not shown"),
        pytest.param(
            "because: It runs.",
            "because: It is heard.",
            ["line {fired}: fired: text was 'It runs.', now it is 'It is heard.'"],
            id="a reason",
        ),
        pytest.param(
            "ask: Does the pump run?",
            "ask: Can the pump be heard?",
            ["line {put}: put: text was 'Does the pump run?', now it is 'Can the pump be heard?'"],
            id="a question",
        ),
        pytest.param(
            "then: {clear: pump.dead}, because: It runs.",
            "then: {advise: Listen again.}, because: It runs.",
            [
                "line {fired}: fired: told was yes, now it is no",
                "line {narrowed}: then the job held pump.dead to be absent; now it said 'Advice: Listen again.'",
            ],
            id="a conclusion",
        ),
    ],
)
def test_edited_rules_show_what_would_differ(tmp_path: Path, old: str, new: str, differences: list[str]) -> None:
    path = tmp_path / "7.jsonl"
    worked(path, [*INTAKE, "yes", "yes"])
    recorded = read_trace(path).recorded
    at = {
        "fired": next(one.line for one in recorded if isinstance(one.record, Fired)),
        "narrowed": next(one.line for one in recorded if isinstance(one.record, Narrowed)),
        "put": next(r.line for r in recorded if isinstance(r.record, PromptPut) and r.record.question == "pump_runs"),
    }
    again = rerun(edited(old, new), read_trace(path))
    shown = [str(difference) for difference in again.differences]
    # Why it was asked may differ as well, in figures that are not the matter here.
    shown = [text for text in shown if ": put: why " not in text]
    assert shown[: len(differences)] == [text.format(**at) for text in differences]
    assert bool(shown) == bool(differences)


def test_other_rules_do_not_resume_a_job(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    worked(path, [*INTAKE, "yes", "no"])
    before = path.read_bytes()
    other = edited("because: It runs.", "because: It is heard.")
    with pytest.raises(RulesDiffer) as caught:
        resume(other, path, clock)
    assert str(caught.value) == (
        f"the job was opened with other rules ({small_knowledge().base.digest[:12]}) than those at hand "
        f"({other.base.digest[:12]}); name the rules of that time with --rules, or see what would change with: "
        "expert audit TRACE --rerun"
    )
    assert path.read_bytes() == before
    session, _ = resume(small_knowledge(), path, clock)
    session.close()


@pytest.mark.parametrize(
    ("difference", "text"),
    [
        (Difference(3, Told("a"), Told("b")), "line 3: told: text was 'a', now it is 'b'"),
        (Difference(3, None, Told("b")), "line 3: then nothing came here; now it said 'b'"),
        (Difference(3, Told("a"), None), "line 3: then the job said 'a'; now nothing comes here"),
        (
            Difference(3, Found("pump.dead", "found", ()), Told("b")),
            "line 3: then the job named the fault pump.dead (found); now it said 'b'",
        ),
        (Difference(3, Told("\x1b[2Ja"), None), "line 3: then the job said 'a'; now nothing comes here"),
    ],
    ids=["fields", "more", "less", "kinds", "hostile"],
)
def test_a_difference_in_words(difference: Difference, text: str) -> None:
    assert str(difference) == text
