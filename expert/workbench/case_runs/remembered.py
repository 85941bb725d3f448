"""What cases looked at when they last came out as expected, kept in the user's cache between runs."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Sequence
from dataclasses import fields
from hashlib import sha256
from pathlib import Path
from typing import Any

from platformdirs import user_cache_path

from expert.engine.knowledge import Knowledge
from expert.language.worked.cases import Case
from expert.workbench.case_runs.changed import Meanings
from expert.workbench.case_runs.content import digest_of, digest_of_program
from expert.workbench.case_runs.footprint import Footprint, RecordDigests, digest_under
from expert.workbench.cases import Verdict

_SETS = {field.name for field in fields(Footprint)} - {"complaints"}


def memory_file(rules: Path) -> Path:
    """Where the runs of the cases of this folder are remembered."""
    name = sha256(str(rules.resolve()).encode()).hexdigest()[:16]
    return user_cache_path("bench-expert", appauthor=False) / "cases" / f"{name}.json"


class Remembered:
    """The cases that came out as expected, each with its footprint and the digest of all that this touched.

    `meanings`: what every record meant when all of them last did.

    A file that is missing, damaged or of another version of the program remembers nothing: then every case is run.
    """

    def __init__(self, file: Path, knowledge: Knowledge) -> None:
        self._file = file
        self._knowledge = knowledge
        self._digests = RecordDigests(knowledge.base)
        self._kept, self.meanings = _read(file)

    def touched(self, cases: Sequence[Case]) -> tuple[Case, ...]:
        """The cases that are new, did not come out as expected, or looked at something that reads otherwise now."""
        return tuple(case for case in cases if not self._is_as_it_was(case))

    def keep(self, verdicts: Iterable[Verdict], meanings: Meanings | None = None) -> None:
        """Remember these runs, and what the rules mean now, if that is given. Raises OSError."""
        for verdict in verdicts:
            footprint = verdict.result.footprint
            if verdict.problems or footprint is None:
                self._kept.pop(verdict.case.id, None)
            else:
                self._kept[verdict.case.id] = [self._digest(verdict.case, footprint), _as_lists(footprint)]
        self._file.parent.mkdir(parents=True, exist_ok=True)
        new = self._file.with_suffix(f".{os.getpid()}")
        self.meanings = self.meanings if meanings is None else meanings
        kept = {"program": digest_of_program(), "cases": self._kept, "meanings": self.meanings}
        new.write_text(json.dumps(kept), encoding="utf-8")
        new.replace(self._file)

    def _is_as_it_was(self, case: Case) -> bool:
        match self._kept.get(case.id):
            case [str(digest), dict(footprint)] if _is_footprint(footprint):
                sets = {name: frozenset(footprint[name]) for name in _SETS}
                was = Footprint(**sets, complaints=tuple(footprint["complaints"]))
                return digest == self._digest(case, was)
        return False

    def _digest(self, case: Case, footprint: Footprint) -> str:
        return digest_of((case, digest_under(self._knowledge, self._digests, footprint)))


def _read(file: Path) -> tuple[dict[str, Any], Meanings]:
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}, {}
    match found:
        case {"program": program, "cases": dict(cases), "meanings": dict(meanings)} if program == digest_of_program():
            return cases, {key: tuple(map(str, says)) for key, says in meanings.items() if isinstance(says, list)}
    return {}, {}


def _as_lists(footprint: Footprint) -> dict[str, list[str]]:
    sets = {name: sorted(getattr(footprint, name)) for name in sorted(_SETS)}
    return {**sets, "complaints": list(footprint.complaints)}


def _is_footprint(kept: dict[str, Any]) -> bool:
    lists = [names for names in kept.values() if isinstance(names, list) and all(isinstance(n, str) for n in names)]
    return kept.keys() == _SETS | {"complaints"} and len(lists) == len(kept)
