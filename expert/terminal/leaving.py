"""Leaving from outside: a job that is ended by the system leaves the command behind that goes on with it."""

from __future__ import annotations

import contextlib
import signal
import sys
import threading
from collections.abc import Iterator
from types import FrameType

ENDING = tuple(getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name))


class EndedFromOutside(KeyboardInterrupt):
    """The system asked the program to end: the terminal was closed, or the computer goes down. `signal`: which."""

    def __init__(self, number: int) -> None:
        super().__init__(signal.Signals(number).name)
        self.signal = number


@contextlib.contextmanager
def told_when_ended() -> Iterator[None]:
    """While this lasts, being ended from outside raises EndedFromOutside instead of dying in the middle of a line."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def end(number: int, frame: FrameType | None) -> None:
        for one in ENDING:
            signal.signal(one, signal.SIG_IGN)  # once is enough: the last words must not be cut off
        raise EndedFromOutside(number)

    before = {number: signal.signal(number, end) for number in ENDING}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


@contextlib.contextmanager
def nothing_typed_is_shown() -> Iterator[None]:
    """While this lasts, keys pressed between two prompts are not written over what is being shown."""
    try:
        import termios

        keyboard = sys.stdin.fileno()
        is_terminal = sys.stdin.isatty()
    except (ImportError, OSError, ValueError):
        is_terminal = False
    if not is_terminal:
        yield
        return
    before = termios.tcgetattr(keyboard)
    silent = [*before[:3], before[3] & ~termios.ECHO, *before[4:]]
    termios.tcsetattr(keyboard, termios.TCSADRAIN, silent)
    try:
        yield
    finally:
        with contextlib.suppress(OSError):  # the terminal may be gone
            termios.tcsetattr(keyboard, termios.TCSADRAIN, before)
