"""Answers files (`expert bench --answers FILE`) and the same fields inside a worked case.

Answers stay text, as typed at the prompt: the dialogue makes of them what it makes of typing. Names are checked here.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from expert.language import keys
from expert.language.folder import file_text
from expert.language.load import tree_of
from expert.language.model import NOWHERE, Machine, Position, RuleBase
from expert.language.model.job_answers import JobAnswers
from expert.language.problems import Problem, RulesRefused
from expert.language.reading.draft import Draft, entries
from expert.language.reading.names import Names
from expert.language.reading.quantities import read_one
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.reading.survey import Survey
from expert.language.records.short_files import read_machine
from expert.language.sentences import records as say
from expert.language.worked.plate_choices import conditions_behind_limits, features_behind_limits
from expert.language.yaml.nodes import Node, Pairs
from expert.trade.quantities.ranges import written_range


def load_answers(file: Path, base: RuleBase) -> JobAnswers:
    """One answers file. Raises RulesRefused with every problem."""
    text, problems = file_text(file)
    if problems:
        raise RulesRefused(problems)
    return read_answers(str(file), text, base)


def read_answers(path: str, text: str, base: RuleBase) -> JobAnswers:
    """One answers file from its text; a machine's path counts from the folder of `path`. Raises RulesRefused."""
    problems: list[Problem] = []
    _, root = tree_of(path, text, problems)
    job = None
    if root is not None:
        reader = Reader(path, names_of(base), problems)
        job = read_job(Record(reader, root, keys.ANSWERS_FILE), base, root)
    if problems or job is None:
        raise RulesRefused(problems)
    return job


def load_machine(file: Path, base: RuleBase) -> Machine:
    """A machine file that stands outside the rule base. Raises RulesRefused with every problem."""
    text, problems = file_text(file)
    if problems:
        raise RulesRefused(problems)
    return read_machine_text(str(file), text, base)


def read_machine_text(path: str, text: str, base: RuleBase) -> Machine:
    """A machine from the text of its file. Raises RulesRefused with every problem."""
    problems: list[Problem] = []
    draft = _outside(base)
    _, root = tree_of(path, text, problems)
    Survey(draft.names, problems).declare("machine", path, root)
    if root is not None:
        read_machine(Reader(path, draft.names, problems), root, draft)
    if problems:
        raise RulesRefused(problems)
    return next(iter(draft.machines.values()))


def names_of(base: RuleBase) -> Names:
    """The names of a finished rule base, for reading files that mention them."""
    names = Names()
    for space, records in (
        ("question", base.questions),
        ("fault", base.faults),
        ("complaint", base.complaints),
        ("caution", base.cautions),
        ("feature", base.features),
        ("plate value", base.plate_values),
        ("machine", base.machines),
        ("arrival", base.bench.arrives),
    ):
        names.places[space] = dict.fromkeys(records, NOWHERE)
    names.outcomes = dict(base.outcomes())
    return names


def _outside(base: RuleBase) -> Draft:
    """A draft in which a machine from elsewhere can be read, even one that bears a shipped type's name."""
    names = names_of(base)
    names.places["machine"] = {}
    return Draft(names, features=dict(base.features), plate_values=dict(base.plate_values))


def read_job(record: Record, base: RuleBase, at: Node) -> JobAnswers | None:
    """The fields that answers files and cases share; None if the machine is not known."""
    reader = record.reader
    machine = _machine(record, base)
    arrives = record.node_of("arrives")
    plate = record.node_of("plate")
    after = record.node_of("after_repair")
    complaints = record.names("complaints", "complaint")
    complained = record.node_of("complaints")
    if complained is not None and not record.list_of("complaints"):
        reader.refuse(complained, "empty-value", say.COMPLAINTS_ARE_EMPTY)
    job = JobAnswers(
        machine=record.text("machine"),
        machine_type=machine or _NO_MACHINE,
        complaints=complaints,
        answers=_answers(reader, record.node_of("answers"), "'answers'"),
        plate=MappingProxyType(_plate(reader, plate, base)),
        qualified_for_live_work=record.yes("qualified_for_live_work"),
        arrives="" if arrives is None else reader.name(arrives, "arrival"),
        rest=record.word("rest", ("sound",)),
        after_repair=None if after is None else _answers(reader, after, "'after_repair'"),
        after=MappingProxyType(_after(reader, record.node_of("after"))),
        at=reader.at(at),
        places=MappingProxyType(_places(record)),
    )
    return job if machine is not None else None


