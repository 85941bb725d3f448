"""Making text from outside safe to show, to store and to compare.

A pasted answer or a trace from elsewhere may carry terminal control sequences (ECMA-48), other control characters, or
characters that cannot be seen but turn or hide the text around them (Unicode, categories Cc, Cf, Zl and Zp).
"""

from __future__ import annotations

import re

from expert.trace.sentences import forms as say

SHORTEST_LIMIT = 60
# So many characters of a text are looked at for each one that may remain; the rest is cut unseen.
LOOK_AHEAD = 8

# Possessive repeats (*+) never go back, so the work stays proportional to the length of the text.
_SEQUENCE = re.compile(
    r"(?:\x1b\[|\x9b)[0-?]*+[ -/]*+[@-~]"  # control sequence: colours, cursor, erasing
    r"|(?:\x1b[\]PX^_]|[\x9d\x90\x98\x9e\x9f])[^\x07\x1b\x9c]*+(?:\x07|\x1b\\|\x9c)"  # command string: titles, links
    r"|\x1b[ -/]++[0-~]"  # escape with intermediates: character sets
    r"|\x1b[0-Z\\^-~]"  # two-character escape, also the beginning of a command string that has no end
)
_SPACES = re.compile(r"[\t\n\v\f\r\x85\u2028\u2029]")
_UNSEEN = re.compile(
    "[\x00-\x1f\x7f-\x9f"  # C0, delete, C1
    "\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f"  # soft hyphen, joiners, fillers, Mongolian selectors
    "\u200b-\u200f\u202a-\u202e\u2060-\u206f"  # zero width, directions, invisible operators
    "\u3164\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufffb"  # fillers, variation selectors, byte order mark, annotations
    "\U00013430-\U0001345f\U0001bca0-\U0001bca3\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"  # format controls, tags
)
_NO_CHARACTER = re.compile("[\ud800-\udfff]")


def clean(text: str, limit: int = 2000) -> str:
    """The text as one line, without control sequences and unseen characters, and at most `limit` characters long.

    Line ends and tabs become spaces, bytes that are no characters become U+FFFD. A text that is cut says so at its
    end. Cleaning twice is the same as cleaning once. `limit`: 60 or more, else ValueError.

    >>> clean("37.8\\x1b[31m ohm\\u200b\\nsecond line")
    '37.8 ohm second line'
    >>> clean("x" * 100, 60)
    'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx [cut here: 100 characters]'
    """
    if limit < SHORTEST_LIMIT:
        raise ValueError(say.limit_too_short(limit, SHORTEST_LIMIT))
    looked_at = text[: limit * LOOK_AHEAD]
    if not (looked_at.isascii() and looked_at.isprintable()):
        looked_at = _SEQUENCE.sub("", looked_at)
        looked_at = _SPACES.sub(" ", looked_at)
        looked_at = _UNSEEN.sub("", looked_at)
        looked_at = _NO_CHARACTER.sub("\ufffd", looked_at)
    if len(looked_at) <= limit and len(text) <= limit * LOOK_AHEAD:
        return looked_at
    mark = say.cut_here(len(text))
    return looked_at[: limit - len(mark)] + mark


def clean_lines(text: str, limit: int = 20_000) -> str:
    """The same for a text of several lines: `\\n` stays, each line is cleaned by itself.

    >>> clean_lines("one\\x07\\r\\ntwo\\u202e")
    'one\\ntwo'
    """
    looked_at = text[: limit * LOOK_AHEAD].replace("\r\n", "\n")
    lines = "\n".join(clean(line, limit) for line in looked_at.split("\n"))
    if len(lines) <= limit and len(text) <= limit * LOOK_AHEAD:
        return lines
    mark = say.cut_here_on_a_line(len(text))
    return lines[: limit - len(mark)] + mark
