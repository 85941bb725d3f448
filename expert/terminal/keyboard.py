"""The keyboard's side of the chat: pastes of any size, and the lines typed before."""

from __future__ import annotations

import contextlib
import os
import select
import time
from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path

from platformdirs import user_state_path
from prompt_toolkit.application import get_app
from prompt_toolkit.filters import Condition
from prompt_toolkit.history import History
from prompt_toolkit.input import Input
from prompt_toolkit.input.vt100_parser import Vt100Parser
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.key_binding.key_processor import KeyPress
from prompt_toolkit.keys import Keys

from expert.desk.session import LONGEST_LINE
from expert.terminal import sentences as say
from expert.trace.cleaning import clean

KEPT_OF_A_PASTE = 2 * LONGEST_LINE
TAIL = 8  # characters; longer than the mark that ends a paste, which may come in two pieces
FLOOD = 250  # characters read at once that no fingers can have typed: a paste without marks
QUIET = 0.2  # seconds without a key after which a flood is over
AT_A_TIME = 1 << 16
INTERRUPT = "\x03"  # Ctrl-C
CUT = " [cut here]"
PASTE_BEGINS = "\x1b[200~"
KEPT_LINES = 500


class ShortPasteParser(Vt100Parser):
    """Reads keys as its parent does, but keeps only the beginning of a paste, so that its size does not matter.

    A paste without marks is a flood: its line ends send nothing off. `rest`: reads and drops what comes right behind
    the piece at hand, and gives the beginning of that; a flood may come in pieces of any size.

    The library collects a paste in full before it tells anybody, and has no public way to end that sooner. Two names of
    its parser used here (`_in_bracketed_paste`, `_paste_buffer`) are not promised: so its minor version is pinned.
    """

    def __init__(self, take: Callable[[KeyPress], None], rest: Callable[[], str] = lambda: "") -> None:
        super().__init__(take)
        self._rest = rest
        self._flooded = 0
        self._flooded_at = -QUIET

    def feed(self, data: str) -> None:
        if self._in_bracketed_paste:
            super().feed(data)
            if self._in_bracketed_paste and len(self._paste_buffer) > KEPT_OF_A_PASTE + TAIL:
                self._paste_buffer = self._paste_buffer[:KEPT_OF_A_PASTE] + self._paste_buffer[-TAIL:]
        elif self._is_flood(data):
            data += self._rest()
            flood, interrupted, _ = data.partition(INTERRUPT)
            if room := max(KEPT_OF_A_PASTE - self._flooded, 0):
                self.feed_key_callback(KeyPress(Keys.BracketedPaste, flood[:room]))
            self._flooded += len(flood)
            self._flooded_at = time.monotonic()
            super().feed(interrupted)
        else:
            self._flooded = 0
            super().feed(data)

    def _is_flood(self, data: str) -> bool:
        if PASTE_BEGINS in data or INTERRUPT in data:
            return False
        return len(data) >= FLOOD or time.monotonic() - self._flooded_at < QUIET


def shorten_pastes(source: Input) -> None:
    """Let this input read its keys through ShortPasteParser, where it reads them as characters at all."""
    parser = getattr(source, "vt100_parser", None)
    if isinstance(parser, Vt100Parser):
        rest = partial(_rest_of_flood, source.fileno())
        source.vt100_parser = ShortPasteParser(parser.feed_key_callback, rest)  # type: ignore[attr-defined]


def _rest_of_flood(descriptor: int) -> str:
    """Read until nothing has come for a while, or Ctrl-C; the beginning of it, with that Ctrl-C."""
    kept, end = b"", ""
    with contextlib.suppress(OSError):  # the terminal may be gone, which the next read finds out
        while not end and select.select([descriptor], [], [], QUIET / 2)[0]:
            piece = os.read(descriptor, AT_A_TIME)
            if not piece:
                break
            end = INTERRUPT if INTERRUPT.encode() in piece else ""
            kept = (kept + piece)[:KEPT_OF_A_PASTE]
    return kept.decode("utf-8", "replace").partition(INTERRUPT)[0] + end


def paste_bindings() -> KeyBindings:
    """A paste becomes one line of at most LONGEST_LINE characters, never sent off by itself; F1 is help."""
    bindings = KeyBindings()

    @bindings.add(Keys.BracketedPaste)
    def _(event: KeyPressEvent) -> None:
        buffer = event.current_buffer
        text = clean(event.data[:KEPT_OF_A_PASTE], KEPT_OF_A_PASTE).strip()
        room = max(LONGEST_LINE - len(buffer.text), 0)
        # Without a count: the parser has thrown away all but the beginning already.
        buffer.insert_text(text if len(text) <= room else text[: max(room - len(CUT), 0)] + CUT[:room])

    @bindings.add(Keys.F1, filter=Condition(lambda: not get_app().current_buffer.text))
    def _(event: KeyPressEvent) -> None:
        """Help, where nothing is typed that it would replace."""
        event.current_buffer.text = "help"
        event.current_buffer.validate_and_handle()

    @bindings.add(Keys.Vt100MouseEvent, eager=True)
    def _(event: KeyPressEvent) -> None:
        """No mouse is asked for; keys that look like one are no input, and the library fails at some of them."""

    @bindings.add(Keys.Any, filter=Condition(lambda: len(get_app().current_buffer.text) >= LONGEST_LINE))
    def _(event: KeyPressEvent) -> None:
        """The line is full: further letters are dropped."""

    return bindings


class TypedBefore(History):
    """The lines typed in this job, and before them those of earlier jobs from a file (one a line, newest last).

    `trouble` says why lines are no longer written to the file, or ''. The job does not depend on it.
    """

    def __init__(self, file: Path) -> None:
        super().__init__()
        self.file = file
        self.trouble = ""

    def load_history_strings(self) -> Iterable[str]:
        try:
            lines = self.file.read_text("utf-8", "replace").splitlines() if self.file.exists() else []
            if len(lines) > 2 * KEPT_LINES:
                self._write("\n".join(lines[-KEPT_LINES:]) + "\n", anew=True)
        except OSError as problem:
            self._give_up(problem)
            return []
        return [clean(line) for line in reversed(lines[-KEPT_LINES:])]

    def store_string(self, string: str) -> None:
        if self.trouble:
            return
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            self._write(clean(string) + "\n")
        except OSError as problem:
            self._give_up(problem)

    def _write(self, text: str, anew: bool = False) -> None:
        """Append to the file, or write it anew. Only its owner may read it: it holds names and remarks."""
        target = self.file.with_name(f"{self.file.name}.{os.getpid()}") if anew else self.file
        flags = os.O_WRONLY | os.O_CREAT | (os.O_TRUNC if anew else os.O_APPEND)
        handle = os.open(target, flags, 0o600)
        try:
            os.write(handle, text.encode("utf-8", "replace"))
        finally:
            os.close(handle)
        if anew:
            with contextlib.suppress(FileNotFoundError):
                target.replace(self.file)

    def _give_up(self, problem: OSError) -> None:
        self.trouble = say.lines_are_not_kept(self.file, problem.strerror or problem)


def history_file() -> Path:
    """Where the lines typed by this user are kept."""
    return user_state_path("bench-expert", appauthor=False) / "typed_lines.txt"
