"""What a power cut leaves: a trace that ends somewhere, and a register that never knew of what is lacking."""

from __future__ import annotations

from pathlib import Path

from expert.trace.lines import read_object
from expert.trace.register import NAME


def power_cut(path: Path, content: bytes) -> None:
    """Leave only this of a trace (the only one in its folder), and of the register what was noted by then."""
    path.write_bytes(content)
    register = path.parent / NAME
    whole = content.count(b"\n")
    noted = register.read_bytes().splitlines(keepends=True)
    register.write_bytes(b"".join(line for line in noted if read_object(line)["lines"] <= whole))
