"""Names for ids in the sums, kept in the index so that the rules need not be read each time."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from expert.language.model import RuleBase

if TYPE_CHECKING:
    from duckdb import DuckDBPyConnection

_SIGNATURE = "signature of the rules"


def refresh_names(index: DuckDBPyConnection, rules: Path, load: Callable[[], RuleBase]) -> None:
    """Take the names from the rules again when a file of theirs has changed."""
    signature = signature_of(rules)
    held = index.execute("SELECT name FROM names WHERE kind = ?", [_SIGNATURE]).fetchall()
    if held == [(signature,)]:
        return
    rows = [(_SIGNATURE, "", signature), *_names(load())]
    index.execute("BEGIN")
    index.execute("DELETE FROM names")
    index.executemany("INSERT INTO names VALUES (?, ?, ?)", rows)
    index.execute("COMMIT")


def signature_of(rules: Path) -> str:
    """What changes when a rule file does: its place, size and time of change."""
    files = sorted(path for path in rules.rglob("*.yaml") if path.is_file())
    newest = max((path.stat().st_mtime_ns for path in files), default=0)
    return f"{rules.resolve()} {len(files)} {sum(path.stat().st_size for path in files)} {newest}"


def _names(base: RuleBase) -> Iterator[tuple[str, str, str]]:
    for fault in base.faults.values():
        yield "fault", fault.id, f"{base.parts[fault.part].name}: {fault.name}"
    for part in base.parts.values():
        yield "part", part.id, part.name
    for complaint in base.complaints.values():
        yield "complaint", complaint.id, complaint.name
    for question in base.questions.values():
        yield "question", question.id, question.ask
    for machine in base.machines.values():
        yield "machine", machine.id, machine.title
