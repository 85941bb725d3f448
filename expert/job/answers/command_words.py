"""The words of the commands, the help on them, and which of them a line gives."""

from __future__ import annotations

from expert.job.sentences import commands as say

HELP = (say.HELP_HEAD, *(f"  {typed:<18}{does}" for typed, does in say.HELP_ON.values()))
# What people type elsewhere, and the word that does it here.
ELSEWHERE = {
    **dict.fromkeys(("undo", "back", "correct", "wrong"), say.TO_TAKE_BACK),
    **dict.fromkeys(("quit", "exit", "q", "bye", ":q", "leave"), say.TO_LEAVE),
    **dict.fromkeys(("menu", "commands", "/help", "-h", "--help", "options"), say.TO_SEE_WHAT_CAN_BE_TYPED),
}
ALONE = ("help", "why", "why more", "how", "suspects", "answers", "hand over", "danger", "not qualified", "pause")
WITH_MORE = ("what if", "take back", "convinced", "note", "figure", "danger")
COMMAND_WORDS = ("can't tell", *ALONE, *WITH_MORE)


def help_on(word: str) -> str:
    """How a command is typed and what it does, in one line.

    >>> help_on("note")
    'note TEXT         keep a remark with the job'
    """
    typed, does = say.HELP_ON[word]
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
