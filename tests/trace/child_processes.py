"""Work done in a process of its own, to be killed, limited or refused there."""

from __future__ import annotations

import gc
import os
import signal
from collections.abc import Callable

SECONDS = 60  # a child that hangs is ended, and the test that waits for it fails


def in_a_child(work: Callable[[int], None]) -> tuple[int, int]:
    """Run `work` in a forked process with the writing end of a pipe; gives its process id and the reading end."""
    reading, writing = os.pipe()
    process = os.fork()
    if process:
        os.close(writing)
        return process, reading
    # What other tests left behind is not cleaned up here: its threads did not come along, and would be waited for.
    gc.freeze()
    signal.signal(signal.SIGALRM, signal.SIG_DFL)
    signal.alarm(SECONDS)
    try:
        os.close(reading)
        work(writing)
    finally:
        os._exit(0)


def said_by_a_child(work: Callable[[int], None]) -> str:
    process, reading = in_a_child(work)
    with os.fdopen(reading) as pipe:
        text = pipe.read()
    os.waitpid(process, 0)
    return text
