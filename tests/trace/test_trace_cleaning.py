"""Text from outside, made safe to show. The oracle is the Unicode character data that comes with Python."""

from __future__ import annotations

import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.trace.cleaning import clean, clean_lines

# Cf characters that are seen: signs around or before a number or a word (Unicode, Prepended_Concatenation_Mark).
SEEN_FORMAT_SIGNS = {0x600, 0x601, 0x602, 0x603, 0x604, 0x605, 0x6DD, 0x70F, 0x890, 0x891, 0x8E2, 0x110BD, 0x110CD}


def test_every_unseen_character_of_unicode_is_dealt_with() -> None:
    for code in range(sys.maxunicode + 1):
        character, category = chr(code), unicodedata.category(chr(code))
        cleaned = clean(f"a{character}b")
        if category == "Cs":
            assert cleaned == "a\ufffdb", hex(code)
        elif category in ("Zl", "Zp") or character in "\t\n\v\f\r\x85":
            assert cleaned == "a b", hex(code)
        elif category == "Cc" or (category == "Cf" and code not in SEEN_FORMAT_SIGNS):
            # An escape or a C1 introducer with a letter after it is a sequence of its own and takes the letter along.
            assert cleaned in ("ab", "a"), hex(code)
        elif unicodedata.category(character)[0] in "LNPSZ" and not 0x1160 <= code <= 0x1160:
            assert cleaned == f"a{character}b" or unicodedata.name(character).endswith("FILLER"), hex(code)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        pytest.param("37,8 Ω ±0.5 %", "37,8 Ω ±0.5 %", id="plain"),
        pytest.param("\x1b[1;31mred\x1b[0m", "red", id="colour"),
        pytest.param("\x9b2Jgone", "gone", id="eight-bit-erase"),
        pytest.param("\x1b]0;title\x07text", "text", id="title-ended-by-bell"),
        pytest.param("\x1b]8;;http://x\x1b\\link\x1b]8;;\x1b\\", "link", id="link"),
        pytest.param("\x1bP1$r\x9ctext", "text", id="device-control"),
        pytest.param("\x1b(0text", "text", id="character-set"),
        pytest.param("\x1bctext", "text", id="reset"),
        pytest.param("\x1b]0;no end", "]0;no end", id="command-string-left-open"),
        pytest.param("\x1b[31", "[31", id="sequence-left-open"),
        pytest.param("\x1b\x1b[31m[31mx", "[31mx", id="sequence-around-a-sequence"),
        pytest.param("yes\u202eon", "yeson", id="direction-override"),
        pytest.param("o\u200bp\u2060e\ufeffn", "open", id="zero-width"),
        pytest.param("one\r\ntwo\tthree", "one  two three", id="line-ends-and-tabs"),
        pytest.param("\x00\x08\x7f", "", id="controls"),
        pytest.param("caf\udce9", "caf\ufffd", id="byte-that-is-no-character"),
    ],
)
def test_what_is_left_of_a_text(text: str, expected: str) -> None:
    assert clean(text) == expected


@given(st.text(st.one_of(st.characters(), st.sampled_from("\x1b[]\x9b\x9d\x07\\m0;\u202e\n")), max_size=300))
def test_cleaning_again_changes_nothing_and_nothing_unseen_is_left(text: str) -> None:
    once = clean(text, 60)
    assert clean(once, 60) == once
    assert len(once) <= 60
    assert not any(unicodedata.category(c) in ("Cc", "Cs", "Zl", "Zp") for c in once)
    lines = clean_lines(text, 60)
    assert len(lines) <= 60
    assert clean_lines(lines, 60) == lines


@pytest.mark.parametrize("piece", ["x", "\x1b", "\x1b[", "\x1b]", "\x9b0", "\u202e", "\x1b]0;a\x07", "é", "\n"])
def test_ten_megabytes_are_cut_with_a_mark(piece: str) -> None:
    text = piece * (10_000_000 // len(piece))
    assert clean(text).endswith(f" [cut here: {len(text)} characters]")
    assert clean_lines(text).endswith(f"[cut here: {len(text)} characters]")


def test_ten_megabytes_can_be_cleaned_whole() -> None:
    assert clean("\x1b]" * 5_000_000, 10_000_000) == "]" * 5_000_000
    assert clean("\x9b0" * 5_000_000, 10_000_000) == "0" * 5_000_000
    assert clean("good \u202etext" * 800_000, 10_000_000) == "good text" * 800_000


def test_a_limit_that_has_no_room_for_the_mark() -> None:
    with pytest.raises(ValueError) as caught:
        clean("x", 59)
    assert str(caught.value) == "the limit is 59; 60 or more will do"
