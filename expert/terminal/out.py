"""The one way out for all that a command says: cleaned of control sequences, and never lost without a word.

What is said may quote a rule file, an answers file, a file name or an argument, so everything is cleaned here, whatever
it comes from. A reader that goes away (`| head -1`) ends the showing and not the work: the exit code stays true.
"""

from __future__ import annotations

import codecs
import io
import json
import os
import sys
from typing import Any, TextIO

from expert.terminal import sentences
from expert.trace.cleaning import SHORTEST_LIMIT, clean

# What a terminal without these characters shows instead.
_INSTEAD = {"°": " deg", "Ω": "ohm", "µ": "u", "μ": "u", "±": "+-", "–": "-", "—": "-", "’": "'", "“": '"', "”": '"'}


class CannotShow(Exception):
    """The output could not be written."""


class ReaderLeft(CannotShow):
    """Whoever read the output has seen enough of it."""


def cannot_show(problem: OSError, stream: TextIO, go_on: str) -> CannotShow:
    """What to raise when a dialogue can no longer be shown; the stream is let go of. `go_on`: what can be done."""
    _let_go(stream)
    if isinstance(problem, BrokenPipeError):
        return ReaderLeft(sentences.reader_left_2(go_on))
    return CannotShow(sentences.output_fails(problem.strerror or problem, go_on))


def harmless(text: object) -> str:
    """The text with its line ends, and nothing else that moves a cursor, colours, hides or turns what is around it.

    >>> harmless("one\\x1b[31m red\\ntwo\\x07")
    'one red\\ntwo'
    """
    lines = str(text).replace("\r\n", "\n").split("\n")
    return "\n".join(clean(line, max(SHORTEST_LIMIT, len(line))) for line in lines)


def say(text: object) -> None:
    """Say it on standard output. Raises CannotShow."""
    _write(sys.stdout, f"{harmless(text)}\n")


def complain(text: object) -> None:
    """Say it on standard error. Raises CannotShow."""
    _write(sys.stderr, f"{harmless(text)}\n")


def say_data(data: Any) -> None:
    """One JSON value on standard output, in plain ASCII. Raises CannotShow."""
    say(json.dumps(data, indent=2))


def flush() -> None:
    """Let go of all that is still held back. Raises CannotShow."""
    _write(sys.stdout, "")
    _write(sys.stderr, "")


def _write(stream: TextIO | None, text: str) -> None:
    if stream is None:
        return
    try:
        stream.write(text)
        stream.flush()
    except BrokenPipeError:
        _let_go(stream)
        if stream is sys.stdout:
            complain(sentences.READER_LEFT)
    except OSError as problem:
        _let_go(stream)
        raise CannotShow(sentences.cannot_be_written(problem.strerror or problem)) from None


def _let_go(stream: TextIO) -> None:
    """Lead the stream nowhere, so that nothing more fails, also not what the interpreter still flushes at its end."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
    except (OSError, ValueError):  # a stream without a file behind it
        pass


def _instead(error: UnicodeError) -> tuple[str, int]:
    assert isinstance(error, UnicodeEncodeError)
    missing = error.object[error.start : error.end]
    return "".join(_INSTEAD.get(char, "?") for char in missing), error.end


def prepare_streams() -> None:
    """Make the three standard streams fit to work with, whatever they are.

    A closed one leads nowhere, so that no file of the job takes its place. Bytes that are no text become a replacement
    character; characters that the output does not have are written in words or as a question mark.
    """
    while (lowest := os.open(os.devnull, os.O_RDWR)) <= 2:
        os.set_inheritable(lowest, True)
    os.close(lowest)
    if sys.stdin is None:
        sys.stdin = open(os.devnull, encoding="utf-8")  # noqa: SIM115
    codecs.register_error("in_words", _instead)
    for stream, errors in ((sys.stdin, "replace"), (sys.stdout, "in_words"), (sys.stderr, "in_words")):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=errors)
