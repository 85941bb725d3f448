"""Texts that are not the simple YAML of rule files. Places are counted from 1, as editors do."""

from __future__ import annotations

import pytest
import yaml

from expert.language.load import tree_of
from expert.language.problems import Problem
from expert.language.yaml import tree as yaml_tree
from expert.language.yaml.nodes import Items, Node, Pairs, Scalar
from expert.language.yaml.text_check import LARGEST_FILE, cleaned, decoded
from expert.language.yaml.tree import DEEPEST, MOST_VALUES, read_nodes
from tests.language.small_base import SMALL

DEEP = "[" * (DEEPEST + 1) + "]" * (DEEPEST + 1)


def read(text: str) -> list[str]:
    """Every problem with a text, as text."""
    problems: list[Problem] = []
    tree_of("f.yaml", text, problems)
    return [str(problem) for problem in problems]


def plain(node: Node) -> object:
    """The node as plain Python data, for comparing."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Items):
        return [plain(item) for item in node.items]
    return {key: plain(value) for key, (_, value) in node.entries.items()}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        pytest.param("", ["f.yaml:1:1: the file is empty [empty-file]"], id="empty"),
        pytest.param("# a comment\n", ["f.yaml:1:1: the file is empty [empty-file]"], id="comment only"),
        pytest.param(
            "a: 1\nb: 2\na: 3\n",
            ["f.yaml:3:1: 'a' stands twice in this mapping; it is already on line 1 [duplicate-key]"],
            id="key twice",
        ),
        pytest.param(
            "a: &x 1\nb: *x\n",
            [
                "f.yaml:1:4: '&x' is an anchor; write the value out where it is wanted [anchor]",
                "f.yaml:2:4: '*x' is an alias; write the value out [alias]",
            ],
            id="anchor and alias",
        ),
        pytest.param(
            "a: &x {b: 1}\nc:\n  <<: *x\n",
            [
                "f.yaml:1:4: '&x' is an anchor; write the value out where it is wanted [anchor]",
                "f.yaml:3:7: '*x' is an alias; write the value out [alias]",
            ],
            id="merge key",
        ),
        pytest.param("a: !!int 1\n", ["f.yaml:1:4: '!!int' is a tag; leave it out [tag]"], id="tag"),
        pytest.param(
            "!!python/object/apply:os.system [ls]\n",
            ["f.yaml:1:1: '!!python/object/apply:os.system' is a tag; leave it out [tag]"],
            id="tag that would run something",
        ),
        pytest.param("a: ! 1\n", ["f.yaml:1:4: '!' is a tag; leave it out [tag]"], id="bare tag"),
        pytest.param(
            "a: 1\n---\nb: 2\n",
            ["f.yaml:2:1: a second document starts here; one file is one [several-documents]"],
            id="two documents",
        ),
        pytest.param(
            "[a, b]: 1\n",
            ["f.yaml:1:1: a list or a mapping stands where a key is wanted [not-a-key]"],
            id="list as key",
        ),
        pytest.param("a: 1\n\tb: 2\n", ["f.yaml:2:1: a tab stands here; use spaces [tab]"], id="tab to indent"),
        pytest.param("a: 1 # x\ty\n", ["f.yaml:1:9: a tab stands here; use spaces [tab]"], id="tab in a comment"),
        pytest.param(
            'a: "x\\ty"\n', ["f.yaml:1:4: the text holds the character U+0009; remove it [tab]"], id="tab by escape"
        ),
        pytest.param(
            "a: x\u202ey\n",
            ["f.yaml:1:5: the invisible character U+202E stands here; remove it [control-character]"],
            id="right-to-left override",
        ),
        pytest.param(
            'a: "x\\u202Ey"\n',
            ["f.yaml:1:4: the text holds the character U+202E; remove it [control-character]"],
            id="the same by escape",
        ),
        pytest.param(
            "a: x\x00y\nb: x\u200by\n",
            [
                "f.yaml:1:5: the invisible character U+0000 stands here; remove it [control-character]",
                "f.yaml:2:5: the invisible character U+200B stands here; remove it [control-character]",
            ],
            id="null byte, zero-width space",
        ),
        pytest.param(
            "because: The pump: it runs\n",
            [
                "f.yaml:1:18: this is not YAML: mapping values are not allowed in this context; "
                "a text with ': ' in it must stand in quotes [not-yaml]"
            ],
            id="colon in a sentence",
        ),
        pytest.param(
            f"a: {DEEP}\n", [f"f.yaml:1:{3 + DEEPEST}: nested more than {DEEPEST} deep [too-deep]"], id="deep"
        ),
    ],
)
def test_what_is_refused(text: str, expected: list[str]) -> None:
    assert read(text) == expected


def test_so_deep_that_the_yaml_library_gives_up_first() -> None:
    assert [problem.split(": ", 1)[1] for problem in read("[" * 5000)] == [
        f"nested more than {DEEPEST} deep [too-deep]"
    ]


def test_more_values_than_a_file_may_have() -> None:
    text = "- 1\n" * (MOST_VALUES + 1)
    assert read(text) == [
        f"f.yaml:{MOST_VALUES + 1}:3: the file holds more than {MOST_VALUES} values: split it [too-many-values]"
    ]


def test_bytes_that_are_not_utf_8() -> None:
    text, problems = decoded("f.yaml", "a: 1\nb: f\u00fcll\n".encode("latin-1"))
    assert (text, [str(problem) for problem in problems]) == (
        "",
        ["f.yaml:2:5: the byte 0xfc is not UTF-8 text; save the file as UTF-8 [not-utf-8]"],
    )


def test_a_file_that_is_too_large() -> None:
    _, problems = decoded("f.yaml", b" " * (LARGEST_FILE + 1))
    size = LARGEST_FILE + 1
    message = f"f.yaml:1:1: the file has {size} bytes; a rule file may have {LARGEST_FILE}: split it [too-large]"
    assert [str(problem) for problem in problems] == [message]


@pytest.mark.parametrize(
    "word", ["no", "yes", "on", "off", "null", "~", "012", "12:30", "1e3", "0x1F", ".inf", "2024-01-01"]
)
def test_scalars_stay_what_the_author_sees(word: str) -> None:
    root, problems = read_nodes("f.yaml", f"a: {word}\nb: [{word}]\n{word}: c\n")
    assert root is not None and not problems
    assert plain(root) == {"a": word, "b": [word], word: "c"}


def test_line_ends_and_byte_order_mark_of_other_systems_are_accepted() -> None:
    text, problems = decoded("f.yaml", b"\xef\xbb\xbfa: 1\r\nb: 2\r\n")
    clean, more = cleaned("f.yaml", text)
    assert (clean, problems, more) == ("a: 1\nb: 2\n", [], [])


def test_a_place_counts_characters_not_bytes() -> None:
    assert read("a: [\u00e4\u00f6\u00fc, &x b]\n") == [
        "f.yaml:1:10: '&x' is an anchor; write the value out where it is wanted [anchor]"
    ]


def test_nodes_know_their_places() -> None:
    root, _ = read_nodes("f.yaml", "a:\n  - b\n  - c: d\n")
    assert isinstance(root, Pairs)
    key, items = root.entries["a"]
    assert isinstance(items, Items)
    assert [(node.line, node.column) for node in (key, items, *items.items)] == [(0, 0), (1, 2), (1, 4), (2, 4)]


@pytest.mark.parametrize("path", sorted(SMALL))
def test_the_pure_parser_gives_the_same_nodes(path: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def places(node: Node) -> list[tuple[object, ...]]:
        here: list[tuple[object, ...]] = [(node.line, node.column, getattr(node, "straight", None))]
        if isinstance(node, Items):
            return here + [place for item in node.items for place in places(item)]
        if isinstance(node, Pairs):
            return here + [place for pair in node.entries.values() for item in pair for place in places(item)]
        return here

    fast, _ = read_nodes(path, SMALL[path])
    monkeypatch.setattr(yaml_tree, "_EventSource", yaml.SafeLoader)
    slow, problems = read_nodes(path, SMALL[path])
    assert fast is not None and slow is not None and not problems
    assert (plain(fast), places(fast)) == (plain(slow), places(slow))


@pytest.mark.parametrize(
    "text", ["a: &x 1\nb: *x\n", "a: !!int 1\n", "a: 1\na: 2\n", "a: 1\n---\nb: 2\n", "[a]: b\n", ""]
)
def test_the_pure_parser_refuses_the_same(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    fast = read(text)
    monkeypatch.setattr(yaml_tree, "_EventSource", yaml.SafeLoader)
    assert read(text) == fast != []
