"""The program that wrote a trace can be found again by the digest of its code."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from expert.desk.program import code_digest, program_version
from expert.trace.reading import read_trace
from expert.trace.records import Opened, Resumed
from tests.dialogue.command_line import AT_THE_PUMP, Shop


def folder(path: Path, **modules: str) -> Path:
    for name, text in modules.items():
        (path / name).parent.mkdir(parents=True, exist_ok=True)
        (path / f"{name}.py").write_text(text)
    return path


def test_a_trace_names_the_code(tmp_path: Path) -> None:
    shop = Shop.at(tmp_path)
    shop.bench(AT_THE_PUMP)
    shop.resume("yes\n")
    named = [r.program for r in read_trace(shop.trace()).records if isinstance(r, Opened | Resumed)]
    assert named == [program_version()] * 2
    assert re.fullmatch(r"[0-9.]+\+code\.[0-9a-f]{12}", program_version())


@pytest.mark.parametrize(
    "other",
    [{"a": "x = 2\n", "b": "y = 1\n"}, {"a": "x = 1\n", "c": "y = 1\n"}, {"a": "x = 1\ny = 1\n"}, {"ab": "x = 1\n"}],
)
def test_any_other_code_has_another_digest(other: dict[str, str], tmp_path: Path) -> None:
    one = {"a": "x = 1\n", "b": "y = 1\n"}
    assert code_digest(folder(tmp_path / "one", **one)) == code_digest(folder(tmp_path / "same", **one))
    assert code_digest(folder(tmp_path / "one", **one)) != code_digest(folder(tmp_path / "other", **other))
