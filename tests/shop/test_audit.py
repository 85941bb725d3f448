"""Audits of traces that real sessions have written: verified, told from the records alone, run again."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from expert.cli import main
from expert.desk.session import Session
from expert.language.model import RuleBase
from expert.shop.audit import audit_as_data, audit_in_words, audit_trace
from expert.shop.audit_reasons import Ledger, Reason
from expert.trace.records import Answered, Fired, Narrowed
from tests.dialogue.small_rules import small_knowledge, small_shop
from tests.dialogue.test_chat import small_rules_folder

INTAKE = ("Ann", "1", "fill_coil 900 ohm", "ok", "no fill", "ok", "no", "1")
COIL_JOB = (
    *INTAKE, "yes", "yes", "yes", "yes", "950", "take back 2", "yes", "OL", "note scale in the valve",
    "done", "yes", "yes", "yes", "yes", "1", "ok", "45", "no",
)  # fmt: skip
STUCK_JOB = (*INTAKE, "yes", "yes", "yes", "yes", "900", "yes", "yes", "no", "yes", "yes", "yes")
ELIMINATED = (*INTAKE, "yes", "yes", "yes", "yes", "900", "no")
DANGER_JOB = ("Ann", "1", "ok", "steam jet", "ok", "no", "1", "yes", "2 bar", "yes", "hand over")


def job_at(path: Path, lines: Sequence[str]) -> Path:
    """A trace at this path, made by these lines."""
    moment = datetime(2026, 1, 31, 9, tzinfo=UTC)

    def clock() -> datetime:
        nonlocal moment
        moment += timedelta(minutes=1)
        return moment

    session, _ = Session.open(small_knowledge(), small_shop(), path, "7", clock)
    for line in lines:
        session.say(line)
    session.close()
    return path


def told(path: Path, base: RuleBase | None = None, again_with: RuleBase | None = None) -> list[str]:
    return list(audit_in_words(audit_trace(path, base, again_with)))


HEAD = """\
Job 7: repaired, 45 min, 27 by the clock
Opened 2026-01-31T09:01:00Z, last line 2026-01-31T09:28:00Z, sealed
Rules: {digest} (names are those of these rules)
Technician: Ann; qualified for live work: no
Machine: Test machine
Plate values typed: fill_coil 900 ohm
Complaints: Boiler does not fill
Search ended: found
Parts: fill coil
"""


def test_the_head_says_who_what_and_how_it_ended(tmp_path: Path) -> None:
    base = small_knowledge().base
    lines = told(job_at(tmp_path / "7.jsonl", COIL_JOB), base)
    assert lines[: HEAD.count("\n")] == HEAD.format(digest=base.digest[:12]).splitlines()


# Bits and shares are left out here: they are held against scipy and the planner's own definition elsewhere.
WEIGHED = re.compile(r"[0-9.]+(?= bits|%)")
READING = """\
2. What does the coil read?
  Why: it was expected to tell _ bits in 9 min, with the moves isolate, open
    rather than: Does water arrive in the boiler? (_ bits in 2 min)
    rather than: Is there water before the valve? (_ bits in 12 min, with the moves isolate,
      open)
  Heaviest suspects then: _% fill valve: coil open (10 dB); _% fill valve: stuck shut (5 dB)
  Answer: 950 (sound)
    950 ohm: sound (675 ohm to 1120 ohm).
  So: The coil has continuity. [coil_is_sound; from answer 2]
    cleared: fill valve: coil open
Taken back: answer 2. What does the coil read?
  No longer holds: rule coil_is_sound
    open again: fill valve: coil open
