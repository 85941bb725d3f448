"""One small helper that compares, records and asserts. `tests/conftest.py` prints the table at the end of the run."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from tests.reference.tallies import note

Check = Callable[..., None]


MARKS = ("lib", "pub", "mem", "cp", "exact")


@pytest.fixture
def check(request: pytest.FixtureRequest) -> Check:
    """check(found, expected, source, within=..., unit="..."): absolute; or relative=... of the expected value."""
    kind: str = request.module.KIND

    def compare(
        found: float,
        expected: float,
        source: str,
        *,
        within: float | None = None,
        relative: float | None = None,
        unit: str = "",
    ) -> None:
        assert (within is None) != (relative is None), "give one of within and relative"
        assert source.split(":")[0] in MARKS, f"the source {source!r} does not begin with its mark"
        assert math.isfinite(found), f"{found} is no number to compare"
        allowed = within if within is not None else abs(expected) * (relative or 0.0)
        deviation = abs(found - expected)
        note(kind, source, deviation, allowed, unit)
        assert deviation <= allowed, (
            f"{found!r} is {deviation:g} from {expected!r} {unit} ({source}); {allowed:g} allowed"
        )

    return compare
