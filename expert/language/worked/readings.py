"""Worked readings (`readings` in `cases/*.yaml`): numbers as they are typed, and the outcome that each must mean."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from expert.language import keys
from expert.language.folder import file_text
from expert.language.load import tree_of
from expert.language.model import Position, RuleBase
from expert.language.problems import Problem, RulesRefused
from expert.language.reading.draft import entries
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.sentences import records as say
from expert.language.worked.job_answers import names_of


@dataclass(frozen=True, slots=True)
class WorkedReading:
    """One number as it is typed at a question, and the outcome that it alone must mean."""

    question: str
    outcome: str
    typed: str
    at: Position


def load_readings(folder: Path, base: RuleBase) -> tuple[WorkedReading, ...]:
    """The worked readings in a rule base folder, in the order of file names. Raises RulesRefused with every problem."""
    problems: list[Problem] = []
    found: list[WorkedReading] = []
    names = names_of(base)
    for file in sorted((folder / "cases").glob("*.yaml")):
        text, refused = file_text(file)
        problems += refused
        _, root = tree_of(str(file), text, problems)
        if root is not None:
            reader = Reader(str(file), names, problems)
            found += _in_file(reader, Record(reader, root, keys.CASES_FILE))
    if problems:
        raise RulesRefused(problems)
    return tuple(found)


def _in_file(reader: Reader, file: Record) -> list[WorkedReading]:
    found = []
    for question, key, value in entries(reader, file.node_of("readings"), "'readings'"):
        if not reader.name(key, "question"):
            continue
        for outcome, outcome_key, typed in entries(reader, value, say.the_readings_of(question)):
            if reader.outcomes(outcome_key, question):
                for item in reader.one_or_more(typed, say.what_is_typed_for(outcome)):
                    text = reader.text(item, "a reading")
                    found.append(WorkedReading(question, outcome, text, reader.at(item)))
    return found
