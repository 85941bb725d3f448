"""Reading many traces fast: only the records of some kinds, as plain values, without making typed records of them.

A trace is looked over as bytes. What is packed is not unpacked, but every line is held against the chain, so that a
trace which was changed is not counted. `reading` and `verifying` say more, and take some twenty times as long.
"""

from __future__ import annotations

import json
from base64 import urlsafe_b64encode
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from expert.trace.errors import TraceDamaged, TraceNotRead, TraceTooLarge
from expert.trace.lines import AFTER_CHAIN, AT, BEFORE_CHAIN, CHAIN, KEYS, NOTHING_BEFORE
from expert.trace.reading import LARGEST_FILE
from expert.trace.sentences import proving as say

_PACKED, _RECORDS, _SEQ = b'"packed":"', b'"records":', b',"seq":'
# As earlier programs wrote it: {"at":"...","before":"<64>","check":"<64>","data":{...},"kind":"told","seq":12}
_OLDER_BEFORE, _OLDER_CHECK, _DATA = slice(39, 103), slice(114, 178), 187
_KIND = b',"kind":"'


@dataclass(frozen=True, slots=True)
class Skimmed:
    """One record: the number of its line, its time as written (UTC), its kind and its fields as JSON values.

    Fields that are packed, or hold their default, are not there; of the bench's state there is what changed.
    """

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
    damage: str = ""


def bytes_of(path: Path) -> bytes:
    """The bytes of a trace. Raises TraceNotRead and TraceTooLarge."""
    try:
        content = path.read_bytes()
    except OSError as problem:
        raise TraceNotRead(say.cannot_be_read(path, problem.strerror or problem)) from problem
    if len(content) > LARGEST_FILE:
        raise TraceTooLarge(say.file_too_long(path, len(content), LARGEST_FILE))
    return content


def skim_bytes(content: bytes, kinds: Mapping[str, bytes]) -> Skim:
    """The records of these kinds in a trace, in order; of a kind only those whose line holds the bytes named with it.

    Damage is told in the result.
    """
    found: list[Skimmed] = []
    before, raw, number, damage, opened = NOTHING_BEFORE, b"", 0, "", ""
    for number, raw in enumerate(content[: content.rfind(b"\n") + 1].split(b"\n")[:-1], start=1):
        is_older = raw[27:38] != b'","chain":"'
        try:
            skimmed = _older(raw, number, before, kinds) if is_older else _line(raw, number, before, kinds)
        except TraceDamaged as problem:
            damage = problem.reason
            break
        before, records = skimmed
        found += records
        opened = opened or raw[AT].decode("ascii")
    if not raw:
        damage = say.NO_WHOLE_LINE
    elif not damage and raw[27:38] != b'","chain":"' and not _fits_its_check(raw):
        damage = say.line_changed(number)
    return Skim(tuple(found), number, opened, raw[AT].decode("ascii", "replace"), damage)


def ends_sealed(line: bytes) -> bool:
    """Whether this last line of a trace is a seal, by its bytes alone."""
    return b'"records":[{"sealed":' in line or b',"kind":"sealed",' in line


def _line(raw: bytes, number: int, before: str, kinds: Mapping[str, bytes]) -> tuple[str, list[Skimmed]]:
    """The digest of a line, and what is wanted of it. Raises TraceDamaged."""
    digest = sha256(before.encode("ascii") + raw[BEFORE_CHAIN] + raw[AFTER_CHAIN])
    begin = raw.find(b'"', 93) + 2 if raw[83:93] == _PACKED else 83
    end = raw.rfind(_SEQ)
    if raw[:7] != b'{"at":"' or raw[81:83] != b'",' or raw[begin : begin + 10] != _RECORDS or end < 0:
        raise TraceDamaged(say.keys_of_a_line(", ".join(KEYS)))
    if urlsafe_b64encode(digest.digest())[:43] != raw[CHAIN]:
        raise TraceDamaged(say.line_does_not_follow(number))
    if raw[end + 7 : -1] != b"%d" % number:
        raise TraceDamaged(say.line_has_another_number(number))
    # As text: of bytes the encoding would be looked for each time.
    records = _json_of(raw[begin + 10 : end])
    if not isinstance(records, list) or not all(isinstance(one, dict) and len(one) == 1 for one in records):
        raise TraceDamaged(say.ONE_KEY_EACH)
    at = raw[AT].decode("ascii")
    pairs = [pair for one in records for pair in one.items()]
    wanted = [Skimmed(number, at, kind, data) for kind, data in pairs if kind in kinds]
    return digest.hexdigest(), wanted


def _older(raw: bytes, number: int, before: str, kinds: Mapping[str, bytes]) -> tuple[str, list[Skimmed]]:
    """The same for a line of an earlier program; only one that holds the bytes named with its kind is looked at."""
    end = raw.rfind(_SEQ)
    begin = raw.rfind(_KIND, 0, end)
    if begin < _DATA or not _is_spelled_as_older(raw):
        raise TraceDamaged(say.keys_of_a_line(", ".join(KEYS)))
    if raw[_OLDER_BEFORE] != before.encode("ascii"):
        raise TraceDamaged(say.line_does_not_follow(number))
    if raw[end + 7 : -1] != b"%d" % number:
        raise TraceDamaged(say.line_has_another_number(number))
    kind = raw[begin + 9 : end - 1].decode("ascii", "replace")
    wanted = []
    if kind in kinds and kinds[kind] in raw:
        data = _json_of(raw[_DATA:begin])
        if not isinstance(data, dict):
            raise TraceDamaged(say.RECORD_NO_OBJECT)
        wanted.append(Skimmed(number, raw[AT].decode("ascii"), kind, data))
    return sha256(raw).hexdigest(), wanted


def _is_spelled_as_older(raw: bytes) -> bool:
    return (
        raw[178:_DATA] == b'","data":'
        and raw[103:114] == b'","check":"'
        and raw[27:39] == b'","before":"'
        and raw[:7] == b'{"at":"'
    )


def _json_of(raw: bytes) -> Any:
    try:
        return json.loads(raw.decode("ascii"))
    except (ValueError, RecursionError):
        raise TraceDamaged(say.RECORD_NOT_JSON) from None


def _fits_its_check(raw: bytes) -> bool:
    """Whether the line's own digest fits; of the other lines the digest in the next line tells as much."""
    without = raw[:103] + raw[178:]
    return sha256(without).hexdigest().encode("ascii") == raw[_OLDER_CHECK]
