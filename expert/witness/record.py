"""What the simulated machine answers to every question, fault by fault: kept in a file beside its table.

To ask the machine takes minutes; to look into the record takes none. So whoever judges rules judges them by the record,
and `python -m tests.workbench.make_record` makes it anew when the machine or its table has changed. Where rules and
machine are known to differ stands in a small file of its own.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import Any

from expert.language.shipped import shipped
from expert.language.yaml.nodes import Node, Pairs, Scalar
from expert.language.yaml.tree import read_nodes

SUFFIX, DIFFERS = ".seen.json", ".differs.yaml"


@dataclass(frozen=True, slots=True)
class Place:
    """A machine as it was made: what its plate says and what sort of sensor it has, in the words of the rules."""

    name: str
    plate: Mapping[str, str]
    features: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Shown:
    """One machine with one fault, or none (''). `ids`: the rules' names of the fault; `parts`: parts of the rules that
    are as they are because of it; `typed`: by question, what somebody who looks would type; `noticed`: what its owner
    would complain of, in the machine's own words."""

    place: str
    fault: str
    ids: tuple[str, ...]
    parts: tuple[str, ...]
    typed: Mapping[str, str]
    noticed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class MachineRecord:
    """The record of one machine type: where it was looked at, and what was seen. Each is itself, however alike.

    `lines`: by question, the digest of the line of the table by which it was answered.
    `complains`: by the machine's word for what its owner notices, the complaints of the rules that say so.
    `differs`: by rule, the faults over which rule and machine are known to differ, each with the reason; by fault, what
    is noticed beyond what it explains; by question, why a sound machine does not answer it soundly.
    """

    machine: str
    places: tuple[Place, ...]
    shown: tuple[Shown, ...]
    lines: Mapping[str, str] = field(default_factory=dict)
    complains: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    differs: Mapping[str, Mapping[str, str]] = field(default_factory=dict)


def record_files(rules: Path) -> tuple[Path, ...]:
    """The records beside the tables of a folder of rules."""
    return tuple(sorted((rules / "simulated").glob(f"*{SUFFIX}")))


@cache
def shipped_records() -> tuple[MachineRecord, ...]:
    """The records that come with the program."""
    return tuple(load_record(file) for file in record_files(shipped("rules")))


def load_record(file: Path) -> MachineRecord:
    """The record in a file, with the differences beside it. Raises OSError, or ValueError where it is no record."""
    try:
        record = _record_in(json.loads(file.read_text(encoding="utf-8")))
        return replace(record, differs=_differences(file.with_name(file.name.removesuffix(SUFFIX) + DIFFERS)))
    except (KeyError, TypeError, IndexError) as problem:
        raise ValueError(f"{file} is no record of a machine ({problem}); make it anew") from None


def _differences(file: Path) -> Mapping[str, Mapping[str, str]]:
    """What stands in the file of differences: rule -> fault -> reason. Raises ValueError for anything else."""
    if not file.is_file():
        return {}
    root, problems = read_nodes(str(file), file.read_text(encoding="utf-8"))
    if problems or not isinstance(root, Pairs):
        raise ValueError(str(problems[0]) if problems else f"{file}: rules are wanted, each with faults and reasons")
    return {rule: _reasons(file, node) for rule, (_, node) in root.entries.items()}


def _reasons(file: Path, node: Node) -> Mapping[str, str]:
    entries = node.entries.items() if isinstance(node, Pairs) else ()
    reasons = {fault: reason.text for fault, (_, reason) in entries if isinstance(reason, Scalar) and reason.text}
    if not entries or len(reasons) != len(entries):
        raise ValueError(f"{file}: each fault has its reason beside it")
    return reasons


def _record_in(data: Any) -> MachineRecord:
    places = tuple(Place(name, place["plate"], place["features"]) for name, place in data["places"].items())
    typed: list[dict[str, str]] = [{} for _ in data["shown"]]
    for question, answers in data["answers"].items():
        for text, numbers in answers.items():
            for number in numbers:
                typed[number][question] = text
    shown = tuple(
        Shown(row["place"], row["fault"], tuple(row["ids"]), tuple(row["parts"]), answers, tuple(row["noticed"]))
        for row, answers in zip(data["shown"], typed, strict=True)
    )
    complains = {word: tuple(names) for word, names in data["complains"].items()}
    return MachineRecord(data["machine"], places, shown, data["lines"], complains)


def as_text(record: MachineRecord) -> str:
    """The record as it is kept: one line a machine and one a question, so that an edit of one shows as one."""
    answers: dict[str, dict[str, list[int]]] = {}
    for number, row in enumerate(record.shown):
        for question, text in row.typed.items():
            answers.setdefault(question, {}).setdefault(text, []).append(number)
    places = {place.name: {"plate": dict(place.plate), "features": dict(place.features)} for place in record.places}
    rows = [
        {"place": row.place, "fault": row.fault, "ids": row.ids, "parts": row.parts, "noticed": row.noticed}
        for row in record.shown
    ]
    lines = ["{", f'"machine": {_line(record.machine)},', '"places": {']
    lines += _listed([f"{_line(name)}: {_line(place)}" for name, place in places.items()])
    lines += ["},", '"shown": [']
    lines += _listed([_line(row) for row in rows])
    lines += ["],", '"lines": {']
    lines += _listed([f"{_line(name)}: {_line(digest)}" for name, digest in sorted(record.lines.items())])
    lines += ["},", '"complains": {']
    lines += _listed([f"{_line(word)}: {_line(names)}" for word, names in record.complains.items()])
    lines += ["},", '"answers": {']
    lines += _listed([f"{_line(name)}: {_line(answers[name])}" for name in sorted(answers)])
    return "\n".join([*lines, "}", "}"]) + "\n"


def _line(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def _listed(lines: list[str]) -> list[str]:
    return [f"{line}," for line in lines[:-1]] + lines[-1:]
