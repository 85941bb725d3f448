"""Two small helpers that compare, record and assert. `tests/conftest.py` prints the table at the end of the run."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from tests.reference.sources import Source
from tests.reference.tallies import note

Check = Callable[..., None]
Agree = Callable[[object, object, Source, str], None]


@pytest.fixture
def check(request: pytest.FixtureRequest) -> Check:
    """check(found, expected, source, within=..., unit="..."): absolute; or relative=... of the expected value."""
    kind: str = request.module.KIND

    def compare(
        found: float,
        expected: float,
        source: Source,
        *,
        within: float | None = None,
        relative: float | None = None,
        unit: str = "",
    ) -> None:
        assert (within is None) != (relative is None), "give one of within and relative"
        assert math.isfinite(found), f"{found} is no number to compare"
        allowed = float(within if within is not None else abs(expected) * (relative or 0.0))
        deviation = float(abs(found - expected))
        # Twelve digits: the same value reached on two ways is one value.
        note(kind, source, f"{found:.12g} {unit}", deviation, allowed, unit)
        assert deviation <= allowed, (
            f"{found!r} is {deviation:g} from {expected!r} {unit} ({source.on}: {source.words}); {allowed:g} allowed"
        )

    return compare


@pytest.fixture
def agree(request: pytest.FixtureRequest) -> Agree:
    """agree(found, expected, source, about): for what is no number, such as a set of candidates; `about` names it."""
    kind: str = request.module.KIND

    def compare(found: object, expected: object, source: Source, about: str) -> None:
        note(kind, source, about, 0.0 if found == expected else math.inf, 0.0, "")
        assert found == expected, f"{about}: {found!r} is not {expected!r} ({source.on}: {source.words})"

    return compare
