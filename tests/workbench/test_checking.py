"""`expert check` as a command: as data, with a code explained, with witnesses, and after every edit."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.workbench.checking import looks
from expert.workbench.checks import CODES
from expert.workbench.manual import explained
from tests.language.small_base import SMALL

EXPLAINS = "        explains: [no_fill]\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for path, text in SMALL.items():
        file = tmp_path / path
        file.parent.mkdir(exist_ok=True)
        file.write_text(text.replace(EXPLAINS, f"{EXPLAINS}        shows: {{level: low}}\n"), encoding="utf-8")
    return tmp_path


def run(*words: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(main, ["check", *words])
    return result.exit_code, result.stdout, result.stderr


def test_advice_is_no_failure_and_is_data(folder: Path) -> None:
    code, out, _ = run(str(folder), "--json")
    data = json.loads(out)
    assert code == 0 and not data["refused"] and not data["problems"]
    assert data["counts"]["machines"] == 1 and data["counts"]["circuits"] == 1
    assert {found["code"] for found in data["advice"]} <= CODES.keys() and data["advice"]
    assert all(found["line"] > 0 and found["path"].startswith(str(folder)) for found in data["advice"])


def test_a_confirm_that_is_not_proved_leaves_with_1(folder: Path) -> None:
    file = folder / "circuits/tank.yaml"
    file.write_text(SMALL["circuits/tank.yaml"], encoding="utf-8")
    code, out, err = run(str(folder), "--no-advice")
    assert (code, out.partition(": ")[2]) == (1, "1 problem, 0 pieces of advice\n")
    assert err == (
        f"{file}:42:12: valve_is_stuck confirms valve.stuck, which does not show these answers; "
        "say so under its 'shows' [not-its-sign]\n"
    )
    assert [found["code"] for found in json.loads(run(str(folder), "--json")[1])["problems"]] == ["not-its-sign"]


def test_refused_rules_are_data_and_leave_with_2(folder: Path) -> None:
    file = folder / "circuits/tank.yaml"
    file.write_text(SMALL["circuits/tank.yaml"].replace("title: Tank", "titel: Tank"), encoding="utf-8")
    code, out, _ = run(str(folder), "--json")
    found = json.loads(out)
    assert (code, found["refused"], found["counts"]) == (2, True, {})
    assert found["problems"] == [
        {
            "path": str(file),
            "line": 2,
            "column": 1,
            "code": "unknown-key",
            "message": "'titel' is not a key of a circuit file; did you mean title?",
            "is_advice": False,
        }
    ]
    assert run(str(folder)) == (
        2,
        "",
        f"{file}:2:1: 'titel' is not a key of a circuit file; did you mean title? [unknown-key]\n"
        "1 problem: the rules are not used\n",
    )


@pytest.mark.parametrize("code", CODES)
def test_every_piece_of_advice_is_explained_from_the_manual(code: str) -> None:
    assert explained(code).startswith(f"{code}: {CODES[code]}\nWhat to do: ")


def test_a_code_is_explained_and_a_wrong_one_is_refused() -> None:
    assert run("--explain", "tab") == (
        0,
        "tab: A tab stands in the text; only spaces may indent.\n"
        "What to do: Put spaces. Most editors can do this for the whole file.\n",
        "",
    )
    assert run("--explain", "never-firs") == (2, "", "there is no code 'never-firs'; did you mean never-fires?\n")


def test_a_witness_is_the_answers_that_find_a_fault(folder: Path) -> None:
    _, out, _ = run(str(folder), "--witness", "--no-advice")
    lines = out.splitlines()
    assert lines[0] == "one_boiler:" and any(line.startswith("  valve.stuck: ") for line in lines)


def test_watching_tells_what_an_edit_did_and_undid(folder: Path) -> None:
    file = folder / "circuits/tank.yaml"
    sound = file.read_text(encoding="utf-8")
    edits = iter([sound.replace("name: valve", "nmae: valve", 1), sound])

    def wait() -> None:
        file.write_text(next(edits), encoding="utf-8")

    seen = looks(folder, with_advice=False, wait=wait)
    assert not next(seen).problems
    codes = [problem.code for problem in next(seen).problems]
    assert codes == ["unknown-key"]
    assert not next(seen).problems