"""


def test_a_question_is_told_with_why_its_reading_and_what_followed(tmp_path: Path) -> None:
    lines = told(job_at(tmp_path / "7.jsonl", COIL_JOB), small_knowledge().base)
    start = lines.index("2. What does the coil read?")
    told_here = lines[start : start + READING.count("\n")]
    assert [WEIGHED.sub("_", line) for line in told_here] == READING.splitlines()
    # Ten decibans against five are odds of 10 ** 0.5 to 1: the definition of the deciban.
    heavier, lighter = (int(share) for share in re.findall(r"([0-9]+)%", "\n".join(told_here)))
    assert heavier / lighter == pytest.approx(10**0.5, rel=0.05) and heavier + lighter <= 100


TREES = [
    pytest.param(
        COIL_JOB,
        [
            "FOUND: valve.coil_open",
            "  because: A coil without continuity cannot lift its plunger. [coil_is_open]",
            "    answer 3: What does the coil read? OL (open)",
        ],
        id="one rule, one answer",
    ),
    pytest.param(
        STUCK_JOB,
        [
            "FOUND: valve.stuck",
            "  because: The coil is sound, water stands before the valve and none comes through. [stuck_valve]",
            "    answer 2: What does the coil read? 900 (sound)",
            "    answer 3: Does water arrive in the boiler? no",
            "    answer 4: Is there water before the valve? yes",
        ],
        id="one rule, three answers",
    ),
    pytest.param(
        DANGER_JOB,
        ["STOP! The boiler pressure is out of control. Pull the plug. [too_much_pressure]"],
        id="danger",
    ),
]


@pytest.mark.parametrize("lines, tree", TREES)
def test_reasons_go_down_to_the_numbered_answers_without_the_rules(
    tmp_path: Path, lines: tuple[str, ...], tree: list[str]
) -> None:
    told_lines = told(job_at(tmp_path / "7.jsonl", lines))
    start = told_lines.index(tree[0])
    assert told_lines[start : start + len(tree)] == tree


def test_what_is_left_rests_on_what_was_cleared() -> None:
    ledger = Ledger()
    for record in (
        Answered(1, "pump_runs", "yes", ("yes",), ("yes", "no")),
        Fired("pump_is_alive", ("answer 1",), "It runs."),
        Narrowed("pump.dead", ("present", "absent"), ("absent",), ("pump_is_alive",)),
        Narrowed("gas_valve.stuck", ("present", "absent"), ("absent",), ()),  # not on this machine
    ):
        ledger.tell(record)
    answer = Reason("answer", "1", "pump_runs yes")
    rule = Reason("rule", "pump_is_alive", "It runs.", (answer,))
    assert ledger.tree("valve.stuck", "left_by_elimination") == Reason(
        "fault",
        "valve.stuck",
        "left by elimination: everything else was cleared",
        (Reason("cleared", "pump.dead", "cleared", (rule,)),),
    )


def test_every_answer_and_every_rule_that_fired_is_told(tmp_path: Path) -> None:
    path = job_at(tmp_path / "7.jsonl", COIL_JOB)
    result = audit_trace(path)
    text = "\n".join(audit_in_words(result))
    answers = [record for record in result.trace.records if isinstance(record, Answered)]
    fired = [record for record in result.trace.records if isinstance(record, Fired)]
    assert len(answers) == 4 and len(fired) >= 4
    assert all(f"\n{record.number}. " in text for record in answers)
    assert all(f"[{record.rule}; from " in text for record in fired)


# ---------------------------------------------------------------- running again


def test_the_same_rules_reproduce_the_job(tmp_path: Path) -> None:
    base = small_knowledge().base
    assert told(job_at(tmp_path / "7.jsonl", COIL_JOB), base, base)[-1] == "Reproduced exactly."


def test_edited_rules_show_what_they_change(tmp_path: Path) -> None:
    from expert.language.load import load_rules

    rules = small_rules_folder(tmp_path / "rules")
    circuit = rules / "circuits" / "fill.yaml"
    circuit.write_text(circuit.read_text("utf-8").replace("because: It runs.", "because: It is heard."), "utf-8")
    lines = told(job_at(tmp_path / "7.jsonl", COIL_JOB), None, load_rules(rules))
    start = lines.index("Run again with other rules than those of the job.")
    assert lines[start + 1 : start + 3] == [
        "Reproduced: nothing is decided otherwise.",
        "Said otherwise now, and deciding nothing: 1 place.",
    ]
    assert lines[start + 3].endswith("fired: text was 'It runs.', now it is 'It is heard.'")


# ---------------------------------------------------------------- the command


def audit(*arguments: object) -> Result:
    return CliRunner().invoke(main, ["audit", *map(str, arguments)])


def test_a_sound_trace(tmp_path: Path) -> None:
    result = audit(job_at(tmp_path / "7.jsonl", COIL_JOB), "--rerun", "--rules", small_rules_folder(tmp_path / "rules"))
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.endswith(
        "Reproduced exactly.\nVerdict: nothing was changed: the chain is whole, and the folder's register agrees.\n"
    )


def test_a_tampered_trace_is_told_and_refused(tmp_path: Path) -> None:
    path = job_at(tmp_path / "7.jsonl", COIL_JOB)
    lines = path.read_bytes().split(b"\n")
    number = next(n for n, line in enumerate(lines, 1) if b'"reading":950.0' in line)
    lines[number - 1] = lines[number - 1].replace(b'"reading":950.0', b'"reading":960.0')
    path.write_bytes(b"\n".join(lines))
    result = audit(path, "--rerun", "--rules", small_rules_folder(tmp_path / "rules"))
    assert result.exit_code == 1
    assert result.stderr == (
        f"{path}:{number}:1: the line was changed after it was written, or line {number - 1} was replaced "
        "[line-changed]\n"
    )
    # Both outputs as they appear at one terminal: the story, what is wrong with it, the verdict.
    assert result.output.endswith(
        f"  line {number}: answered: reading was 960, now it is 950\n{result.stderr}"
        "Verdict: DAMAGED, 1 problem. Do not rely on this trace.\n"
    )
    assert "Not reproduced: 1 difference." in result.stdout
    assert f"  line {number}: answered: reading was 960, now it is 950" in result.stdout


REFUSED = [
    pytest.param(b'{"a":1}\n', 1, "7.jsonl:1:1: a line is an object with the keys", id="no trace at all"),
    pytest.param(b"", 1, "7.jsonl:1:1: a trace begins with 'opened'", id="empty"),
    pytest.param(None, 2, "7.jsonl cannot be read: No such file or directory", id="not there"),
]


@pytest.mark.parametrize("content, code, message", REFUSED)
def test_what_cannot_be_audited(tmp_path: Path, content: bytes | None, code: int, message: str) -> None:
    path = tmp_path / "7.jsonl"
    if content is not None:
        path.write_bytes(content)
    result = audit(path)
    assert (result.exit_code, result.stdout) == (code, "")
    assert message in result.stderr


def test_an_open_job_is_noted_and_no_error(tmp_path: Path) -> None:
    path = job_at(tmp_path / "7.jsonl", (*INTAKE, "yes", "yes"))
    result = audit(path)
    assert result.exit_code == 0
    assert "the job is open: the trace has no seal yet [not-sealed]" in result.stderr
    assert result.stdout.startswith("Job 7: open\n")


def test_json_holds_the_same(tmp_path: Path) -> None:
    data: dict[str, Any] = json.loads(audit(job_at(tmp_path / "7.jsonl", COIL_JOB), "--json").stdout)
    asked = [event for event in data["events"] if event["kind"] == "asked"]
    found = [event for event in data["events"] if event["kind"] == "found"]
    assert data["good"] and data["problems"] == [] and data["head"]["ending"] == "repaired"
    assert [event["answered"]["text"] for event in asked] == ["yes", "950", "OL", "yes"]
    assert asked[2]["answered"]["reading"] == "inf"
    assert asked[2]["concluded"]["fired"] == [
        {
            "rule": "coil_is_open",
            "text": "A coil without continuity cannot lift its plunger.",
            "because": ["answer 3"],
        }
    ]
    assert found[0]["reasons"]["because"][0]["because"] == [
        {"kind": "answer", "id": "3", "says": "What does the coil read? OL (open)", "because": []}
    ]


def test_data_is_plain_json_for_every_kind_of_job(tmp_path: Path) -> None:
    for name, lines in {"a": COIL_JOB, "b": STUCK_JOB, "c": DANGER_JOB, "d": ELIMINATED}.items():
        json.dumps(audit_as_data(audit_trace(job_at(tmp_path / f"{name}.jsonl", lines))), allow_nan=False)


def test_control_sequences_in_a_trace_do_not_reach_the_terminal(tmp_path: Path) -> None:
    path = job_at(tmp_path / "7.jsonl", (*INTAKE, "note \x1b]0;title\x07 red \x1b[31m"))
    assert not any("\x1b" in line or "\x07" in line for line in told(path))