def _plate(reader: Reader, node: Node | None, base: RuleBase) -> dict[str, str]:
    """What is typed at the plate prompt: ratings, the features behind limits, and conditions such as the altitude."""
    features, conditions = features_behind_limits(base), conditions_behind_limits(base)
    plate = {}
    for name, key, value in entries(reader, node, "'plate'"):
        text = reader.text(value, f"'{name}'")
        if name in features:
            reader.outcomes(value, f"machine.{name}")
        elif name in base.plate_values:
            # A range such as 220-240 V is no single quantity; the plate prompt knows what it means.
            if written_range(text) is None:
                read_one(reader, value, base.plate_values[name].kind, base.plate_values[name].unit)
        elif name in conditions:
            read_one(reader, value, conditions[name].kind)
        elif name in base.features:
            message = say.nothing_rests_on_feature(name)
            reader.refuse(key, "unknown-name", message)
            continue
        else:
            instead = reader.names.instead(name, [*base.plate_values, *features, *conditions])
            reader.refuse(key, "unknown-name", say.there_is_no_plate_value(name[:60], instead))
            continue
        plate[name] = text
    return plate


_NO_MACHINE = Machine("", "", "", MappingProxyType({}), MappingProxyType({}))


def _answers(reader: Reader, node: Node | None, what: str) -> Mapping[str, str]:
    """Question -> what is typed. May be empty: then nothing can be told."""
    if node is None or (type(node) is Pairs and not node.entries):
        return MappingProxyType({})
    answers = {}
    for question, key, value in entries(reader, node, what):
        if reader.name(key, "question"):
            answers[question] = reader.text(value, say.the_answer_to(question))
    return MappingProxyType(answers)


def _after(reader: Reader, node: Node | None) -> dict[str, Mapping[str, str]]:
    """Fault -> the answers that hold once it is mended."""
    after = {}
    for fault, key, value in entries(reader, node, "'after'"):
        if reader.name(key, "fault"):
            after[fault] = _answers(reader, value, say.the_answers_after(fault))
    return after


def _places(record: Record) -> dict[tuple[str, str], Position]:
    """Where each value stands that is typed as it is written."""
    nodes = {part: record.node_of(part) for part in ("plate", "answers", "after_repair")}
    after = record.node_of("after")
    nodes |= {fault: value for fault, (_, value) in after.entries.items()} if type(after) is Pairs else {}
    return {
        (part, name): record.reader.at(value)
        for part, node in nodes.items()
        if type(node) is Pairs
        for name, (_, value) in node.entries.items()
    }


def _begins_as_a_machine(file: Path) -> bool:
    """Whether a file has the key of a machine file at the left edge, however wrong the rest may be."""
    text, problems = file_text(file)
    return bool(problems) or re.search(r"^machine[ \t]*:", text, re.MULTILINE) is not None


def _machine(record: Record, base: RuleBase) -> Machine | None:
    """A shipped machine type by its id, or the machine in a file, found from where the answers stand."""
    reader, node = record.reader, record.node_of("machine")
    text = record.text("machine")
    if node is None or not text:
        return None
    if not text.endswith((".yaml", ".yml")) and "/" not in text:
        return base.machines.get(reader.name(node, "machine"))
    if not text.endswith((".yaml", ".yml")):  # and not just any file of the computer, to be quoted in a message
        reader.refuse(node, "unreadable-file", say.no_machine_file_name(text[:120]))
        return None
    file = Path(reader.path).parent / text
    if not file.is_file() and not Path(text).is_file():
        reader.refuse(node, "unreadable-file", say.there_is_no_machine_file(text[:120]))
        return None
    file = file if file.is_file() else Path(text)
    if not _begins_as_a_machine(file):  # What else stands in it is nobody's business, and not quoted.
        reader.refuse(node, "unreadable-file", say.no_machine_in_file(text[:120]))
        return None
    try:
        return load_machine(file, base)
    except RulesRefused as refused:
        reader.problems.extend(refused.problems)
        return None
