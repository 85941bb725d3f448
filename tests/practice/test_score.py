"""Scores by hand: what is taken off stands in the docstring of `score`."""

from __future__ import annotations

import pytest

from expert.practice.score import Way, score
from expert.practice.season import Attempt, Season, seasons

CLEAN = Way(tests=5, minutes=20.0, found=1, missed=0)


@pytest.mark.parametrize(
    ("way", "points"),
    [
        (CLEAN, 100),
        (Way(5, 20.0, found=0, missed=1), 0),
        (Way(5, 20.0, found=1, missed=1), 80),  # half of 40 off
        (Way(5, 20.0, found=1, missed=0, wrong_parts=2), 70),
        (Way(5, 20.0, found=1, missed=0, unsafe=1), 75),
        (Way(5, 20.0, found=1, missed=0, hints=3), 76),
        (Way(5, 50.0, found=1, missed=0), 80),  # five times the expert's ten minutes
        (Way(5, 35.0, found=1, missed=0), 90),  # half-way between twice and five times
        (Way(5, 500.0, found=1, missed=1, wrong_parts=9, unsafe=3), 0),
    ],
)
def test_points(way: Way, points: int) -> None:
    assert score(way, 10.0) == points


def test_time_does_not_run_backwards() -> None:
    with pytest.raises(ValueError, match=r"^minutes run forwards only; -1 and 10 were given$"):
        score(Way(1, -1.0, 1, 0), 10.0)


def test_a_season_counts_the_first_attempt_at_a_machine_only() -> None:
    tries = [
        Attempt("Bo", "common", 1, CLEAN, 10.0),
        Attempt("Ada", "common", 1, Way(5, 20.0, 1, 0, hints=1), 10.0),
        Attempt("Ada", "common", 2, CLEAN, 10.0),
        Attempt("Ada", "common", 1, CLEAN, 10.0),
    ]
    assert seasons(tries) == (
        Season("Bo", 1, 100.0, 1, 0, 0, 0),
        Season("Ada", 2, 96.0, 2, 0, 0, 1),
    )
    assert seasons([]) == ()
