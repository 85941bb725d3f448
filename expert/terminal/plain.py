"""The dialogue without a terminal: lines in, lines out, plain text. For pipes, and wherever no chat is wanted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap
from typing import TextIO

from expert.desk.session import Session
from expert.job.state.job import Job
from expert.job.wording.records import lines_of
from expert.trace.cleaning import clean
from expert.trace.records import Record

WIDTH = 79


def talk_plainly(session: Session, opening: Iterable[Record], lines: Iterator[str], out: TextIO) -> None:
    """Show the opening records, then take lines until the job is over or the lines end.

    Each line taken is shown behind '> ', so that a saved dialogue can be read by itself.
    """
    show(session.job, opening, out)
    while not session.is_over:
        try:
            line = next(lines, None)
        except KeyboardInterrupt:
            _leave("Interrupted.", session, out)
            raise
        if line is None:
            _leave("The lines have ended.", session, out)
            return
        text = line.rstrip("\r\n")
        out.write(f"> {clean(text)[:200]}\n")
        show(session.job, session.say(text), out)


def _leave(why: str, session: Session, out: TextIO) -> None:
    out.write(f"{why} Nothing is lost. Go on with:\n  {session.job.how_to_resume}\n")
    out.flush()


def show(job: Job, records: Iterable[Record], out: TextIO) -> None:
    """Write the records as wrapped plain lines."""
    for record in records:
        for manner, text in lines_of(job, record):
            # A command is copied as it stands: it must not be cut in two.
            for line in [text] if manner == "command" else wrapped(text, WIDTH):
                out.write(line + "\n")
    out.flush()


def wrapped(text: str, width: int) -> list[str]:
    """The text in lines of at most `width`, later lines indented as the first plus two."""
    indent = " " * (len(text) - len(text.lstrip(" ")) + 2)
    return wrap(text, width, subsequent_indent=indent, drop_whitespace=True, break_long_words=True) or [""]
