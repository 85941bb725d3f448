"""Answers files that are not played: what is said, exit code 2, and no job begun."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.dialogue.command_line import Ran, Shop, run
from tests.dialogue.small_rules import MACHINE

HEAD = "machine: test_machine\ncomplaints: [will_not_fill]\n"


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop.at(tmp_path)


@pytest.mark.parametrize(
    ("text", "messages"),
    [
        ("", ["1:1: the file is empty [empty-file]"]),
        (
            "complaints: [will_not_fill]\nanswers: {}\n",
            ["1:1: an answers file must have 'machine' [missing-key]"],
        ),
        (
            "machine: test_machin\ncomplaints: [will_not_fil]\nanswers: {pump_run: yes}\n",
            [
                "1:10: there is no machine 'test_machin'; did you mean test_machine? [unknown-name]",
                "2:14: there is no complaint 'will_not_fil'; did you mean will_not_fill? [unknown-name]",
                "3:11: there is no question 'pump_run'; did you mean pump_runs? [unknown-name]",
            ],
        ),
        (HEAD + "answer: {}\n", ["3:1: 'answer' is not a key of an answers file; did you mean answers? [unknown-key]"]),
        (
            HEAD + "answers: {}\nqualified_for_live_work: perhaps\n",
            ["4:26: 'qualified_for_live_work' is 'perhaps'; write yes or no [not-yes-or-no]"],
        ),
        (
            HEAD + "answers: {}\narrives: warm\n",
            ["4:10: there is no arrival 'warm'; there is cold, plugged [unknown-name]"],
        ),
        (
            HEAD + "answers: {}\nplate: {fill_coil: 950 bar}\n",
            ["4:20: '950 bar' is a pressure; a resistance is wanted, in ohm, kohm or Mohm, or OL [not-a-quantity]"],
        ),
        (
            "machine: mine.yaml\n" + HEAD.splitlines()[1] + "\nanswers: {}\n",
            ["1:10: there is no machine file 'mine.yaml' [unreadable-file]"],
        ),
        (
            HEAD + "answers:\n  pump_runs: yes\n  pump_runs: no\n",
            ["5:3: 'pump_runs' stands twice in this mapping; it is already on line 4 [duplicate-key]"],
        ),
        (HEAD + "answers:\n\tpump_runs: yes\n", ["4:1: a tab stands here; use spaces [tab]"]),
    ],
    ids=["empty", "no machine", "names", "key", "not yes or no", "arrival", "plate", "machine file", "twice", "tab"],
)
def test_a_file_that_cannot_be_played(shop: Shop, text: str, messages: list[str]) -> None:
    file = shop.rules.parent / "answers.yaml"
    assert shop.play(text) == Ran(2, "", "".join(f"{file}:{message}\n" for message in messages))
    assert not list(shop.jobs.glob("*.jsonl")), "a job was begun"


def test_a_broken_machine_file_is_blamed_itself(shop: Shop) -> None:
    file = shop.rules.parent / "mine.yaml"
    file.write_text(MACHINE.replace("fill: automatic", "fill: automatik"), "utf-8")
    ran = shop.play("machine: mine.yaml\ncomplaints: [will_not_fill]\nanswers: {}\n")
    assert ran == Ran(
        2,
        "",
        f"{file}:4:18: 'automatik' is not an outcome of machine.fill; it has automatic, none; did you mean automatic? "
        "[unknown-outcome]\n",
    )


def test_a_file_that_is_not_there(shop: Shop) -> None:
    file = shop.rules.parent / "nowhere.yaml"
    assert shop.play_file(file) == Ran(2, "", f"{file}:1:1: there is no such file [unreadable-file]\n")


def test_json_needs_an_answers_file(shop: Shop) -> None:
    assert run("bench", "--rules", shop.rules, "--json") == Ran(2, "", "--json goes with --answers FILE\n")


def test_a_job_number_that_is_taken(shop: Shop) -> None:
    file = shop.rules.parent / "answers.yaml"
    file.write_text(HEAD + "answers: {pump_runs: no}\n", "utf-8")
    words = ("bench", "--rules", shop.rules, "--jobs", shop.jobs, "--job", "7", "--answers", file, "--json")
    assert run(*words).code == 0
    before = shop.trace().read_bytes()
    again = run(*words)
    assert (again.code, again.out) == (2, "")
    assert again.err.startswith(f"{shop.trace()} is there already")
    assert shop.trace().read_bytes() == before


def test_rules_that_are_refused_play_nothing(shop: Shop) -> None:
    shop.edit_rules("then: {confirm: pump.dead}", "then: {confirm: pump.ded}")
    ran = shop.play(HEAD + "answers: {}\n")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.splitlines()[-1] == "1 problem: the rules are not used"
