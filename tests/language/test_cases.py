"""Worked cases and answers files: what they hold, and what is refused in them."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent

import pytest

from expert.language.load import read_rules
from expert.language.problems import RulesRefused
from expert.language.worked.cases import Case, Expectation, load_cases, read_cases
from expert.language.worked.job_answers import load_answers, load_machine, read_answers
from expert.trade.quantities.units import Quantity
from tests.language.small_base import MACHINE, SMALL, expected_problems

BASE = read_rules(SMALL)
CASES = """\
cases:
  valve_is_found:
    says: A stuck valve is found.
    source: example only
    machine: one_boiler
    plate: {element_power: 1.2 kW, rated_voltage: 240}
    complaints: [no_fill]
    qualified_for_live_work: yes
    arrives: plugged_in
    answers: {level: low, coil: 37.8}
    rest: sound
    after_repair: {level: normal}
    expect:
      outcome: found
      faults: [valve.stuck]
      asks: [level, coil]
      never_asks: runs
      cautions: [isolate]
  nothing_is_known:
    says: Nothing can be told.
    source: example only
    machine: one_boiler
    complaints: leaks
    answers: {}
    expect: {outcome: unresolved, normal: [leaks]}
"""


def test_a_case_becomes_a_record() -> None:
    first, second = read_cases({"cases/a.yaml": CASES}, BASE)
    assert (first.id, first.says, first.source) == ("valve_is_found", "A stuck valve is found.", "example only")
    job = first.job
    assert (job.machine, job.machine_type, job.complaints) == ("one_boiler", BASE.machines["one_boiler"], ("no_fill",))
    assert job.plate == {"element_power": "1.2 kW", "rated_voltage": "240"}
    assert job.answers == {"level": "low", "coil": "37.8"}
    assert (job.qualified_for_live_work, job.arrives, job.rest) == (True, "plugged_in", "sound")
    assert job.after_repair == {"level": "normal"}
    assert first.expect == Expectation("found", ("valve.stuck",), ("runs",), ("level", "coil"), ("isolate",), ())
    assert (second.job.answers, second.job.after_repair, second.job.rest) == ({}, None, "")
    assert (second.job.qualified_for_live_work, second.job.arrives) == (False, "")
    assert second.expect.normal == ("leaks",)


CASES_REFUSED = """\
cases:
  Valve:  # 3: 'Valve' is no id; small letters, digits and single underscores, as in coil_is_open [not-snake-case]
    says: A stuck valve is found.
    source: example only
    machine: one_boler  # 14: there is no machine 'one_boler'; did you mean one_boiler? [unknown-name]
    complaints: [no_fil]  # 18: there is no complaint 'no_fil'; did you mean no_fill? [unknown-name]
    answers: {levl: low}  # 15: there is no question 'levl'; did you mean level? [unknown-name]
    rest: good  # 11: 'rest' is 'good'; it may be sound [unknown-word]
    expect: {outcome: found}
  no_expectation:  # 3: a case must have 'expect' [missing-key]
    says: A stuck valve is found.
    source: example only
    machine: one_boiler
    plate: {element_power: 5 V}  # 28: '5 V' is a voltage; a power is wanted, in W or kW [not-a-quantity]
    complaints: []  # 17: 'complaints' is empty; a job has at least one [empty-value]
    arrives: unplugged  # 14: there is no arrival 'unplugged'; there is plugged_in [unknown-name]
  other:
    says: A stuck valve is found.
    source: example only
    machine: one_boiler
    complaints: [no_fill]
    expect: {outcome: Done!, faults: [valve.stuk], asks: [levels]}  # 23: 'outcome' is 'Done!'; it may be found, left_by_elimination, narrowed, normal, stopped, handed_over, unresolved [unknown-word] || 39: there is no fault 'valve.stuk'; did you mean valve.stuck? [unknown-name] || 59: there is no question 'levels'; did you mean level? [unknown-name]
