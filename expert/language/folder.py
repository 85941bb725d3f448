"""The files of a rule base: which there are in a folder, their texts, and the digest that pins them."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from expert.language.model.rules import Position
from expert.language.problems import Problem, RulesRefused
from expert.language.sentences import files as say
from expert.language.yaml.text_check import LARGEST_FILE, decoded

APART = ("cases", "simulated")
_FOLDERS = ("circuits", "machines")


def texts_in(folder: Path) -> tuple[dict[str, str], list[Problem]]:
    """By path within the folder, the text of each rule file; and what cannot be read. Raises RulesRefused for none."""
    problems: list[Problem] = []
    texts: dict[str, str] = {}
    if not folder.is_dir():
        raise RulesRefused([Problem(Position(str(folder), 1, 1), say.NO_SUCH_FOLDER, "no-rules")])
    if wrong := [_no_folder(folder / name) for name in _FOLDERS if _is_none(folder / name)]:
        raise RulesRefused(wrong)  # nothing in it can be known, and all else would be blamed
    for inner in files_in(folder, problems):
        texts[inner], found = file_text(folder / inner)
        problems += found
    return texts, problems


def files_in(folder: Path, problems: list[Problem]) -> list[str]:
    """The rule files in a folder and in the folders below it, linked ones too; adds what cannot be looked into."""
    found: list[str] = []
    seen: set[Path] = set()

    def refused(error: OSError) -> None:
        message = say.folder_cannot_be_read(error.strerror)
        problems.append(Problem(Position(str(error.filename), 1, 1), message, "unreadable-file"))

    for here, below, names in os.walk(folder, onerror=refused, followlinks=True):
        place = Path(here).resolve()
        if place in seen:  # a link that leads back up
            below.clear()
            continue
        seen.add(place)
        names += [name for name in below if name.endswith(".yaml")]  # a folder where a file is wanted: said when read
        below[:] = [name for name in below if not name.startswith(".") and name not in names]
        inner = (Path(here).relative_to(folder) / name for name in names)
        found += [path.as_posix() for path in inner if not is_apart(path.as_posix())]
    return sorted(found)


def _is_none(folder: Path) -> bool:
    return os.path.lexists(folder) and not folder.is_dir()


def _no_folder(file: Path) -> Problem:
    what = say.IS_A_FILE if file.exists() else say.LINK_LEADS_NOWHERE
    return Problem(Position(str(file), 1, 1), say.folder_is_wanted(what), "unreadable-file")


def digest_of(texts: Mapping[str, str]) -> str:
    """What pins a rule base: SHA-256 over its sorted paths and texts, each with its length before it."""
    whole = hashlib.sha256()
    for path in sorted(texts):
        for piece in (path, texts[path]):
            data = piece.encode("utf-8", "surrogatepass")
            whole.update(f"{len(data)}:".encode() + data)
    return whole.hexdigest()


def is_apart(inner: str) -> bool:
    """Worked cases and simulated machines are read by themselves; hidden files and what is no YAML by nobody."""
    parts = PurePosixPath(inner).parts
    return (
        parts[0] in APART
        or any(part.startswith(".") for part in parts)
        or not inner.lower().endswith((".yaml", ".yml"))
    )


def file_text(file: Path) -> tuple[str, list[Problem]]:
    """The text of a file, empty if there is a problem with it."""
    if not file.is_file():  # A link to nowhere, or something that would keep us waiting for ever.
        there = file.exists() or file.is_symlink()
        there_is = say.IS_A_FOLDER if file.is_dir() else say.IS_NO_READABLE_FILE
        message = there_is if there else say.NO_SUCH_FILE
        return "", [Problem(Position(str(file), 1, 1), message, "unreadable-file")]
    try:
        with file.open("rb") as opened:
            data = opened.read(LARGEST_FILE + 1)
    except OSError as error:
        message = say.file_cannot_be_read(error.strerror)
        return "", [Problem(Position(str(file), 1, 1), message, "unreadable-file")]
    return decoded(str(file), data)
