"""Somebody meddles with the file of an open job: found and said, nothing written elsewhere, nothing lost."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from expert.trace.errors import TraceNotWritten
from expert.trace.reading import read_trace
from expert.trace.records import Noted
from expert.trace.writing import TraceWriter
from tests.trace.trace_samples import A_JOB, SteadyClock


@dataclass(frozen=True, slots=True)
class Meddling:
    """What somebody does to the open trace, what is said of it, and how it is put right before the line comes again."""

    do: Callable[[Path], object]
    said: str
    put_right: Callable[[Path], object] = lambda path: None
    kept: str = "7.jsonl"  # where all that was recorded is found before it is put right


def renamed(path: Path) -> Path:
    return path.rename(path.with_name("8.jsonl"))


def moved(path: Path) -> Path:
    path.with_name("away").mkdir()
    return path.rename(path.with_name("away") / "7.jsonl")


def replaced(path: Path) -> Path:
    path.with_name("other").write_bytes(b"{}\n")
    return path.with_name("other").replace(path)


def renamed_and_replaced(path: Path) -> None:
    renamed(path)
    path.write_bytes(b"{}\n")


def written_anew(path: Path, one: bytes, other: bytes) -> None:
    path.write_bytes(path.read_bytes().replace(one, other))
    os.utime(path, (2, 2))  # a system's clock for files may stand still between two steps of a test


MEDDLING = {
    "deleted": Meddling(
        Path.unlink,
        "was deleted while the job was open; this step was not recorded. All that was recorded until now has been put "
        "back there: send the line again",
    ),
    "its folder deleted": Meddling(
        lambda path: shutil.rmtree(path.parent),
        "was deleted while the job was open; this step was not recorded. All that was recorded until now has been put "
        "back there: send the line again",
    ),
    "renamed": Meddling(
        renamed,
        "was renamed to 8.jsonl while the job was open; this step was not recorded. Give it its name back, and send "
        "the line again",
        lambda path: path.with_name("8.jsonl").rename(path),
        kept="8.jsonl",
    ),
    "moved": Meddling(
        moved,
        "was moved away while the job was open; this step was not recorded. Put it back, and send the line again",
        lambda path: (path.with_name("away") / "7.jsonl").rename(path),
        kept="away/7.jsonl",
    ),
    "replaced": Meddling(
        replaced,
        "was replaced by another file while the job was open; this step was not recorded. All that was recorded until "
        "now is in {folder}/7.jsonl.kept: give it its name back, and send the line again",
        lambda path: path.with_name("7.jsonl.kept").replace(path),
        kept="7.jsonl.kept",
    ),
    "renamed, and another in its place": Meddling(
        renamed_and_replaced,
        "was replaced by another file while the job was open; this step was not recorded. All that was recorded until "
        "now is in {folder}/8.jsonl: give it its name back, and send the line again",
        lambda path: path.with_name("8.jsonl").replace(path),
        kept="8.jsonl",
    ),
    "grown": Meddling(
        lambda path: path.write_bytes(path.read_bytes() + b"x"),
        "was changed by another program; this step was not recorded",
        lambda path: os.truncate(path, path.stat().st_size - 1),
    ),
    "changed in its place": Meddling(
        lambda path: written_anew(path, b"opened", b"OPENED"),
        "was changed by another program; this step was not recorded",
        lambda path: written_anew(path, b"OPENED", b"opened"),
    ),
}


@pytest.mark.parametrize("name", MEDDLING)
def test_it_is_said_and_once_put_right_the_same_line_is_recorded(tmp_path: Path, name: str) -> None:
    meddling = MEDDLING[name]
    folder = tmp_path / "jobs"
    path = folder / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        before = path.read_bytes()
        meddling.do(path)
        for _ in range(1 if "deleted" in name else 2):
            with pytest.raises(TraceNotWritten) as caught:
                writer.append([Noted("lost?")])
            assert str(caught.value) == f"{path} {meddling.said.format(folder=folder)}"
        if meddling.said.startswith("was changed"):
            assert b"lost?" not in path.read_bytes()
        else:
            assert (folder / meddling.kept).read_bytes() == before
        meddling.put_right(path)
        writer.append([Noted("there")])
    assert read_trace(path).records == (*A_JOB, Noted("there"))


def test_touched_or_put_back_from_a_copy_is_no_meddling(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        os.utime(path, (1, 1))
        writer.append([Noted("touched")])
        shutil.copy(path, tmp_path / "copy")
        (tmp_path / "copy").replace(path)
        writer.append([Noted("copied")])
    assert read_trace(path).records == (*A_JOB, Noted("touched"), Noted("copied"))


def test_a_job_whose_trace_was_renamed_goes_on_under_neither_name_until_it_is_put_right(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        renamed(path)
        length = (tmp_path / "8.jsonl").stat().st_size
        for write in (lambda: writer.append([Noted("lost?")]), writer.seal):
            with pytest.raises(TraceNotWritten):
                write()
    assert (tmp_path / "8.jsonl").stat().st_size == length
    assert not path.exists()


def test_what_was_kept_before_is_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    (tmp_path / "7.jsonl.kept").write_bytes(b"of an earlier day")
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        before = path.read_bytes()
        replaced(path)
        with pytest.raises(TraceNotWritten, match=r"7\.jsonl\.kept2: give"):
            writer.append([Noted("lost?")])
    assert (tmp_path / "7.jsonl.kept2").read_bytes() == before
    assert (tmp_path / "7.jsonl.kept").read_bytes() == b"of an earlier day"