"""  # noqa: E501


def test_what_is_refused_in_cases() -> None:
    files = {"cases/a.yaml": CASES_REFUSED}
    with pytest.raises(RulesRefused) as caught:
        read_cases(files, BASE)
    assert [str(problem) for problem in caught.value.problems] == expected_problems(files)


def test_one_id_in_two_files_is_refused() -> None:
    with pytest.raises(RulesRefused) as caught:
        read_cases({"cases/a.yaml": CASES, "cases/b.yaml": CASES}, BASE)
    assert [str(problem) for problem in caught.value.problems] == [
        "cases/b.yaml:2:3: there is already a case 'valve_is_found', at cases/a.yaml:2:3 [duplicate-id]",
        "cases/b.yaml:19:3: there is already a case 'nothing_is_known', at cases/a.yaml:19:3 [duplicate-id]",
    ]


def test_cases_of_a_folder_in_the_order_of_its_files(tmp_path: Path) -> None:
    assert load_cases(tmp_path, BASE) == ()
    (tmp_path / "cases").mkdir()
    (tmp_path / "cases" / "b.yaml").write_text(CASES)
    (tmp_path / "cases" / "a.yaml").write_text(CASES.replace("valve_is", "it_is").replace("nothing_is", "little_is"))
    found: tuple[Case, ...] = load_cases(tmp_path, BASE)
    assert [case.id for case in found] == ["it_is_found", "little_is_known", "valve_is_found", "nothing_is_known"]


def test_an_answers_file() -> None:
    job = read_answers("a.yaml", "machine: one_boiler\ncomplaints: [leaks]\nanswers: {runs: can't tell}\n", BASE)
    assert (job.machine, job.complaints, job.answers) == ("one_boiler", ("leaks",), {"runs": "can't tell"})


def test_an_answers_file_with_a_machine_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "mine.yaml").write_text(MACHINE.replace("by_hand", "automatic").replace("230 V", "120 V"))
    (tmp_path / "answers.yaml").write_text("machine: ./mine.yaml\ncomplaints: [leaks]\n")
    job = load_answers(tmp_path / "answers.yaml", BASE)
    assert job.machine_type.plate["rated_voltage"] == Quantity(120.0, "ac_voltage")
    assert load_machine(tmp_path / "mine.yaml", BASE) == job.machine_type


def test_what_is_refused_in_an_answers_file(tmp_path: Path) -> None:
    (tmp_path / "mine.yaml").write_text("machine: mine\ntitle: Mine\nlayout: Mine.\nfeatures: {fill: none}\n")
    file = tmp_path / "answers.yaml"
    file.write_text(
        dedent(
            """
            machine: mine.yaml
            complaint: [leaks]
            says: nothing
            answers: {level: [low]}
            """
        )
    )
    with pytest.raises(RulesRefused) as caught:
        load_answers(file, BASE)
    assert [str(problem) for problem in caught.value.problems] == [
        f"{file}:3:1: 'complaint' is not a key of an answers file; did you mean complaints? [unknown-key]",
        f"{file}:4:1: 'says' is not a key of an answers file; it may have machine, complaints, plate, "
        "qualified_for_live_work, arrives, answers, rest, after_repair, after [unknown-key]",
        f"{file}:5:18: the answer to level is a list; a text is wanted [wrong-shape]",
        f"{tmp_path}/mine.yaml:4:18: 'none' is not an outcome of machine.fill; it has automatic, by_hand "
        "[unknown-outcome]",
    ]


def test_a_machine_file_that_is_not_there() -> None:
    with pytest.raises(RulesRefused) as caught:
        read_answers("a.yaml", "machine: ./none.yaml\ncomplaints: [leaks]\n", BASE)
    assert [str(problem) for problem in caught.value.problems] == [
        "a.yaml:1:10: there is no machine file './none.yaml' [unreadable-file]"
    ]


@pytest.mark.parametrize(
    ("name", "content", "why"),
    [
        ("secret", "password: [hunter2", "its name would end in .yaml"),
        ("secret.yaml", "password: [hunter2", "it has no key 'machine'"),
        ("secret.yaml", "hunter2", "it has no key 'machine'"),
        ("secret.yaml", "x: {machine: hunter2}", "it has no key 'machine'"),
    ],
)
def test_a_file_that_is_no_machine_file_is_not_quoted(tmp_path: Path, name: str, content: str, why: str) -> None:
    secret = tmp_path / name
    secret.write_text(content, encoding="utf-8")
    with pytest.raises(RulesRefused) as caught:
        read_answers("a.yaml", f"machine: {secret}\ncomplaints: [leaks]\n", BASE)
    assert [str(problem) for problem in caught.value.problems] == [
        f"a.yaml:1:10: '{secret}' is no machine file: {why} [unreadable-file]"
    ]
