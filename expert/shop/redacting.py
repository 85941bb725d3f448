"""Copies of traces for sharing: without notes, names and other free text, with the chain made anew and marked so.

What was asked, answered, measured, concluded, moved and repaired stays. A copy cannot be run again; it names the digest
of the trace that it was made from, so that whoever has that can tell which it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from expert.job.sentences import customer
from expert.shop.sentences import reports as say
from expert.trace.errors import TraceDamaged
from expert.trace.kinds import from_json, kind_of, to_json
from expert.trace.lines import NOTHING_BEFORE, digest_in, encode
from expert.trace.packing import Memory
from expert.trace.places import jobs_in
from expert.trace.reading import Trace, read_trace
from expert.trace.records import (
    Answered,
    CannotTell,
    Cleared,
    Closed,
    CustomerTold,
    Noted,
    Opened,
    Record,
    Repaired,
    Said,
    Sealed,
    TakenIn,
)
from expert.trace.verifying import refuse_damage

REMOVED = "[removed]"
PLAIN_WORDS = frozenset(
    [
        "yes",
        "no",
        "y",
        "n",
        "ok",
        "done",
        "why",
        "how",
        "pause",
        "help",
        "list",
        "suspects",
        "answers",
        "can't",
        "none",
        "sound",
    ]
)


def redact_folder(folder: Path, out: Path) -> tuple[Path, ...]:
    """Copy every trace of a folder; gives the copies. Raises FileExistsError, TraceDamaged, OSError."""
    out.mkdir(parents=True, exist_ok=True)
    written = []
    for path in jobs_in(folder):
        target = out / path.name
        if target.exists():
            raise FileExistsError(say.there_already(target))
        target.write_bytes(redacted(read_trace(path)))
        written.append(target)
    return tuple(written)


def redacted(trace: Trace) -> bytes:
    """The bytes of the copy. Raises TraceDamaged for a trace that was changed: it is not passed on."""
    refuse_damage(trace)
    if not trace.lines:
        raise TraceDamaged(say.NOTHING_IN_IT, trace.path, 1)
    names = _names(trace)
    content = bytearray()
    before, memory = NOTHING_BEFORE, Memory()
    origin, waiting = trace.lines[-1].digest, iter((*trace.records[1:], None))
    for number, line in enumerate(trace.lines, 1):
        cleaned = [_without(_redacted(record, next(waiting), origin), names) for record in line.records]
        sealed = [Sealed(number - 1, before) if isinstance(record, Sealed) else record for record in cleaned]
        raw, memory = encode(number, line.at, sealed, before, memory)
        content += raw + b"\n"
        before = digest_in(raw)
    return bytes(content)


def _redacted(record: Record, after: Record | None, origin: str) -> Record:
    match record:
        case Opened():
            country = re.search(r"^country: .*$", record.shop_file, re.MULTILINE)
            return replace(record, shop_file=f"{country[0]}\n" if country else "", redacted_from=origin)
        case Said(text=text):
            kept = isinstance(after, Answered) and after.text == text
            plain = text.strip().casefold() in PLAIN_WORDS or text.strip().isdecimal()
            return replace(record, text=text if kept or plain else REMOVED)
        case Noted():
            return Noted(REMOVED)
        case CannotTell():
            return replace(record, reason=REMOVED if record.reason else "")
        case Cleared():
            return Cleared(REMOVED)
        case Repaired():
            return replace(record, said=REMOVED)
        case Closed():
            # What the shop charges is its own business, as its name is.
            bare = Closed(record.outcome, record.minutes, record.parts, record.note)
            return replace(bare, note=REMOVED if record.note else "")
        case CustomerTold():
            return CustomerTold(tuple(_without_costs(record.lines)))
        case _:
            return record


def _without_costs(lines: tuple[str, ...]) -> Iterator[str]:
    """The slip without what it costs: a heading, and all that is indented below it."""
    among_costs = False
    for line in lines:
        among_costs = line == customer.COSTS or (among_costs and line.startswith(" "))
        if not among_costs:
            yield line


def _names(trace: Trace) -> dict[str, str]:
    """Every name of a technician in the trace, with what stands in its place."""
    found: dict[str, None] = {}
    for index, record in enumerate(trace.records):
        if isinstance(record, TakenIn):
            found[record.technician] = None
        if isinstance(record, Opened):
            found |= dict.fromkeys(re.findall(r"(?:name|by_word_of): *\"?([^,}\"\n]+)", record.shop_file))
        if isinstance(record, Said) and index == 2:
            found[record.text.partition(",")[0]] = None
    named = sorted((name.strip() for name in found if len(name.strip()) > 1), key=len, reverse=True)
    return {name: f"technician {number}" for number, name in enumerate(named, 1)}


def _without(record: Record, names: dict[str, str]) -> Record:
    if not names:
        return record
    pattern = re.compile("|".join(map(re.escape, names)))
    return from_json(kind_of(type(record)), _scrubbed(to_json(record), pattern, names))


def _scrubbed(value: Any, pattern: re.Pattern[str], names: dict[str, str]) -> Any:
    if isinstance(value, str):
        return pattern.sub(lambda found: names[found[0]], value)
    if isinstance(value, list):
        return [_scrubbed(one, pattern, names) for one in value]
    if isinstance(value, dict):
        return {key: _scrubbed(one, pattern, names) for key, one in value.items()}
    return value
