"""The manual of the language: its examples load, and its tables name every code and nothing else."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from expert.desk.result import result_of
from expert.desk.unattended import play
from expert.engine.knowledge import knowledge_of
from expert.job.state.shop import Shop
from expert.language.checks import CODES
from expert.language.keys import CONCLUSIONS, QUESTION, RULE
from expert.language.load import read_rules
from expert.language.worked.cases import read_cases
from expert.language.worked.job_answers import read_answers
from expert.trade.quantities.units import KINDS
from expert.workbench.cases import CODES as CASE_CODES
from expert.workbench.cases import run_case
from expert.workbench.checks import CODES as ADVICE_CODES
from expert.workbench.proofs import CODES as PROOF_CODES
from tests.language.make_manual import with_tables

ROOT = Path(__file__).parents[2]
MANUAL = (ROOT / "rules" / "README.md").read_text(encoding="utf-8")
_BLOCK = re.compile(r"```yaml\n# (\S+)(?: \((\w+)\))?\n(.*?)```", re.DOTALL)
_ROW = re.compile(r"^\| `([a-z0-9-]+)` \| (.+?) \| (.+?) \|$", re.MULTILINE)


def examples() -> dict[str, str]:
    """The files that the examples make up: blocks of one file in turn, a block `(key)` put under that key."""
    files: dict[str, str] = {}
    for path, key, text in _BLOCK.findall(MANUAL):
        if key:
            there = files[path].index(f"\n{key}:\n") + len(f"\n{key}:\n")
            files[path] = files[path][:there] + text + files[path][there:]
        else:
            files[path] = files.get(path, "") + text
    return files


def test_every_fenced_block_is_an_example_that_is_read() -> None:
    assert MANUAL.count("```") == 2 * len(_BLOCK.findall(MANUAL)) > 20


def test_the_examples_load() -> None:
    files = examples()
    apart = {path: files.pop(path) for path in list(files) if path.startswith("cases/") or path == "answers.yaml"}
    base = read_rules(files)
    answers = read_answers("answers.yaml", apart.pop("answers.yaml"), base)
    cases = read_cases(apart, base)
    assert len(base.rules) == 10 and len(cases) == 2 and answers.complaints == ("cups_too_hot",)


def test_the_examples_come_out_as_the_manual_says() -> None:
    files = examples()
    apart = {path: files.pop(path) for path in list(files) if path.startswith("cases/") or path == "answers.yaml"}
    knowledge = knowledge_of(read_rules(files))
    answers = read_answers("answers.yaml", apart.pop("answers.yaml"), knowledge.base)
    shop = Shop(frozenset(knowledge.base.instruments))
    for case in read_cases(apart, knowledge.base):
        assert [str(problem) for problem in run_case(knowledge, shop, case).problems] == []
    job, records = play(knowledge, shop, answers, "1")
    found = [finding["fault"] for finding in result_of(job, records, "")["findings"]]
    assert (job.outcome, found) == ("stopped", ["warmer_thermostat.welded_shut"])


def test_the_tables_tell_what_every_code_means() -> None:
    rows = {code: meaning for code, meaning, _ in _ROW.findall(MANUAL.partition("## Reading the messages")[2])}
    assert rows == {**CODES, **PROOF_CODES, **ADVICE_CODES, **CASE_CODES}


def test_every_code_in_the_program_has_a_meaning() -> None:
    written: set[str] = set()
    for file in [*(ROOT / "expert/language").rglob("*.py"), *(ROOT / "expert/workbench/checks").rglob("*.py")]:
        text = file.read_text(encoding="utf-8")
        written |= set(
            re.findall(r'"([a-z]+(?:-[a-z0-9]+)+|tab|tag|alias|anchor|formula|cycle|indistinguishable)"', text)
        )
    assert written - {"utf-8", "utf-8-sig"} == {*CODES, *ADVICE_CODES}


def test_the_key_tables_are_those_of_the_language() -> None:
    """Made by `python -m tests.language.make_manual`."""
    assert with_tables(MANUAL) == MANUAL


@pytest.mark.parametrize("word", [*QUESTION.names, *RULE.names, *CONCLUSIONS.names, *KINDS])
def test_the_manual_has_every_word_of_the_language(word: str) -> None:
    assert re.search(rf"\b{word}\b", MANUAL)
