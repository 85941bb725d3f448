"""The counting of outside checks can itself fail: planted tallies, and what they must come to."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from tests.conftest import REFERENCE, whole_folder_ran
from tests.reference import tallies
from tests.reference.sources import Basis, Source, independent, restated, round_trip, transcription
from tests.reference.tallies import LEAST_KINDS, LEAST_VALUES, Tallies, Tally, counted, headline, shortfall, table

LIBRARY = independent("a library")
TABLE = transcription("one printing", ours="another printing")
BACK = round_trip("its inverse")
HAND = restated("by hand")


def planted(*rows: tuple[str, Source, int]) -> Tallies:
    """So many values of a kind with a source; the n-th value of a kind is the same whatever its source."""
    return {
        (kind, source): Tally({f"value {n}" for n in range(many)}, 0.5, 1.0, 2.0, "K") for kind, source, many in rows
    }


def test_a_value_counts_once_under_the_best_that_it_was_compared_with() -> None:
    found = counted(planted(("steam", LIBRARY, 3), ("steam", TABLE, 4), ("steam", BACK, 4), ("steam", HAND, 6)))
    assert found == {
        "steam": {Basis.INDEPENDENT: 3, Basis.TRANSCRIPTION: 1, Basis.ROUND_TRIP: 0, Basis.RESTATED: 2},
    }


def test_two_libraries_on_one_value_count_once() -> None:
    found = counted(planted(("steam", LIBRARY, 3), ("steam", independent("another library"), 3)))
    assert found["steam"][Basis.INDEPENDENT] == 3


def test_one_printing_on_both_sides_counts_for_nothing() -> None:
    assert transcription("maker's table", ours="maker's table").basis is Basis.RESTATED
    assert transcription("maker's table", ours="").basis is Basis.RESTATED
    assert TABLE.basis is Basis.TRANSCRIPTION


KINDS = [f"kind {n}" for n in range(LEAST_KINDS)]
EACH = -(-LEAST_VALUES // LEAST_KINDS)
SHORT = [
    ([(kind, LIBRARY, EACH) for kind in KINDS], ""),
    (
        [(kind, LIBRARY, 2 * EACH) for kind in KINDS[1:]],
        f"{2 * EACH * (LEAST_KINDS - 1)} values of 14 kinds agree with a library or a publication that the code does"
        " not use; at least 2000 of 15 kinds are promised",
    ),
    (
        [(kind, LIBRARY, 10) for kind in KINDS],
        "150 values of 15 kinds agree with a library or a publication that the code does not use; at least 2000 of 15"
        " kinds are promised",
    ),
    (
        [(kind, source, EACH) for kind in KINDS for source in (TABLE, BACK, HAND)],
        "0 values of 0 kinds agree with a library or a publication that the code does not use; at least 2000 of 15"
        " kinds are promised",
    ),
]


@pytest.mark.parametrize(("rows", "missing"), SHORT, ids=["enough", "kinds", "values", "nothing independent"])
def test_too_little_is_said(rows: list[tuple[str, Source, int]], missing: str) -> None:
    assert shortfall(counted(planted(*rows))) == missing


def test_the_table_begins_with_what_is_independent() -> None:
    lines = table(planted(("steam", LIBRARY, 3), ("water", HAND, 2)))
    assert lines[0] == headline(counted(planted(("steam", LIBRARY, 3))))
    assert lines[2] == "kind            independent transcription    round trip      restated"
    assert lines[3] == "steam                     3             0             0             0"
    assert lines[-1] == "  water            2  1 (2) K                      by hand"


RUNS = [  # arguments, options that differ, whether the whole folder is wanted
    (["tests/reference"], {}, True),
    (["tests"], {}, True),
    (["tests", "expert"], {"ignore": ["tests/benchmarks"]}, True),
    (["tests/reference/test_steam.py"], {}, False),
    (["tests/trade"], {}, False),
    (["tests/reference::test_units"], {}, False),
    (["tests"], {"keyword": "steam"}, False),
    (["tests"], {"markexpr": "slow"}, False),
    (["tests"], {"lf": True}, False),
    (["tests"], {"deselect": ["tests/reference/test_steam.py"]}, False),
    (["tests"], {"ignore": ["tests/reference/diagnosis"]}, False),
]


@pytest.mark.parametrize(("arguments", "differs", "whole"), RUNS, ids=lambda part: str(part))
def test_the_promise_is_kept_by_a_run_of_the_whole_folder(
    arguments: list[str], differs: dict[str, object], whole: bool
) -> None:
    usual = {"keyword": "", "markexpr": "", "collectonly": False, "lf": False, "deselect": None, "ignore": None}
    config = SimpleNamespace(
        option=SimpleNamespace(**{**usual, **differs}),
        args=arguments,
        invocation_params=SimpleNamespace(dir=REFERENCE.parents[1]),
    )
    assert whole_folder_ran(config) is whole  # type: ignore[arg-type]


def test_what_several_processes_counted_comes_together(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tallies, "TALLIES", {})
    for value, deviation in (("1 K", 0.1), ("2 K", 0.3), ("1 K", 0.2)):
        tallies.note("steam", LIBRARY, value, deviation, 1.0, "K")
    rows = tallies.packed()
    tallies.unpack(rows)
    assert {("steam", LIBRARY): Tally({"1 K", "2 K"}, 0.3, 0.3, 1.0, "K")} == tallies.TALLIES
