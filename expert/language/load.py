"""From a folder of rule files to a checked, immutable rule base, or to everything that is wrong with it.

Text to nodes, a survey of all names, nodes to records, then the checks on the whole. Nothing is executed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path, PurePosixPath

from expert.language.checks import CHECKS
from expert.language.folder import digest_of, file_text, files_in, is_apart, texts_in
from expert.language.garbage import garbage_collection_off
from expert.language.model import Position, RuleBase
from expert.language.problems import Problem, RulesRefused
from expert.language.reading.draft import Draft
from expert.language.reading.kept import Trees, read_circuit_file
from expert.language.reading.names import Names
from expert.language.reading.reader import Reader
from expert.language.reading.survey import Survey
from expert.language.records.bench import read_bench
from expert.language.records.circuits import read_circuit, read_circuit_part
from expert.language.records.hazards import read_hazards
from expert.language.records.short_files import (
    read_cautions,
    read_complaints,
    read_features,
    read_instruments,
    read_machine,
)
from expert.language.sentences import files as say
from expert.language.yaml.nodes import Node
from expert.language.yaml.text_check import cleaned
from expert.language.yaml.tree import read_nodes

# In the order in which they are read: what comes later may rest on what came before.
_READ: Mapping[str, Callable[[Reader, Node, Draft], None]] = {
    "features": read_features,
    "complaints": read_complaints,
    "cautions": read_cautions,
    "instruments": read_instruments,
    "bench": read_bench,
    "machine": read_machine,
    "circuit": read_circuit,
    "circuit part": read_circuit_part,
    "hazards": read_hazards,
}
_FOLDERS = {"machines": "machine", "circuits": "circuit"}
_FILES = tuple(f"{sort}.yaml" for sort in _READ if sort not in (*_FOLDERS.values(), "circuit part"))


def load_rules(folder: Path, trees: Trees | None = None) -> RuleBase:
    """The rule base in a folder. Raises RulesRefused with every problem; their paths begin with the folder as given.

    `trees`: what earlier readings of the same folder came to; it is used and kept up to date.
    """
    return base_of(*texts_in(folder), str(folder), trees)


def read_rules(texts: Mapping[str, str], trees: Trees | None = None) -> RuleBase:
    """The rule base in these texts (path within the folder -> text). Raises RulesRefused with every problem."""
    return base_of({path: text for path, text in texts.items() if not is_apart(path)}, [], "", trees)


def names_in(folder: Path) -> Names:
    """The names that the files of a folder give, whatever else is wrong with them."""
    problems: list[Problem] = []
    names = Names()
    survey = Survey(names, problems)
    for inner in files_in(folder, problems):
        if sort := _sort_of(inner):
            text, _ = file_text(folder / inner)
            survey.declare(sort, inner, tree_of(inner, text, problems)[1])
    return names


def _sort_of(inner: str) -> str:
    """Which sort of file a path names; nothing if none."""
    if inner in _FILES:
        return inner.removesuffix(".yaml")
    path = PurePosixPath(inner)
    if len(path.parts) == 3 and path.parts[0] == "circuits" and path.suffix == ".yaml":
        return "circuit" if path.name == "circuit.yaml" else "circuit part"
    return _FOLDERS.get(path.parts[0], "") if len(path.parts) == 2 and path.suffix == ".yaml" else ""


def base_of(texts: Mapping[str, str], problems: list[Problem], folder: str, kept: Trees | None = None) -> RuleBase:
    """The rule base in the texts of a folder, which had these problems. Raises RulesRefused with every problem."""
    kept = Trees() if kept is None else kept
    with garbage_collection_off():
        already = {problem.at.path for problem in problems}
        names = Names()
        survey = Survey(names, problems)
        clean: dict[str, str] = {}
        trees: list[tuple[str, str, Node | None]] = []
        for inner in sorted(texts):
            path = str(PurePosixPath(folder) / inner) if folder else inner
            sort = _sort_of(inner)
            if not sort:
                meant = _sort_of(str(PurePosixPath(inner).with_suffix(".yaml")))
                problems.append(_unknown_file(path, inner, meant))
                if meant:  # Its names are known all the same, so that nothing else is blamed.
                    survey.declare(meant, path, read_nodes(path, texts[inner])[0])
                continue
            root = None
            if path not in already:
                clean[inner], root = _tree_kept(path, texts[inner], problems, kept)
            survey.declare(sort, path, root)
            if any(problem.code == "wrong-level" and problem.at.path == path for problem in problems):
                root = None  # everything below is in the wrong place too: saying so once is enough
            trees.append((sort, path, root))
        if not already and not any(sort == "circuit" for sort, _, _ in trees):
            problems.append(Problem(Position(folder or ".", 1, 1), say.NO_CIRCUITS, "no-rules"))
        draft = Draft(names)
        for sort, read in _READ.items():
            for path, root in [(path, root) for this, path, root in trees if this == sort]:
                if root is not None and sort.startswith("circuit"):
                    read_circuit_file(read, path, root, draft, problems, kept)
                elif root is not None:
                    read(Reader(path, names, problems), root, draft)
        for check in CHECKS:
            problems.extend(check(draft))
        if problems:
            raise RulesRefused(problems)
        base = draft.finished(digest_of(clean), problems)
        if problems:
            raise RulesRefused(problems)
        return base


def _tree_kept(path: str, text: str, problems: list[Problem], kept: Trees) -> tuple[str, Node | None]:
    """What `tree_of` gives, from what is kept if the text is the same."""
    before = kept.parsed.get(path)
    if before is None or before[0] != text:
        found: list[Problem] = []
        before = kept.parsed[path] = (text, *tree_of(path, text, found), tuple(found))
    problems += before[3]
    return before[1], before[2]


def tree_of(path: str, text: str, problems: list[Problem]) -> tuple[str, Node | None]:
    """The cleaned text and its nodes; None if they cannot be had. Adds to the problems."""
    clean, found = cleaned(path, text)
    problems += found
    if found and not clean:
        return clean, None
    root, wrong = read_nodes(path, clean)
    # A forbidden character often upsets the layout too: then one message says enough.
    problems += [problem for problem in wrong if not (found and problem.code == "not-yaml")]
    return clean, root


def _unknown_file(path: str, inner: str, meant: str = "") -> Problem:
    if meant:
        message = say.rename_to_yaml(PurePosixPath(inner).stem)
        return Problem(Position(path, 1, 1), message, "unknown-file")
    near = Names().did_you_mean(inner, _FILES)
    has = say.what_a_rule_base_has(", ".join(_FILES))
    return Problem(Position(path, 1, 1), say.no_part_of_a_rule_base(near or f"; {has}"), "unknown-file")
