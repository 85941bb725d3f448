"""Files that cannot be read, before it is asked what they say."""

from __future__ import annotations

# ------------------------------------------------------------ folder

NO_SUCH_FOLDER = "there is no such folder"


def folder_cannot_be_read(why: object) -> str:
    return f"this folder cannot be looked into: {why}"


IS_A_FILE = "this is a file"
LINK_LEADS_NOWHERE = "this link leads nowhere"


def folder_is_wanted(found: str) -> str:
    return f"{found}; a folder is wanted here"


IS_A_FOLDER = "this is a folder, not a file"
IS_NO_READABLE_FILE = "this is not a file that can be read"
NO_SUCH_FILE = "there is no such file"


def file_cannot_be_read(why: object) -> str:
    return f"the file cannot be read: {why}"


# ------------------------------------------------------------ load

NO_CIRCUITS = "there is no file in circuits/"


def rename_to_yaml(name: str) -> str:
    return f"rule files end in .yaml; rename it to {name}.yaml"


def what_a_rule_base_has(files: str) -> str:
    return f"a rule base has {files}, machines/*.yaml, circuits/*.yaml and cases/*.yaml"


def no_part_of_a_rule_base(hint: str) -> str:
    return f"this file is not part of a rule base{hint}"


# ------------------------------------------------------------ shipped


def no_rules_installed(folder: str) -> str:
    return f"this installation has no folder {folder}: install the program again"


# ------------------------------------------------------------ faults

CANNOT_BE_READ = "it cannot be read"


def too_deep(deepest: int) -> str:
    return f"nested more than {deepest} deep"


def not_yaml(what: str, hint: str, bracket: str) -> str:
    return f"this is not YAML: {what}{hint}{bracket}"


def bracket_was_opened(line: int, column: int) -> str:
    return f"; the bracket was opened on line {line}, column {column}"


QUOTE_NOT_CLOSED = "this is not YAML: the quote opened here is not closed"


def quote_runs_on(line: int, column: int) -> str:
    return f"the quote opened here runs on to line {line}, column {column}"


def closing_quote_missing(runs_on: str) -> str:
    return f"this is not YAML: {runs_on}; the closing quote is missing"


def quote_within_quotes(column: int) -> str:
    return (
        f"this is not YAML: the text in quotes ends in column {column}, and more follows; put quotes of the other "
        "sort around it"
    )


LINE_OUT_OF_LINE = "this is not YAML: this line does not line up with those around it"
SPACE_AFTER_COLON_MISSING = "this is not YAML: the space after the colon is missing"
COLON_MISSING = "this is not YAML: the colon after the key is missing"
NOT_IN_LINE = "the line does not line up with those above it"
BRACKET_MISSING = "a bracket or a comma is missing, or a text with ': ' or a bracket in it must stand in quotes"
# What the parser says, and what its author may have done.
HINTS = (
    ("mapping values are not allowed", "a text with ': ' in it must stand in quotes"),
    ("did not find expected ',' or", BRACKET_MISSING),
    ("expected ',' or", BRACKET_MISSING),
    ("did not find expected key", NOT_IN_LINE),
    ("expected <block end>", NOT_IN_LINE),
    ("did not find expected '-'", NOT_IN_LINE),
    ("could not find expected ':'", "a colon is missing, or a text over several lines must stand in quotes"),
    ("unexpected end of stream", "a quote is opened and not closed"),
    ("mapping keys are not allowed", "a text that begins with ? must stand in quotes"),
    ("cannot start any token", "a text that begins with this character must stand in quotes"),
    ("expected node content", "a value is missing here, or a bracket above is not closed"),
    ("block sequence entries are not allowed", "a list with dashes begins on a line of its own"),
    ("expected comment or line break", "a text that begins with > or | must stand in quotes"),
)

# ------------------------------------------------------------ text check


def not_utf8(byte: int) -> str:
    return f"the byte 0x{byte:02x} is not UTF-8 text; save the file as UTF-8"


def file_too_large(size: int, largest: int) -> str:
    return f"the file has {size} bytes; a rule file may have {largest}: split it"


A_TAB = "a tab stands here; use spaces"


def invisible_character(name: str) -> str:
    return f"the invisible character {name} stands here; remove it"


# ------------------------------------------------------------ tree

EMPTY_FILE = "the file is empty"
SPACE_AFTER_DASH_MISSING = "the space after the dash is missing, so that this is no entry of the list"


def too_many_values(most: int) -> str:
    return f"the file holds more than {most} values: split it"


SECOND_DOCUMENT = "a second document starts here; one file is one"
KEY_IS_NO_TEXT = "a list or a mapping stands where a key is wanted"


def is_an_alias(name: str) -> str:
    return f"'*{name}' is an alias; write the value out"


def key_stands_twice(key: str, line: int) -> str:
    return f"'{key}' stands twice in this mapping; it is already on line {line}"


def is_an_anchor(name: str) -> str:
    return f"'&{name}' is an anchor; write the value out where it is wanted"


def is_a_tag(tag: str) -> str:
    return f"'{tag}' is a tag; leave it out"


def forbidden_character(name: str) -> str:
    return f"the text holds the character {name}; remove it"
