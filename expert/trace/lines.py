"""One line of a trace: a record with its number, its time and the digests that tie it to its neighbours.

A line is one JSON object (RFC 8259) in one fixed spelling: keys sorted, no spaces, ASCII only, so that control and
direction characters stand escaped. Its keys:

- `seq`: 1, 2, 3 ... ; `at`: the time, UTC, to the second (RFC 3339); `kind` and `data`: the record
- `before`: SHA-256 of the bytes of the line before, without its line end (of nothing, for the first line)
- `check`: SHA-256 of this line's own bytes with the key `check` left out, so that the last line too shows a change
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from expert.trace.errors import TraceDamaged, TraceTooLarge
from expert.trace.kinds import from_json, kind_of, to_json
from expert.trace.records import Record

LONGEST_LINE = 1_000_000
TIME_FORMAT = "%Y-%m-%dT%H:%M:%SZ"
KEYS = ("at", "before", "check", "data", "kind", "seq")


def digest_of(content: bytes) -> str:
    """SHA-256 (FIPS 180-4) in 64 hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()


NOTHING_BEFORE = digest_of(b"")


@dataclass(frozen=True, slots=True)
class Line:
    """A line as it stands in the file. `raw`: its bytes without the line end."""

    seq: int
    at: datetime
    record: Record
    before: str
    check: str
    raw: bytes

    @property
    def kind(self) -> str:
        return kind_of(type(self.record))

    @property
    def digest(self) -> str:
        """What the next line holds as `before`."""
        return digest_of(self.raw)


def spell(value: Any) -> bytes:
    """The one fixed spelling of a JSON value."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), allow_nan=False).encode("ascii")


def encode(seq: int, at: datetime, record: Record, before: str) -> bytes:
    """The bytes of a line, without the line end.

    Raises TraceTooLarge over LONGEST_LINE, ValueError for a time without a zone, `plain.NotPlain` for a wrong field.
    """
    content = {
        "at": time_in_words(at),
        "before": before,
        "data": to_json(record),
        "kind": kind_of(type(record)),
        "seq": seq,
    }
    raw = spell(content | {"check": digest_of(spell(content))})
    if len(raw) > LONGEST_LINE:
        raise TraceTooLarge(f"a {content['kind']} record of {len(raw):,} bytes; a line may have {LONGEST_LINE:,}")
    return raw


def time_in_words(at: datetime) -> str:
    """A time as it stands in a line: UTC, to the second. Raises ValueError for a time without a zone."""
    if at.tzinfo is None:
        raise ValueError("the clock gives a time without a zone; UTC is wanted")
    return at.astimezone(UTC).strftime(TIME_FORMAT)


def read_object(raw: bytes) -> Any:
    """The JSON value of a line. Raises ValueError when it is no ASCII JSON, or nested too deeply to be one of ours."""
    try:
        return json.loads(raw.decode("ascii"), parse_constant=_refuse_constant)
    except RecursionError:
        raise ValueError("nested too deeply") from None


def decode(raw: bytes) -> Line:
    """The line that these bytes spell. Raises TraceDamaged. Whether the digests fit is for `verifying` to say."""
    try:
        content = read_object(raw)
    except ValueError:
        raise TraceDamaged("the line is not JSON") from None
    if not isinstance(content, dict) or tuple(sorted(content)) != KEYS:
        raise TraceDamaged(f"a line is an object with the keys {', '.join(KEYS)}")
    seq, before, check, kind = content["seq"], content["before"], content["check"], content["kind"]
    if not isinstance(seq, int) or isinstance(seq, bool) or seq < 1:
        raise TraceDamaged("'seq' is a whole number from 1")
    if not (isinstance(before, str) and isinstance(check, str) and isinstance(kind, str)):
        raise TraceDamaged("'before', 'check' and 'kind' are texts")
    return Line(seq, _read_time(content["at"]), from_json(kind, content["data"]), before, check, raw)


def is_unchanged(line: Line) -> bool:
    """Whether the line is spelled as this program spells it and its own check fits."""
    content = read_object(line.raw)
    if spell(content) != line.raw:
        return False
    del content["check"]
    return digest_of(spell(content)) == line.check


def _read_time(text: object) -> datetime:
    try:
        moment = datetime.strptime(text, TIME_FORMAT) if isinstance(text, str) else None
    except ValueError:
        moment = None
    if moment is None:
        raise TraceDamaged("'at' is a time such as 2026-01-31T09:30:00Z")
    return moment.replace(tzinfo=UTC)


def _refuse_constant(name: str) -> None:
    raise ValueError(f"{name} is not JSON")
