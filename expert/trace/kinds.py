"""The kinds of record by their names in the file, and their payloads as JSON values."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from expert.trace.errors import TraceDamaged
from expert.trace.json_values import NotPlain, from_plain, to_plain
from expert.trace.records import KINDS, PromptPut, Record
from expert.trace.sentences import forms as say


def kind_of(record_type: type[Record]) -> str:
    """The name of a kind in the file; a prompt that was put is `put` there, as it has been from the first.

    >>> from expert.trace.records import CannotTell
    >>> kind_of(CannotTell)
    'cannot_tell'
    """
    return "put" if record_type is PromptPut else re.sub(r"(?<!^)(?=[A-Z])", "_", record_type.__name__).lower()


KIND_NAMES: Mapping[str, type[Record]] = {kind_of(record_type): record_type for record_type in KINDS}


def to_json(record: Record) -> dict[str, Any]:
    """The payload of a record as JSON values. Raises NotPlain when a field does not hold what it declares.

    >>> from expert.trace.records import TakenBack
    >>> to_json(TakenBack(4, "fill_coil"))
    {'number': 4, 'question': 'fill_coil'}
    """
    if type(record) not in KINDS:
        raise TypeError(say.not_in_kinds(type(record).__name__))
    payload: dict[str, Any] = to_plain(type(record), record)
    return payload


def from_json(kind: str, payload: object) -> Record:
    """The record of this kind with this payload. Raises TraceDamaged.

    >>> from_json("taken_back", {"number": 4, "question": "fill_coil"})
    TakenBack(number=4, question='fill_coil')
    """
    if kind not in KIND_NAMES:
        raise TraceDamaged(say.is_no_kind(kind[:40]))
    try:
        record: Record = from_plain(KIND_NAMES[kind], payload)
    except NotPlain as problem:
        raise TraceDamaged(say.record_does_not_fit(kind, problem)) from None
    return record
