"""Worked cases (`cases/*.yaml`): what a technician would type, and what should come of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from expert.language import keys
from expert.language.folder import file_text
from expert.language.load import tree_of
from expert.language.model import NOWHERE, Position, RuleBase
from expert.language.model.job_answers import JobAnswers
from expert.language.problems import Problem, RulesRefused
from expert.language.reading.draft import entries
from expert.language.reading.reader import Reader, is_snake_case
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.sentences import records as say
from expert.language.worked.job_answers import names_of, read_job
from expert.language.yaml.nodes import Scalar


@dataclass(frozen=True, slots=True)
class Expectation:
    """What should come of a case. `asks`: these questions, in this order, others between them allowed."""

    outcome: str
    faults: tuple[str, ...]
    never_asks: tuple[str, ...]
    asks: tuple[str, ...]
    cautions: tuple[str, ...]
    normal: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Case:
    """One worked case with its source."""

    id: str
    says: str
    source: str
    job: JobAnswers
    expect: Expectation
    at: Position = field(default=NOWHERE, compare=False)


def load_cases(folder: Path, base: RuleBase) -> tuple[Case, ...]:
    """The worked cases in a rule base folder, in the order of file names. Raises RulesRefused with every problem."""
    problems: list[Problem] = []
    texts: dict[str, str] = {}
    for file in sorted((folder / "cases").glob("*.yaml")):
        text, found = file_text(file)
        problems += found
        if not found:
            texts[str(file)] = text
    return _cases(texts, base, problems)


def read_cases(texts: Mapping[str, str], base: RuleBase) -> tuple[Case, ...]:
    """The worked cases in these texts (path -> text). Raises RulesRefused with every problem."""
    return _cases(texts, base, [])


def _cases(texts: Mapping[str, str], base: RuleBase, problems: list[Problem]) -> tuple[Case, ...]:
    names = names_of(base)
    cases: dict[str, Case] = {}
    first: dict[str, Position] = {}
    for path in sorted(texts):
        _, root = tree_of(path, texts[path], problems)
        if root is None:
            continue
        reader = Reader(path, names, problems)
        file = Record(reader, root, keys.CASES_FILE)
        for name, key, value in entries(reader, file.node_of("cases"), "'cases'"):
            if _new_id(reader, name, key, first):
                case = _case(Record(reader, value, keys.CASE, key), name, key, base)
                if case is not None:
                    cases[name] = case
    if problems:
        raise RulesRefused(problems)
    return tuple(cases.values())


def _new_id(reader: Reader, name: str, key: Scalar, first: dict[str, Position]) -> bool:
    if not is_snake_case(name):
        message = say.is_no_case_id(name[:60])
        reader.refuse(key, "not-snake-case", message)
    if name in first:
        reader.refuse(key, "duplicate-id", say.case_defined_twice(name, first[name]))
        return False
    first[name] = reader.at(key)
    return True


def _case(record: Record, name: str, key: Scalar, base: RuleBase) -> Case | None:
    job = read_job(record, base, key)
    node = record.node_of("expect")
    if node is None or job is None:
        return None
    expect = Record(record.reader, node, keys.EXPECTATION)
    return Case(
        id=name,
        job=job,
        expect=Expectation(**fields_of(expect)),
        at=record.reader.at(key),
        says=record.text("says"),
        source=record.text("source"),
    )
