"""Reading many traces fast: only the records of some kinds, as plain values, without making typed records of them.

A trace is looked over as bytes. Lines of other kinds are not parsed, but every line is held against the chain, so
that a trace which was changed is not counted. `reading` and `verifying` say more, and take some twenty times as long.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from expert.trace.errors import TraceDamaged, TraceNotRead, TraceTooLarge
from expert.trace.lines import KEYS, NOTHING_BEFORE
from expert.trace.reading import LARGEST_FILE

# {"at":"2026-01-31T09:30:00Z","before":"<64>","check":"<64>","data":{...},"kind":"told","seq":12}
_AT, _BEFORE, _CHECK, _DATA = slice(7, 27), slice(39, 103), slice(114, 178), 187
_KIND = b',"kind":"'
_SEQ = b'","seq":'


@dataclass(frozen=True, slots=True)
class Skimmed:
    """One record: the number of its line, its time as written (UTC), its kind and its fields as JSON values."""

    line: int
    at: str
    kind: str
    data: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Skim:
    """What was looked for in a trace. `opened`, `last`: times of the first and the last line, as written.

    `damage`: why the trace cannot be relied on, or "". A torn last line is no damage: it was never acknowledged.
    """

    records: tuple[Skimmed, ...]
    lines: int
    opened: str
    last: str
    last_kind: str
    damage: str = ""


def skim(path: Path, kinds: Mapping[str, bytes]) -> Skim:
    """The records of these kinds, in order; of a kind only those whose line holds the bytes named with it.

    Raises TraceNotRead and TraceTooLarge; damage is told in the result.
    """
    return skim_bytes(bytes_of(path), kinds)


def bytes_of(path: Path) -> bytes:
    """The bytes of a trace. Raises TraceNotRead and TraceTooLarge."""
    try:
        content = path.read_bytes()
    except OSError as problem:
        raise TraceNotRead(f"{path} cannot be read: {problem.strerror or problem}") from problem
    if len(content) > LARGEST_FILE:
        raise TraceTooLarge(f"{path} has {len(content):,} bytes; a trace has at most {LARGEST_FILE:,}")
    return content


def skim_bytes(content: bytes, kinds: Mapping[str, bytes]) -> Skim:
    """The same for the bytes of a trace."""
    wanted = {kind.encode("ascii"): needs for kind, needs in kinds.items()}
    found: list[Skimmed] = []
    before = NOTHING_BEFORE.encode("ascii")
    raw, kind, number, damage = b"", b"", 0, ""
    whole = content[: content.rfind(b"\n") + 1].split(b"\n")[:-1]
    for number, raw in enumerate(whole, start=1):
        # Nothing is called here that need not be: this runs for every line of every trace.
        end = raw.rfind(_SEQ)
        begin = raw.rfind(_KIND, 0, end)
        if begin < _DATA or not _is_spelled_as_ours(raw):
            damage = f"a line is an object with the keys {', '.join(KEYS)}"
        elif raw[_BEFORE] != before:
            damage = f"line {number} does not follow from the line before it"
        elif raw[end + 8 : -1] != b"%d" % number:
            damage = f"line {number} has another number"
        if damage:
            break
        kind = raw[begin + 9 : end]
        needs = wanted.get(kind)
        if needs is not None and needs in raw:
            try:
                data = _data_of(raw[_DATA:begin])
            except TraceDamaged as problem:
                damage = problem.reason
                break
            found.append(Skimmed(number, raw[_AT].decode("ascii"), kind.decode("ascii"), data))
        before = sha256(raw).hexdigest().encode("ascii")
    if not raw:
        damage = "there is no whole line"
    elif not damage and not _fits_its_check(raw):
        damage = f"line {number} was changed"
    opened = whole[0][_AT].decode("ascii", "replace") if (whole and number > 1) or not damage else ""
    return Skim(tuple(found), number, opened, raw[_AT].decode("ascii", "replace"), kind.decode("ascii"), damage)


def _is_spelled_as_ours(raw: bytes) -> bool:
    return (
        raw[178:_DATA] == b'","data":'
        and raw[103:114] == b'","check":"'
        and raw[27:39] == b'","before":"'
        and (raw[:7] == b'{"at":"')
    )


def _data_of(raw: bytes) -> dict[str, Any]:
    try:
        # As text: of bytes the encoding would be looked for each time.
        data = json.loads(raw.decode("ascii"))
    except (ValueError, RecursionError):
        raise TraceDamaged("a record is not JSON") from None
    if not isinstance(data, dict):
        raise TraceDamaged("a record is not an object")
    return data


def _fits_its_check(raw: bytes) -> bool:
    """Whether the line's own digest fits; of the other lines the digest in the next line tells as much."""
    without = raw[:103] + raw[178:]
    return sha256(without).hexdigest().encode("ascii") == raw[_CHECK]
