"""The words of the commands, the help on them, and which of them a line gives."""

from __future__ import annotations

from collections.abc import Mapping

# Each command word with how it is typed, and what it does.
HELP_ON: Mapping[str, tuple[str, str]] = {
    "why": ("why", "why this is asked"),
    "why more": ("why more", "the same in numbers"),
    "how": ("how", "how to make the test, what a sound machine shows"),
    "can't tell": ("can't tell, or ?", "leave this question; a reason may follow, such as: no meter"),
    "what if": ("what if ANSWER", "what an answer would mean, without giving it"),
    "suspects": ("suspects", "what may be at fault, likeliest first"),
    "answers": ("answers", "all answers so far, numbered"),
    "take back": ("take back N", "take answer N back"),
    "convinced": ("convinced N", "go on to the repair of suspect N on your own judgement"),
    "note": ("note TEXT", "keep a remark with the job"),
    "figure": ("figure NAME ...", "a calculation of the trade; figure list shows them"),
    "hand over": ("hand over", "end here, with a summary for somebody else"),
    "not qualified": ("not qualified", "from here on no live work is put to you"),
    "pause": ("pause", "leave; expert resume goes on"),
    "help": ("help", "this list"),
}
HELP = (
    "Answer the question (y and n will do, or the number of a choice), or type:",
    *(f"  {typed:<18}{does}" for typed, does in HELP_ON.values()),
)
ALONE = ("help", "why", "why more", "how", "suspects", "answers", "hand over", "not qualified", "pause")
WITH_MORE = ("what if", "take back", "convinced", "note", "figure")
COMMAND_WORDS = ("can't tell", *ALONE, *WITH_MORE)


def help_on(word: str) -> str:
    """How a command is typed and what it does, in one line.

    >>> help_on("note")
    'note TEXT         keep a remark with the job'
    """
    typed, does = HELP_ON[word]
    return f"{typed:<18}{does}"


def command_in(words: str) -> str:
    """The command that a line gives, or ''.

    >>> command_in("Take back 3"), command_in("why"), command_in("why not")
    ('take back', 'why', '')
    """
    line = words.strip().casefold()
    if line in (*ALONE, *WITH_MORE):
        return line
    return next((name for name in WITH_MORE if line.startswith(name + " ")), "")
