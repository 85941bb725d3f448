"""A terminal of a given size with a job of the small rules on it, typed at through prompt_toolkit's pipe input."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import TypeAlias

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.data_structures import Size
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output.vt100 import Vt100_Output

from expert.desk.session import Session
from expert.terminal.chat import talk_in_terminal
from expert.trace.reading import read_trace
from expert.trace.records import Said
from tests.dialogue.small_rules import small_knowledge, small_shop

ENTER, CTRL_D = "\r", "\x04"


class Terminal:
    """A terminal of a given size with a small job on it; `screen` is all that was written, without its controls."""

    def __init__(self, folder: Path, keys: PipeInput, columns: int, rows: int) -> None:
        self.path = folder / "7.jsonl"
        self.keys = keys
        self.out = io.StringIO()
        self.output = Vt100_Output(self.out, lambda: Size(rows=rows, columns=columns), term="xterm", enable_cpr=False)
        self.session, self.opening = Session.open(
            small_knowledge(), small_shop(), self.path, "7", lambda: datetime(2026, 1, 31, 9, tzinfo=UTC)
        )

    def talk(self, typed: str) -> None:
        """Type all of this ('|' is Enter), then Ctrl-D, and talk until the end."""
        self.keys.send_text(typed.replace("|", ENTER) + CTRL_D)
        talk_in_terminal(self.session, self.opening)

    @property
    def said(self) -> list[str]:
        return [record.text for record in read_trace(self.path).records if isinstance(record, Said)]

    @property
    def screen(self) -> str:
        return re.sub(r"\x1b(\[[0-?]*[ -/]*[@-~]|[=>])", "", self.out.getvalue()).replace("\r", "")


AtSize: TypeAlias = Callable[[int, int], Terminal]


@pytest.fixture
def at_size(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[AtSize]:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    opened: list[Terminal] = []
    with create_pipe_input() as keys:
        sessions = []

        def make(columns: int, rows: int) -> Terminal:
            terminal = Terminal(tmp_path, keys, columns, rows)
            session = create_app_session(input=keys, output=terminal.output)
            session.__enter__()
            sessions.append(session)
            opened.append(terminal)
            return terminal

        yield make
        for session in sessions:
            session.__exit__(None, None, None)
    for terminal in opened:
        terminal.session.close()
