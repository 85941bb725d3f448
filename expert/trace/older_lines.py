"""Lines as earlier programs wrote them, read for ever: one record each, with two digests.

Their keys: `seq`, `at`, `kind` and `data` (the record); `before`, SHA-256 of the bytes of the line before; `check`,
SHA-256 of this line's own bytes with the key `check` left out.
"""

from __future__ import annotations

from typing import Any

from expert.trace.errors import TraceDamaged
from expert.trace.kinds import from_json
from expert.trace.records import Record
from expert.trace.sentences import forms as say

KEYS = ("at", "before", "check", "data", "kind", "seq")


def record_of(content: dict[str, Any]) -> Record:
    """The record of a line with these keys. Raises TraceDamaged."""
    texts = (content["before"], content["check"], content["kind"])
    if not all(isinstance(text, str) for text in texts):
        raise TraceDamaged(say.TEXTS_ARE_WANTED)
    return from_json(content["kind"], as_now(content["kind"], content["data"]))


def as_now(kind: str, data: object) -> object:
    """The fields that a record of the kind has now: once a typed line noted whether a re-run had typed it; none had."""
    if kind == "said" and isinstance(data, dict):
        return {key: value for key, value in data.items() if key != "redo"}
    return data
