"""The dialogue without a terminal: lines in, lines out, plain text. For pipes, and wherever no chat is wanted."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from textwrap import wrap
from typing import TextIO

from expert.desk.faults import NotTaken
from expert.desk.session import Session
from expert.job.state.job import Job
from expert.job.wording.records import lines_of_reply
from expert.terminal import sentences as say
from expert.terminal.leaving import EndedFromOutside
from expert.terminal.out import cannot_show, harmless
from expert.terminal.typed_ahead import drop_from_terminal
from expert.trace.cleaning import clean
from expert.trace.records import Record

WIDTH = 79
# Not wrapped: a command is copied as it stands, and a drawing is no longer one with its lines cut.
AS_IT_STANDS = ("command", "drawing")


def talk_plainly(session: Session, opening: Iterable[Record], lines: Iterator[str], out: TextIO) -> None:
    """Show the opening records, then take lines until the job is over or the lines end.

    Each line taken is shown behind '> ', so that a saved dialogue can be read by itself. Raises CannotShow, with
    the command that goes on with the job in its message, when nothing can be shown any more.
    """
    try:
        show(session.job, opening, out)
        # Here and not above: the first question stands there before the rest of the dialogue is loaded.
        from expert.job.prompts.registry import owner_at

        while not session.is_over:
            if owner_at(session.job).drops_typed_ahead and drop_from_terminal(sys.stdin):
                out.write(f"{say.TYPED_AHEAD_IS_DROPPED}\n")
                out.flush()
            line = next(lines, None)
            if line is None:
                _leave(say.THE_LINES_HAVE_ENDED, session, out)
                return
            text = line.rstrip("\r\n")
            out.write(f"> {clean(text)[:200]}\n")
            _answer(session, text, out)
    except KeyboardInterrupt as interrupt:
        ended = isinstance(interrupt, EndedFromOutside)
        _leave("Ended from outside." if ended else "Interrupted.", session, out)
        raise
    except OSError as problem:
        raise cannot_show(problem, out, way_back(session.job)) from None


def _answer(session: Session, text: str, out: TextIO) -> None:
    try:
        records = session.say(text)
        show(session.job, records, out)
    except NotTaken as problem:
        for line in with_path_whole(str(problem), WIDTH):
            out.write(f"{line}\n")
        out.flush()


def with_path_whole(text: str, width: int) -> list[str]:
    """The text wrapped; a path or command on an indented line of its own is not cut, so that it can be copied."""
    pieces = text.split("\n")
    return [line for piece in pieces for line in ([piece] if piece.startswith("  ") else wrapped(piece, width))]


def way_back(job: Job) -> str:
    """What is left behind by a job that is not over."""
    return say.go_on_with(job.how_to_resume)


def _leave(why: str, session: Session, out: TextIO) -> None:
    out.write(f"{why} {way_back(session.job)}\n")
    out.flush()


def show(job: Job, records: Iterable[Record], out: TextIO) -> None:
    """Write the records as wrapped plain lines."""
    for manner, text in lines_of_reply(job, records):
        for line in [text] if manner in AS_IT_STANDS else wrapped(text, WIDTH):
            out.write(harmless(line) + "\n")
    out.flush()


def wrapped(text: str, width: int) -> list[str]:
    """The text in lines of at most `width`, later lines indented as the first plus two."""
    indent = " " * (len(text) - len(text.lstrip(" ")) + 2)
    return wrap(text, width, subsequent_indent=indent, drop_whitespace=True, break_long_words=True) or [""]
