"""The rules that are compared: those in a folder, in an earlier state of it (git), or pinned beside a job."""

from __future__ import annotations

import io
import subprocess
import tarfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from expert.desk.pinning import pinned_folder, rule_files
from expert.language.folder import file_text
from expert.language.load import read_rules
from expert.language.problems import RulesRefused
from expert.workbench.impact.answers import NotPlayable
from expert.workbench.sentences import impact as say

Texts = Mapping[str, str]


class NoRules(Exception):
    """The rules to compare with are not to be had; the text says why."""


@dataclass(slots=True)
class Library:
    """All rules that take part, by digest; read when first needed."""

    texts: dict[str, Texts] = field(default_factory=dict)
    pinned: dict[Path, str] = field(default_factory=dict)

    def add(self, texts: Texts) -> str:
        """Keep these rules and give their digest. Raises RulesRefused."""
        digest = read_rules(texts).digest
        self.texts[digest] = texts
        return digest

    def pinned_for(self, trace: Path, digest: str) -> str:
        """The digest of the rules that a job was opened with. Raises NotPlayable when they are not kept beside it."""
        if digest in self.texts:
            return digest
        folder = pinned_folder(trace.parent, digest)
        if folder not in self.pinned:
            if not folder.is_dir():
                raise NotPlayable(say.RULES_WERE_NOT_KEPT)
            try:
                self.pinned[folder] = self.add(texts_in(folder))
            except (RulesRefused, NoRules) as problem:
                raise NotPlayable(say.its_rules_are_refused(problem)) from None
        return self.pinned[folder]


def texts_in(folder: Path) -> Texts:
    """The rule files of a folder. Raises NoRules."""
    if not folder.is_dir():
        raise NoRules(say.no_such_folder(folder))
    found = {}
    for name, file in rule_files(folder).items():
        text, problems = file_text(file)
        if problems:
            raise NoRules(str(problems[0]))
        found[name] = text
    return found


def texts_before(folder: Path, against: str) -> Texts:
    """The rules of another folder, or of this one at a revision of git. Raises NoRules."""
    other = Path(against)
    if other.is_dir():
        return texts_in(other)
    command = ["git", "-C", str(folder), "archive", "--format=tar", against, "--", "."]
    try:
        done = subprocess.run(command, capture_output=True, check=False)
    except OSError as problem:
        raise NoRules(say.git_cannot_be_asked(against, problem.strerror)) from None
    if done.returncode:
        why = done.stderr.decode(errors="replace").strip().splitlines()
        raise NoRules(say.neither_folder_nor_revision(against, why[-1] if why else "git refused"))
    found = {}
    with tarfile.open(fileobj=io.BytesIO(done.stdout)) as archive:
        for member in archive:
            content = archive.extractfile(member) if member.isfile() else None
            if content is not None and _is_rule_file(member.name):
                found[member.name] = content.read().decode("utf-8", "replace")
    if not found:
        raise NoRules(say.no_rules_at_revision(against))
    return found


def _is_rule_file(name: str) -> bool:
    return name.endswith((".yaml", ".yml")) and not name.startswith(("cases/", "."))
