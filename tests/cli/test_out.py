"""All that a command says is plain text, whatever it quotes: escapes, direction marks, bytes that are no text.

Control sequences: ECMA-48. Unseen characters: Unicode, categories Cc, Cf, Cs, Zl and Zp.
"""

from __future__ import annotations

import io
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.language.checks import CODES
from expert.language.model import Position
from expert.language.problems import Problem
from expert.terminal import out, sentences

NASTY = ["\x1b]52;c;aGk=\x07", "\x1b[2J", "\x9b31m", "\u202e", "\x00", "\r", "\ud800", "\x1bPq#0\x1b\\", "\u2028"]
texts = st.lists(st.one_of(st.sampled_from(NASTY), st.text(max_size=8)), max_size=8).map("".join)


def is_plain(text: str) -> bool:
    return all(char == "\n" or unicodedata.category(char) not in ("Cc", "Cf", "Cs", "Zl", "Zp") for char in text)


@given(texts)
def test_whatever_is_said_is_plain(text: str) -> None:
    said = out.harmless(text)
    assert is_plain(said)
    assert out.harmless(said) == said


@pytest.mark.parametrize("code", sorted(CODES))
@pytest.mark.parametrize("nasty", NASTY)
def test_every_code_of_problem_is_told_plainly(code: str, nasty: str, monkeypatch: pytest.MonkeyPatch) -> None:
    told = io.StringIO()
    monkeypatch.setattr("sys.stderr", told)
    out.complain(Problem(Position(f"circuits/a{nasty}b.yaml", 3, 5), f"'x{nasty}y' is not right", code))
    assert is_plain(told.getvalue())
    assert f"[{code}]" in told.getvalue()


class Full(io.StringIO):
    def write(self, text: str) -> int:
        raise OSError(28, "No space left on device")


class Gone(io.StringIO):
    def write(self, text: str) -> int:
        raise BrokenPipeError(32, "Broken pipe")


def test_an_output_that_cannot_be_written_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdout", Full())
    with pytest.raises(out.CannotShow, match=r"^the output cannot be written: No space left on device$"):
        out.say("something")


def test_a_reader_that_went_away_is_told_about_and_stops_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    told = io.StringIO()
    monkeypatch.setattr("sys.stdout", Gone())
    monkeypatch.setattr("sys.stderr", told)
    out.say("something")
    assert told.getvalue() == f"{sentences.READER_LEFT}\n"
