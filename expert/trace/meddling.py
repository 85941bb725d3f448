"""Somebody meddled with the file of an open trace: deleted, renamed, replaced or changed it.

Nothing is written on under another name, and nothing that was recorded is lost with the file.
"""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from expert.trace.errors import TraceNotWritten
from expert.trace.sentences import keeping as say

KEPT = ".kept"
PIECE = 1 << 20


def refuse_meddling(path: Path, descriptor: int, length: int, digest: bytes) -> bool:
    """Whether the file at `path` is the open one; False: it is another with the same bytes, to be written on instead.

    length, digest: how many bytes are recorded, and their SHA-256. Raises TraceNotWritten when the file is gone, in
    another place or another one, when what was recorded has been put where its message says; raises OSError.
    """
    there = digest_at(path)
    if there == (length, digest):
        return os.path.samestat(os.stat(path), os.fstat(descriptor))
    if there is not None and os.path.samestat(os.stat(path), os.fstat(descriptor)):
        raise TraceNotWritten(say.changed_by_another(path, say.STEP_NOT_RECORDED_HERE))
    elsewhere = _name_now(path, descriptor)
    if there is not None:
        kept = elsewhere or _put(_free_name(path, (length, digest)), descriptor, length)
        raise TraceNotWritten(say.replaced_by_another(path, say.STEP_NOT_RECORDED_HERE, kept))
    if elsewhere is not None:
        raise TraceNotWritten(say.renamed(path, elsewhere.name, say.STEP_NOT_RECORDED_HERE))
    if os.fstat(descriptor).st_nlink:
        raise TraceNotWritten(say.moved_away(path, say.STEP_NOT_RECORDED_HERE))
    _put(path, descriptor, length)
    raise TraceNotWritten(say.deleted(path, say.STEP_NOT_RECORDED_HERE))


Seen = tuple[int, int, int, int] | None


def seen(path: Path) -> Seen:
    """How a file looks without reading it, which any change but a forger's changes; None where there is none."""
    try:
        status = os.stat(path)
    except FileNotFoundError:
        return None
    return status.st_dev, status.st_ino, status.st_size, status.st_mtime_ns


def digest_at(path: Path) -> tuple[int, bytes] | None:
    """Length and SHA-256 of what stands in a file; None where there is none. Raises OSError."""
    digest, length = hashlib.sha256(), 0
    try:
        with path.open("rb") as file:
            while piece := file.read(PIECE):
                digest.update(piece)
                length += len(piece)
    except FileNotFoundError:
        return None
    return length, digest.digest()


def _name_now(path: Path, descriptor: int) -> Path | None:
    """The name that the open file has now in its folder."""
    ours = os.fstat(descriptor)
    try:
        with os.scandir(path.parent) as entries:
            return next(
                (Path(one.path) for one in entries if one.is_file() and os.path.samestat(one.stat(), ours)), None
            )
    except FileNotFoundError:
        return None


def _free_name(path: Path, recorded: tuple[int, bytes]) -> Path:
    """A name beside the trace under which nothing stands yet, or exactly this."""
    names = (path.with_name(f"{path.name}{KEPT}{number}") for number in ("", *range(2, 100)))
    return next(name for name in names if digest_at(name) in (None, recorded))


def _put(path: Path, descriptor: int, length: int) -> Path:
    """Write what was recorded to a new file, and wait for the disk."""
    path.parent.mkdir(parents=True, exist_ok=True)
    os.lseek(descriptor, 0, os.SEEK_SET)
    with path.open("wb") as file:
        left = length
        while left and (piece := os.read(descriptor, min(PIECE, left))):
            file.write(piece)
            left -= len(piece)
        file.flush()
        os.fsync(file.fileno())
    return path
