"""Slips of the pen that make a file no YAML: each is told where its author went wrong, not where the parser noticed."""

from __future__ import annotations

import pytest

from expert.language.yaml.tree import read_nodes

QUOTED = "put quotes of the other sort around it"
BRACKET = "a bracket or a comma is missing, or a text with ': ' or a bracket in it must stand in quotes"
OPENED = "the bracket was opened on line 1, column 4"
LINE_UP = "the line does not line up with those above it"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('a: 1\nb: "open\nc: 2\nd: 3\n', "2:4: the quote opened here is not closed"),
        (
            'a: 1\nb: "open\nc: "2"\nd: 3\n',
            "2:4: the quote opened here runs on to line 3, column 4; the closing quote is missing",
        ),
        (
            "a: 'x\nb: it's\nc: 3\n",
            "1:4: the quote opened here runs on to line 2, column 6; the closing quote is missing",
        ),
        (
            'a: "x\nb: 1\nc: 2\nd: 3\ne: "y\n',
            "1:4: the quote opened here runs on to line 5, column 4; the closing quote is missing",
        ),
        ('a: "he said "no" twice"\n', f"1:4: the text in quotes ends in column 13, and more follows; {QUOTED}"),
        ("a: 'don't'\n", f"1:4: the text in quotes ends in column 8, and more follows; {QUOTED}"),
        ('a: "x" y\nb: 1', f"1:4: the text in quotes ends in column 6, and more follows; {QUOTED}"),
        ("a: [one, two\nb: 3\n", f"2:2: did not find expected ',' or ']'; {BRACKET}; {OPENED}"),
        ("a: {x: 1\nb: 2\n", f"2:2: did not find expected ',' or '}}'; {BRACKET}; {OPENED}"),
        ("if: {a: yes b: no}\n", f"1:14: did not find expected ',' or '}}'; {BRACKET}"),
        (
            "a: b: c\n",
            "1:5: mapping values are not allowed in this context; a text with ': ' in it must stand in quotes",
        ),
        ("a:\n  b: 1\n   c: 2\n", "3:4: this line does not line up with those around it"),
        ("a:\n  b: 1\n c: 2\n", f"3:2: did not find expected key; {LINE_UP}"),
        ("- a\nb: 1\n", f"2:1: did not find expected '-' indicator; {LINE_UP}"),
        ("a:b\nc: 1\n", "1:1: the space after the colon is missing"),
        ("x:\n  a:b\n\n  c: 1\n", "2:3: the space after the colon is missing"),
        ("key\nb: 1\n", "1:1: the colon after the key is missing"),
        (
            "a: @x\n",
            "1:4: found character that cannot start any token; a text that begins with this character must stand in "
            "quotes",
        ),
        (
            "a: > x\n",
            "1:6: did not find expected comment or line break; a text that begins with > or | must stand in quotes",
        ),
        (
            "a: - b\n",
            "1:4: block sequence entries are not allowed in this context; a list with dashes begins on a line of its "
            "own",
        ),
        (
            "a: ?\n",
            "1:4: mapping keys are not allowed in this context; a text that begins with ? must stand in quotes",
        ),
        (
            "a: [a b,\n",
            "2:1: did not find expected node content; a value is missing here, or a bracket above is not closed",
        ),
    ],
)
def test_a_slip_is_told_where_it_was_made(text: str, told: str) -> None:
    root, problems = read_nodes("f.yaml", text)
    place, message = told.split(": ", 1)
    assert root is None
    assert [str(problem) for problem in problems] == [f"f.yaml:{place}: this is not YAML: {message} [not-yaml]"]


def test_quotes_that_are_closed_are_no_fault() -> None:
    text = 'a: "one\n  two"\nb: \'it\'\'s\'\nc: "say \\"no\\""\n'
    root, problems = read_nodes("f.yaml", text)
    assert root is not None and problems == []


AROUND = "this line does not line up with those around it"


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ("     minutes: 1", f"4:6: {AROUND}"),
        ("  minutes: 1", f"4:3: {AROUND}"),
        ("   minutes: 1", f"4:4: did not find expected key; {LINE_UP}"),
        ("    minutes:1", "4:5: the space after the colon is missing"),
        ("    minutes 1", "4:5: the colon after the key is missing"),
        (
            "    minutes: 1: 2",
            "4:15: mapping values are not allowed in this context; a text with ': ' in it must stand in quotes",
        ),
        (
            "    minutes: [1",
            f"5:10: did not find expected ',' or ']'; {BRACKET}; the bracket was opened on line 4, column 14",
        ),
        ("    minutes: '1", "4:14: the quote opened here is not closed"),
    ],
)
def test_a_slip_on_one_line_of_a_record_is_told_on_that_line(changed: str, told: str) -> None:
    text = f"questions:\n  a:\n    ask: What?\n{changed}\n    sound: yes\n    how: Look.\n  b:\n    ask: And?\n"
    root, problems = read_nodes("f.yaml", text)
    place, message = told.split(": ", 1)
    assert root is None
    assert [str(problem) for problem in problems] == [f"f.yaml:{place}: this is not YAML: {message} [not-yaml]"]
