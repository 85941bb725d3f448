"""Which program this is: its version, and a digest of its code, so that the program of a trace can be found again."""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import expert

DIGITS = 12


@cache
def program_version() -> str:
    """The version as installed and the digest of the code, such as "0.1.0+code.1f0c23ab44de".

    Two programs with the same text do the same; the version alone is often forgotten to be raised.
    """
    try:
        known = version("bench-expert")
    except PackageNotFoundError:
        known = "0"
    return f"{known}+code.{code_digest()[:DIGITS]}"


def code_digest(package: Path | None = None) -> str:
    """SHA-256 over every module of the package, each with its name and its length, in the order of their names."""
    root = package or Path(expert.__file__).parent
    whole = hashlib.sha256()
    for path in sorted(root.rglob("*.py"), key=lambda path: path.relative_to(root).as_posix()):
        content = path.read_bytes()
        whole.update(f"{path.relative_to(root).as_posix()}\0{len(content)}\0".encode())
        whole.update(content)
    return whole.hexdigest()
