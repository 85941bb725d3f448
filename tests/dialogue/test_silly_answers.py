"""Values that the prompt would refuse, in answers files and worked cases: all reported at their places, none played."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.dialogue.command_line import Ran, Shop, run

HEAD = "machine: test_machine\ncomplaints: [will_not_fill]\n"
TYPE = "or: can't tell"
OHM = "a resistance is wanted, in ohm, kohm or Mohm, or OL. Or type: can't tell"


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop.at(tmp_path)


def refused(shop: Shop, *lines: str) -> Ran:
    """What is said of these problems, each 'line:column: message', of the answers file."""
    file = shop.rules.parent / "answers.yaml"
    return Ran(2, "", "".join(f"{file}:{line} [not-an-answer]\n" for line in lines))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("answers: {pump_runs: maybe}", f"3:22: pump_runs: 'maybe' is no answer here. Type yes or no, {TYPE}"),
        (
            "answers: {hiss_ends: clack}",
            f"3:22: hiss_ends: 'clack' is no answer here. Type 1 to 2, or one of click, never, {TYPE}",
        ),
        (
            "answers: {hiss_ends: 3}",
            f"3:22: hiss_ends: '3' is no answer here. Type 1 to 2, or one of click, never, {TYPE}",
        ),
        ("answers: {coil: 900 bar}", f"3:17: coil: '900 bar' is a pressure; {OHM}"),
        ("answers: {coil: twelve}", f"3:17: coil: 'twelve' has no number; {OHM}"),
        (
            "answers: {boiler_pressure: 900 bar}",
            "3:28: boiler_pressure: 900 bar cannot be right for a gauge pressure; -1.10 bar to 40.0 bar would do. "
            "Or type: can't tell",
        ),
        (
            "answers: {pump_runs: hand over}",
            "3:22: pump_runs: 'hand over' is a command, no answer. Write an answer, or can't tell",
        ),
        (
            "answers: {pump_runs: take back 2}",
            "3:22: pump_runs: 'take back 2' is a command, no answer. Write an answer, or can't tell",
        ),
        (
            "answers: {}\nafter_repair:\n  water_arrives: perhaps",
            f"5:18: water_arrives: 'perhaps' is no answer here. Type yes or no, {TYPE}",
        ),
        (
            "answers: {}\nplate: {fill_coil: OL}",
            "4:20: fill_coil: a plate states a number, not over range.",
        ),
    ],
    ids=[
        *("yes or no", "choice", "number of a choice", "unit", "no number", "beyond belief", "command", "take back"),
        *("after the repair", "plate"),
    ],
)
def test_a_silly_value_is_reported_where_it_stands(shop: Shop, text: str, message: str) -> None:
    assert shop.play(f"{HEAD}{text}\n") == refused(shop, message)
    assert not list(shop.jobs.glob("*.jsonl")), "a job was begun"


def test_all_silly_values_are_reported_at_once(shop: Shop) -> None:
    text = "answers:\n  pump_runs: maybe\n  coil: -3 ohm\n  water_arrives: no\nafter_repair:\n  hose_is_dry: damp\n"
    assert shop.play(HEAD + text) == refused(
        shop,
        f"4:14: pump_runs: 'maybe' is no answer here. Type yes or no, {TYPE}",
        "5:9: coil: -3 ohm cannot be right for a resistance; 0 ohm to 2000 Gohm would do. Or type: can't tell",
        f"8:16: hose_is_dry: 'damp' is no answer here. Type yes or no, {TYPE}",
    )


@pytest.mark.parametrize(
    "text",
    ["can't tell", "can't tell it is too loud", '"?"', "Y", '"yes"', "nein"],
)
def test_what_the_prompt_takes_is_taken(shop: Shop, text: str) -> None:
    assert shop.play(f"{HEAD}answers:\n  pump_runs: {text}\n").code == 0


def test_worked_cases_are_refused_before_any_is_played(shop: Shop) -> None:
    file = shop.rules / "cases" / "fill.yaml"
    file.parent.mkdir()
    case = (
        "  {name}:\n    says: A test.\n    source: example only\n    machine: test_machine\n"
        "    complaints: will_not_fill\n    answers: {{pump_runs: {answer}}}\n    expect: {{outcome: narrowed}}\n"
    )
    rows = [("first", "maybe"), ("second", "no"), ("third", "never")]
    file.write_text("cases:\n" + "".join(case.format(name=name, answer=answer) for name, answer in rows), "utf-8")
    assert run("cases", shop.rules) == Ran(
        2,
        "",
        f"{file}:7:26: pump_runs: 'maybe' is no answer here. Type yes or no, or: can't tell [not-an-answer]\n"
        f"{file}:21:26: pump_runs: 'never' is no answer here. Type yes or no, or: can't tell [not-an-answer]\n",
    )
