"""Whatever stands in a file, reading gives a rule base or RulesRefused with places that exist; nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from expert.language import checks as language_checks
from expert.language.keys import CIRCUIT_FILE, CONCLUSIONS, FAULT, PART, QUESTION, REPAIR, RULE, WORK_OUT
from expert.language.load import load_rules, read_rules
from expert.language.problems import RulesRefused
from expert.language.yaml.writing import yaml_text
from tests.language.small_base import SMALL

PATHS = sorted(SMALL)
SHAPES = (CIRCUIT_FILE, PART, FAULT, REPAIR, QUESTION, WORK_OUT, RULE, CONCLUSIONS)
KEYS = [
    *(key for shape in SHAPES for key in shape.names),
    *("one_of", "measure", "with", "any", "all", "not", "level", "valve", "valve.stuck", "machine.fill", "tank", "nn"),
]
WORDS = [
    *KEYS,
    "yes",
    "low",
    "resistance",
    "5 ohm",
    "above coil",
    "otherwise",
    "",
    "yes_no",
    "ohmmeter",
    "-1",
    "common",
]
trees = st.recursive(
    st.sampled_from(WORDS),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=5),
    max_leaves=25,
)


def only_refused(files: Mapping[str, str]) -> None:
    """Read the files; what is refused points into one of them and has a known code."""
    try:
        read_rules(files)
    except RulesRefused as refused:
        assert refused.problems
        for problem in refused.problems:
            assert problem.code in language_checks.CODES, problem
            assert problem.message and problem.at.line >= 1 and problem.at.column >= 1, problem
            assert problem.at.path in files or problem.at.path == ".", problem


@settings(deadline=None)
@given(st.sampled_from(PATHS), st.text(max_size=200))
def test_any_text(path: str, text: str) -> None:
    only_refused({**SMALL, path: text})


@settings(deadline=None)
@given(trees)
def test_any_tree_as_a_circuit(tree: object) -> None:
    only_refused({**SMALL, "circuits/your_row.yaml": yaml_text({"circuit": "row", "title": "x", "rules": tree})})  # type: ignore[dict-item]


@settings(deadline=None)
@given(st.sampled_from(PATHS), st.dictionaries(st.sampled_from(KEYS), trees, max_size=6))
def test_any_tree_as_any_file(path: str, tree: dict[str, object]) -> None:
    only_refused({**SMALL, path: yaml_text(tree)})  # type: ignore[arg-type]


@settings(deadline=None, max_examples=300)
@given(st.data())
def test_a_sound_file_with_one_piece_changed(data: st.DataObject) -> None:
    path = data.draw(st.sampled_from(PATHS))
    text = SMALL[path]
    start = data.draw(st.integers(0, len(text)))
    end = data.draw(st.integers(start, min(len(text), start + 12)))
    piece = data.draw(st.sampled_from([*"{}[]:,-#&*!|>'\"%@`\t\n \u202e", "", ": ", "- ", "\n  ", "not", "&a ", "*a"]))
    only_refused({**SMALL, path: text[:start] + piece + text[end:]})


@settings(deadline=None)
@given(st.data())
def test_a_sound_file_with_two_lines_exchanged(data: st.DataObject) -> None:
    path = data.draw(st.sampled_from(PATHS))
    lines = SMALL[path].splitlines()
    one, other = (data.draw(st.integers(0, len(lines) - 1)) for _ in range(2))
    lines[one], lines[other] = lines[other], lines[one]
    only_refused({**SMALL, path: "\n".join(lines)})


@settings(deadline=None)
@given(st.binary(max_size=300))
def test_any_bytes(data: bytes) -> None:
    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "circuits").mkdir()
        (folder / "circuits" / "a.yaml").write_bytes(data)
        try:
            load_rules(folder)
        except RulesRefused as refused:
            assert refused.problems
