"""One line of a trace: the records of one step, with their number, time and the digest that ties them to all before.

A line is one JSON object (RFC 8259) in one fixed spelling: keys sorted, no spaces, ASCII only, so that control and
direction characters stand escaped. Its keys:

- `seq`: 1, 2, 3 ... ; `at`: the time, UTC, to the second (RFC 3339)
- `records`: what happened, in order, each `{kind: {field: value}}`; a field that holds its default is left out
- `packed`: how it was put (see `packing`); left out when there is nothing
- `chain`: SHA-256 over the digest of the line before (64 hexadecimal digits; of nothing, for the first line) and this
  line's own bytes with the key `chain` left out; in base 64 (RFC 4648, section 5, without padding)

What earlier programs wrote stands in `older_lines`; one file may hold both, when a job outlived a program.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any, Literal

from expert.trace import older_lines
from expert.trace.errors import TraceDamaged, TraceTooLarge
from expert.trace.packing import Memory, pack, unpack
from expert.trace.records import Record
from expert.trace.sentences import forms as say
from expert.trade.frozen import dataclass

LONGEST_LINE = 1_000_000
TIME_FORMAT = "%Y-%m-%dT%H:%M:%SZ"
KEYS = ("at", "chain", "packed", "records", "seq")
# {"at":"2026-01-31T09:30:00Z","chain":"<43>","packed": ... : where the time and the digest stand in the bytes.
AT, CHAIN, BEFORE_CHAIN, AFTER_CHAIN = slice(7, 27), slice(38, 81), slice(0, 29), slice(83, None)


def digest_of(content: bytes) -> str:
    """SHA-256 (FIPS 180-4) in 64 hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()


NOTHING_BEFORE = digest_of(b"")


@dataclass(frozen=True, slots=True)
class Line:
    """A line as it stands in the file. `raw`: its bytes without the line end; `digest`: what the next follows from."""

    seq: int
    at: datetime
    records: tuple[Record, ...]
    digest: str
    raw: bytes

    @property
    def is_older(self) -> bool:
        return self.raw[27:38] != b'","chain":"'


def spell(value: Any) -> bytes:
    """The one fixed spelling of a JSON value."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), allow_nan=False).encode("ascii")


def encode(seq: int, at: datetime, records: Sequence[Record], before: str, memory: Memory) -> tuple[bytes, Memory]:
    """The bytes of a line, without the line end, and what the next is packed with.

    Raises TraceTooLarge over LONGEST_LINE, ValueError for a time without a zone, NotPlain for a wrong field.
    """
    plain, packed, memory = pack(records, memory)
    content = {"at": time_in_words(at), "chain": "-" * 43, "records": plain, "seq": seq}
    raw = spell(content | ({"packed": packed} if packed else {}))
    if len(raw) > LONGEST_LINE:
        raise TraceTooLarge(say.step_too_long(len(raw), LONGEST_LINE))
    chain = in_base_64(digest_of(_without_chain(before, raw)))
    return raw[: CHAIN.start] + chain.encode("ascii") + raw[CHAIN.stop :], memory


def in_base_64(digest: str) -> str:
    """64 hexadecimal digits in the 43 characters of base 64."""
    return base64.urlsafe_b64encode(bytes.fromhex(digest)).decode("ascii").rstrip("=")


def _without_chain(before: str, raw: bytes) -> bytes:
    return before.encode("ascii") + raw[BEFORE_CHAIN] + raw[AFTER_CHAIN]


def time_in_words(at: datetime) -> str:
    """A time as it stands in a line: UTC, to the second. Raises ValueError for a time without a zone."""
    if at.tzinfo is None:
        raise ValueError(say.CLOCK_WITHOUT_ZONE)
    return at.astimezone(UTC).strftime(TIME_FORMAT)


def read_object(raw: bytes) -> Any:
    """The JSON value of a line. Raises ValueError when it is no ASCII JSON, or nested too deeply to be one of ours."""
    try:
        return json.loads(raw.decode("ascii"), parse_constant=_refuse_constant)
    except RecursionError:
        raise ValueError("nested too deeply") from None


def decode(raw: bytes, memory: Memory) -> tuple[Line, Memory]:
    """The line that these bytes spell, and what the next was packed with. Raises TraceDamaged.

    Whether the digests fit is for `verifying` to say.
    """
    try:
        content = read_object(raw)
    except ValueError:
        raise TraceDamaged(say.NOT_JSON) from None
    keys = tuple(sorted(content)) if isinstance(content, dict) else ()
    if keys != older_lines.KEYS and keys not in (KEYS, ("at", "chain", "records", "seq")):
        raise TraceDamaged(say.keys_of_a_line(", ".join(KEYS)))
    seq = content["seq"]
    if not isinstance(seq, int) or isinstance(seq, bool) or seq < 1:
        raise TraceDamaged(say.SEQ_IS_A_NUMBER)
    at = _read_time(content["at"])
    if keys == older_lines.KEYS:
        return Line(seq, at, (older_lines.record_of(content),), digest_of(raw), raw), memory
    records, memory = unpack(content["records"], content.get("packed", ""), memory)
    if not records:
        raise TraceDamaged(say.NO_RECORD)
    return Line(seq, at, records, _in_digits(content["chain"]), raw), memory


def _in_digits(chain: object) -> str:
    try:
        digest = base64.b64decode(f"{chain}=", altchars=b"-_", validate=True) if isinstance(chain, str) else b""
    except ValueError:
        digest = b""
    # The last character has bits to spare: only one way to write a digest is ours.
    if len(digest) != 32 or in_base_64(digest.hex()) != chain:
        raise TraceDamaged(say.CHAIN_IS_A_DIGEST)
    return digest.hex()


def fit(line: Line, before: str) -> Literal["", "changed", "other before", "either"]:
    """Whether a line follows from the one whose digest is `before`, and is spelled as this program spells it.

    "" when it does; "changed" when the line itself was; "other before" when it is whole, but follows from another;
    "either" when one digest cannot tell which.
    """
    content = read_object(line.raw)
    if spell(content) != line.raw:
        return "changed"
    if not line.is_older:
        return "" if digest_of(_without_chain(before, line.raw)) == line.digest else "either"
    check = content.pop("check")
    if digest_of(spell(content)) != check:
        return "changed"
    return "" if content["before"] == before else "other before"


def digest_in(raw: bytes) -> str:
    """The digest of a line by its bytes alone: what the next follows from. Raises TraceDamaged."""
    return _in_digits(raw[CHAIN].decode("ascii", "replace")) if raw[27:38] == b'","chain":"' else digest_of(raw)


def _read_time(text: object) -> datetime:
    try:
        moment = datetime.strptime(text, TIME_FORMAT) if isinstance(text, str) else None
    except ValueError:
        moment = None
    if moment is None:
        raise TraceDamaged(say.AT_IS_A_TIME)
    return moment.replace(tzinfo=UTC)


def _refuse_constant(name: str) -> None:
    raise ValueError(say.is_not_json(name))
