"""A rule base ready for jobs, at once where the same files were read by the same program before.

Reading and checking the rules takes longer than all else that a start does, and mostly the files are those of before.
What they came to is kept in the user's cache under a name made of everything that it depends on: every file's path and
text, the folder as it was given (it stands in positions), the program's code and Python. Another text is another name:
nothing is ever out of date, and what cannot be read back as it was written is as good as not there.
"""

from __future__ import annotations

import hashlib
import io
import os
import pickle
import sys
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from types import MappingProxyType
from typing import Any

from platformdirs import user_cache_path

from expert.desk.program import program_version
from expert.engine.knowledge import Knowledge
from expert.language.folder import digest_of, texts_in
from expert.language.garbage import garbage_collection_off
from expert.trade.quantities.bench_kinds import KINDS
from expert.trade.quantities.kind import Kind

MOST_KEPT = 6  # rule bases; about 1 MB each
SUFFIX = ".knowledge"
_OF_PYTHON = {("builtins", "frozenset"), ("builtins", "set"), ("_operator", "itemgetter")}


def knowledge_in(folder: Path) -> Knowledge:
    """The rule base in a folder. Raises RulesRefused with every problem."""
    with garbage_collection_off(for_good=True):
        texts, problems = texts_in(folder)
        file = None if problems else kept_at(folder, texts)
        kept = None if file is None else _read(file)
        if kept is not None:
            return kept
        # Here and not above: a start that finds everything ready does not wait for them.
        from expert.engine.knowledge import knowledge_of
        from expert.language.load import base_of

        knowledge = knowledge_of(base_of(texts, problems, str(folder)))
    if file is not None:
        with suppress(OSError):  # a full or missing disk costs time at the next start, and nothing else
            _write(file, knowledge)
    return knowledge


def kept_at(folder: Path, texts: dict[str, str]) -> Path:
    """Where the base with these texts is kept, if it is."""
    depends_on = (str(folder), digest_of(texts), program_version(), sys.version)
    name = hashlib.sha256("\0".join(depends_on).encode("utf-8", "surrogatepass")).hexdigest()
    return user_cache_path("bench-expert", appauthor=False) / "rules" / (name + SUFFIX)


def unchangeable(entries: dict[object, object]) -> Mapping[object, object]:
    """What cannot be pickled as it is: a read-only mapping, made anew from its entries."""
    return MappingProxyType(entries)


class _Reader(pickle.Unpickler):
    """Makes records of this program and nothing else, so that a file which somebody planted can run nothing."""

    def find_class(self, module: str, name: str) -> object:
        if (module.startswith("expert.") and "." not in name) or (module, name) in _OF_PYTHON:
            found = super().find_class(module, name)
            if isinstance(found, type) and found.__module__ == module:
                return found
        if (module, name) == (__name__, "unchangeable"):
            return unchangeable
        raise pickle.UnpicklingError(f"{module}.{name} has no place in a rule base")

    def persistent_load(self, name: str) -> Kind:
        return KINDS[name]


class _Writer(pickle.Pickler):
    """Kinds of quantity are part of the program: only their names are written."""

    def reducer_override(self, thing: object) -> Any:
        return (unchangeable, (dict(thing),)) if isinstance(thing, MappingProxyType) else NotImplemented

    def persistent_id(self, thing: object) -> str | None:
        return thing.name if isinstance(thing, Kind) else None


def _read(file: Path) -> Knowledge | None:
    """What is kept there; None where there is nothing, or not what was written, or somebody else's."""
    try:
        with file.open("rb") as opened:
            about = os.fstat(opened.fileno())
            if hasattr(os, "getuid") and (about.st_uid != os.getuid() or about.st_mode & 0o022):
                return None
            check, content = opened.read(32), opened.read()
    except OSError:
        return None
    if hashlib.sha256(content).digest() != check:
        return None
    try:
        found = _Reader(io.BytesIO(content)).load()
    except (pickle.UnpicklingError, EOFError, ImportError, AttributeError, LookupError, TypeError, ValueError):
        return None
    return found if isinstance(found, Knowledge) else None


def _write(file: Path, knowledge: Knowledge) -> None:
    """Keep it, under another name first, and throw away the oldest beyond MOST_KEPT."""
    content = io.BytesIO()
    _Writer(content, pickle.HIGHEST_PROTOCOL).dump(knowledge)
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    new = file.with_suffix(f".{os.getpid()}")
    try:
        with open(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as opened:
            opened.write(hashlib.sha256(content.getbuffer()).digest())
            opened.write(content.getbuffer())
        new.replace(file)
    finally:
        new.unlink(missing_ok=True)
    kept = sorted(file.parent.glob("*" + SUFFIX), key=lambda path: path.stat().st_mtime, reverse=True)
    for old in kept[MOST_KEPT:]:
        old.unlink(missing_ok=True)
