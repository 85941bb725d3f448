"""A reply that is longer than the screen: page by page at the prompt, each after an Enter."""

from __future__ import annotations

import threading

from expert.job.answers.command_words import HELP
from expert.terminal.chat import talk_in_terminal
from expert.terminal.sentences import ENTER_SHOWS_THE_REST as REST
from tests.dialogue.terminals import CTRL_D, AtSize, Terminal

CTRL_C = "\x03"
SECONDS = 20.0


def typed_when(terminal: Terminal, *steps: tuple[str, str]) -> None:
    """Talk while keys are typed, each when a text stands on the screen that was not there before; then leave."""
    over = threading.Event()

    def typing() -> None:
        seen = 0
        for text, keys in steps:
            for _ in range(int(SECONDS / 0.05)):
                found = terminal.screen.find(text, seen)
                if found >= 0 or over.wait(0.05):
                    break
            seen = found + len(text)
            terminal.keys.send_text(keys)
        while not over.wait(1.0):
            terminal.keys.send_text(CTRL_C)

    typist = threading.Thread(target=typing)
    typist.start()
    talk_in_terminal(terminal.session, terminal.opening)
    over.set()
    typist.join()


def test_the_rest_comes_after_enter(at_size: AtSize) -> None:
    terminal = at_size(80, len(HELP))
    typed_when(terminal, (">", "help\r"), (REST.strip(), "\r"), ("this list", "Ann\r"), ("Type its number", CTRL_D))
    before, after = terminal.screen.partition(REST)[0], terminal.screen.rpartition(REST)[2]
    assert "why this is asked" in before and "this list" not in before
    assert "this list" in after
    assert terminal.said == ["help", "Ann", "pause"]


def test_what_is_typed_before_the_rest_was_seen_is_kept_and_not_sent(at_size: AtSize) -> None:
    terminal = at_size(80, len(HELP))
    typed_when(terminal, (">", "help\r"), (REST.strip(), "Ann\r"))
    assert terminal.said == ["help", "pause"]
    assert "> Ann" in terminal.screen


def test_ctrl_c_at_a_page_shows_the_rest(at_size: AtSize) -> None:
    terminal = at_size(80, len(HELP))
    typed_when(terminal, (">", "help\r"), (REST.strip(), CTRL_C), ("this list", "Ann\r"), ("Type its number", CTRL_D))
    assert terminal.said == ["help", "Ann", "pause"]
