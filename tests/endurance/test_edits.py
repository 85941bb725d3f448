"""Every edit of a trace is found, but for those that change the register of its folder as well."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.dialogue.small_rules import small_knowledge, small_shop
from tests.endurance.editing import EDITS, NOT_TO_BE_FOUND, Written, edited, is_found

TYPED = ("Ann", "1", "ok", "no fill", "ok", "no", "1", "yes", "no", "take back 1", "yes", "hand over")


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Written:
    return Written.play(tmp_path_factory.mktemp("jobs"), small_knowledge(), small_shop(), TYPED)


def test_as_it_was_written_nothing_is_found(written: Written) -> None:
    assert not is_found(written.trace)


@pytest.mark.parametrize("kind", EDITS)
def test_each_kind_of_edit(kind: str, written: Written, tmp_path: Path) -> None:
    chance = random.Random(kind)
    for number in range(20):
        folder = tmp_path / str(number)
        folder.mkdir()
        assert is_found(edited(chance, kind, written, folder)) is (kind not in NOT_TO_BE_FOUND), (kind, number)
