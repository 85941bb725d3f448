"""Keys typed before a prompt was on the screen: where safety hangs on the answer, they answer nothing."""

from __future__ import annotations

import array
import contextlib
import os
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from prompt_toolkit.input import Input


class HasDescriptor(Protocol):
    def fileno(self) -> int: ...


def drop_from_terminal(stream: HasDescriptor) -> bool:
    """Forget what waits in a terminal's line. Whether there was anything; a pipe or a file is left as it is."""
    try:
        descriptor = stream.fileno()
        if not os.isatty(descriptor):
            return False
        import fcntl
        import termios
    except (OSError, ValueError, ImportError):  # no terminal, or a system without such terminals
        return False
    waiting = array.array("i", [0])
    with contextlib.suppress(OSError, termios.error):
        fcntl.ioctl(descriptor, termios.FIONREAD, waiting)
        termios.tcflush(descriptor, termios.TCIFLUSH)
    return waiting[0] > 0


def drop_from_chat(keys: Input) -> bool:
    """The same for the chat, which also keeps what was typed while a prompt was closing."""
    if not os.isatty(keys.fileno()):
        return False
    from prompt_toolkit.input.typeahead import get_typeahead

    kept = bool(get_typeahead(keys))
    return drop_from_terminal(keys) or kept
