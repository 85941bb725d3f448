"""The words of the commands, the help on them, and which of them a line gives."""

from __future__ import annotations

HELP = (
    "Answer the question (y and n will do, or the number of a choice), or type:",
    "  why               why this is asked",
    "  how               how to make the test, what a sound machine shows",
    "  can't tell, or ?  leave this question; a reason may follow",
    "  what if ANSWER    what an answer would mean, without giving it",
    "  suspects          what may be at fault, likeliest first",
    "  answers           all answers so far, numbered",
    "  take back N       take answer N back",
    "  convinced N       go on to the repair of suspect N on your own judgement",
    "  note TEXT         keep a remark with the job",
    "  figure NAME ...   a calculation of the trade; figure list shows them",
    "  hand over         end here, with a summary for somebody else",
    "  pause             leave; expert resume goes on",
    "  help              this list",
)
ALONE = ("help", "why", "how", "suspects", "answers", "hand over", "pause")
WITH_MORE = ("what if", "take back", "convinced", "note", "figure")
COMMAND_WORDS = ("can't tell", *ALONE, *WITH_MORE)


def command_in(words: str) -> str:
    """The command that a line gives, or ''.

    >>> command_in("Take back 3"), command_in("why"), command_in("why not")
    ('take back', 'why', '')
    """
    line = words.strip().casefold()
    if line in (*ALONE, *WITH_MORE):
        return line
    return next((name for name in WITH_MORE if line.startswith(name + " ")), "")
