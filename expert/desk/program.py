"""Which program this is: its version, and a digest of its code, so that the program of a trace can be found again."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import expert

DIGITS = 12


@cache
def program_version() -> str:
    """The version and the digest of the code, such as "0.1.0+code.1f0c23ab44de".

    Two programs with the same text do the same; the version alone is often forgotten to be raised.
    """
    return f"{expert.__version__}+code.{code_digest()[:DIGITS]}"


def code_digest(package: Path | None = None) -> str:
    """SHA-256 over every module of the package, each with its name and its length, in the order of their names."""
    root = str(package or Path(expert.__file__).parent)
    whole = hashlib.sha256()
    for name, file in sorted(_modules(root, "")):
        with open(file, "rb", buffering=0) as opened:
            content = opened.read()
        whole.update(f"{name}\0{len(content)}\0".encode())
        whole.update(content)
    return whole.hexdigest()


def _modules(folder: str, before: str) -> Iterator[tuple[str, str]]:
    """Each module's name from the root on, and its file. By hand: every start waits for it, and paths are slow."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                yield from _modules(entry.path, f"{before}{entry.name}/")
            elif entry.name.endswith(".py"):
                yield f"{before}{entry.name}", entry.path
