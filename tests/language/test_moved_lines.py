"""Slips of layout in the shipped files, each told on the line that was changed, and with one message."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.language.folder import file_text, files_in
from expert.language.load import read_rules
from expert.language.problems import RulesRefused

RULES = Path(__file__).parents[2] / "rules"
FILES = {inner: file_text(RULES / inner)[0] for inner in files_in(RULES, [])}
FILL = "circuits/boiler_fill.yaml"
NOT_IN_LINE = "this is not YAML: this line does not line up with those around it [not-yaml]"


def first(beginning: str, after: int = 0) -> int:
    """The first line that begins so, counted from 1."""
    lines = FILES[FILL].splitlines()
    return next(n for n, line in enumerate(lines, 1) if n > after and line.startswith(beginning))


def told(number: int, line: str) -> list[str]:
    """What is said once this line of the file reads otherwise."""
    lines = FILES[FILL].splitlines(keepends=True)
    lines[number - 1] = line + "\n"
    with pytest.raises(RulesRefused) as refused:
        read_rules({**FILES, FILL: "".join(lines)})
    return [str(problem) for problem in refused.value.problems]


@pytest.mark.parametrize(
    "beginning",
    ["        repair:", "          steps:", "    how:", "    ask:", "    if:"],
)
@pytest.mark.parametrize("by", [-2, 3], ids=["less", "more"])
def test_a_line_that_lost_or_gained_indentation(beginning: str, by: int) -> None:
    number = first(beginning)
    indent = len(beginning) - len(beginning.lstrip()) + by
    line = " " * indent + FILES[FILL].splitlines()[number - 1].lstrip()
    assert told(number, line) == [f"{FILL}:{number}:{indent + 1}: {NOT_IN_LINE}"]


def test_a_dash_without_its_space() -> None:
    number = first("            - ", first("          steps:"))
    line = FILES[FILL].splitlines()[number - 1].replace("- ", "-", 1)
    message = "the space after the dash is missing, so that this is no entry of the list [glued-dash]"
    assert told(number, line) == [f"{FILL}:{number}:13: {message}"]


def test_a_list_of_the_file_inside_another_one() -> None:
    number = first("questions:")
    message = "'questions' is a list of the file, but stands inside another one; it begins in column 1 [wrong-level]"
    assert told(number, "  questions:") == [f"{FILL}:{number}:3: {message}"]


def test_a_file_saved_with_another_ending_is_one_message() -> None:
    files = {("circuits/boiler_fill.yml" if path == FILL else path): text for path, text in FILES.items()}
    with pytest.raises(RulesRefused) as refused:
        read_rules(files)
    assert [str(problem) for problem in refused.value.problems] == [
        "circuits/boiler_fill.yml:1:1: rule files end in .yaml; rename it to boiler_fill.yaml [unknown-file]"
    ]


@pytest.mark.parametrize("name", ["plate.rated_power", "rated_power"])
def test_a_rating_is_no_condition(name: str) -> None:
    number = first("    if: {")
    message = f"'{name}' is a rating, a number; a condition takes the named readings of a question [unknown-name]"
    assert told(number, f"    if: {{{name}: yes}}") == [f"{FILL}:{number}:10: {message}"]


def test_rules_without_their_heading_are_one_message() -> None:
    number = first("rules:")
    message = (
        "this and what follows are each a rule, and stand where a worked-out value is wanted; "
        "the line 'rules:' may be missing above [stands-elsewhere]"
    )
    lines = FILES[FILL].splitlines()
    rule = next(n for n in range(number + 1, len(lines)) if not lines[n - 1].lstrip().startswith("#"))
    assert told(number, "") == [f"{FILL}:{rule}:3: {message}"]


def test_a_key_that_stands_among_names() -> None:
    number = first("    faults:")
    message = "'faults' is a key of a part, and stands where names are given; it may be indented too little"
    assert f"{FILL}:{number}:3: {message} [stands-elsewhere]" in told(number, "  faults:")


def test_the_head_of_a_part_that_lost_all_its_indentation() -> None:
    """It begins no block of the file, so the block that it fell out of is looked through."""
    number = first("  feed_water:")
    assert told(number, "feed_water:") == [f"{FILL}:{number}:1: {NOT_IN_LINE}"]
