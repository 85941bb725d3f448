"""Records made in half the time behave as those that the standard library makes."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable
from dataclasses import FrozenInstanceError, field, fields, replace
from typing import Any

import pytest

from expert.trade.frozen import dataclass

Make = Callable[..., Any]


def shapes(make: Make) -> list[Any]:
    """Records of every shape there is in the program, each two of the same class next to each other."""

    @make(frozen=True, slots=True)
    class Plain:
        name: str
        count: int = 0

    @make(frozen=True, slots=True)
    class Placed:
        name: str
        at: int = field(default=0, compare=False)
        notes: dict[str, int] = field(default_factory=dict, repr=False, hash=False)

    @make(frozen=True, slots=True)
    class One:
        parts: tuple[Any, ...]

    @make(frozen=True, slots=True)
    class Empty:
        """Nothing in it."""

    @make(frozen=True, slots=True)
    class Shown:
        name: str

        def __repr__(self) -> str:
            return f"<{self.name}>"

    @make(frozen=True, slots=True)
    class More(Plain):
        unit: str = "ohm"

    @make(frozen=True, slots=True, order=True)
    class Ordered:
        line: int

    return [
        Plain("a"),
        Plain("a", 1),
        Placed("a", 1),
        Placed("a", 2),
        Placed("a", 2, {"x": 1}),
        One(()),
        One((Plain("a"),)),
        One(([],)),
        Empty(),
        Empty(),
        Shown("a"),
        Shown("b"),
        More("a"),
        More("a", 1, "V"),
        Ordered(1),
        Ordered(2),
        "no record",
    ]


OURS, THEIRS = shapes(dataclass), shapes(dataclasses.dataclass)
NUMBERS = range(len(OURS) - 1)


def hash_of(thing: object) -> int | str:
    try:
        return bool(hash(thing) is not None)
    except TypeError as problem:
        return str(problem)


@pytest.mark.parametrize("number", NUMBERS)
def test_it_is_shown_and_hashed_as_the_library_does(number: int) -> None:
    ours, theirs = OURS[number], THEIRS[number]
    assert repr(ours) == repr(theirs)
    assert hash_of(ours) == hash_of(theirs)
    assert [entry.name for entry in fields(ours)] == [entry.name for entry in fields(theirs)]
    assert type(ours).__match_args__ == type(theirs).__match_args__
    assert not hasattr(ours, "__dict__")


def test_the_same_are_equal_and_hash_alike() -> None:
    assert [[one == other for other in OURS] for one in OURS] == [[one == other for other in THEIRS] for one in THEIRS]
    alike = [(one, other) for one in OURS for other in OURS if one == other and hash_of(one) is True]
    assert len(alike) > len(OURS) - 2 and all(hash(one) == hash(other) for one, other in alike)


@pytest.mark.parametrize("number", NUMBERS)
def test_nothing_can_be_set_or_deleted(number: int) -> None:
    ours = OURS[number]
    for name in [entry.name for entry in fields(ours)] or ["other"]:
        with pytest.raises((FrozenInstanceError, TypeError)):
            setattr(ours, name, 1)
        with pytest.raises((FrozenInstanceError, TypeError)):
            delattr(ours, name)


@pytest.mark.parametrize("number", NUMBERS)
def test_it_can_be_copied_and_changed(number: int) -> None:
    ours = OURS[number]
    assert copy.copy(ours) == ours == copy.deepcopy(ours) == replace(ours)


@dataclass(frozen=True, slots=True)
class Kept:
    name: str
    parts: tuple[Any, ...] = ()


def test_it_can_be_pickled_and_holds_itself() -> None:
    kept = Kept("a", (Kept("b"), 1.5))
    assert pickle.loads(pickle.dumps(kept)) == kept
    round_about: list[Any] = []
    round_about.append(Kept("a", (round_about,)))
    assert repr(round_about[0]) == "Kept(name='a', parts=([...],))"
