"""What a record says, as a short digest: the same wherever in its file it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path

import expert


def digest_of(value: object) -> str:
    """A digest of a value of the rule language; places in files do not count, the order of what is listed does."""
    return sha256(repr(_plain(value)).encode()).hexdigest()[:16]


def _plain(value: object) -> object:
    """The value in plain tuples and texts, without what its class leaves out of comparisons."""
    if is_dataclass(value) and not isinstance(value, type):
        named = (field.name for field in fields(value) if field.compare)
        return type(value).__name__, *(_plain(getattr(value, name)) for name in named)
    if isinstance(value, Mapping):
        return tuple((_plain(key), _plain(kept)) for key, kept in value.items())
    if isinstance(value, tuple | list):
        return tuple(_plain(item) for item in value)
    if isinstance(value, set | frozenset):
        return tuple(sorted(repr(_plain(item)) for item in value))
    return repr(value)


@cache
def digest_of_program() -> str:
    """A digest of this program's own code: with other code a case may come out otherwise."""
    found = sha256()
    for file in sorted(Path(expert.__file__).parent.rglob("*.py")):
        found.update(file.read_bytes())
    return found.hexdigest()[:16]
