"""One small helper that compares, records and asserts; and the table printed at the end of the run."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import pytest

Check = Callable[..., None]


@dataclass
class Tally:
    """How many values of one kind were compared with one source, and the worst of them."""

    values: int = 0
    share: float = 0.0
    deviation: float = 0.0
    allowed: float = 0.0
    unit: str = ""


TALLIES: dict[tuple[str, str], Tally] = {}
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


def note(kind: str, source: str, deviation: float, allowed: float, unit: str) -> None:
    """Add one comparison to the table. Exact agreement with nothing allowed counts as a share of zero."""
    tally = TALLIES.setdefault((kind, source), Tally())
    share = deviation / allowed if allowed else (math.inf if deviation else 0.0)
    tally.values += 1
    if share >= tally.share:
        tally.share, tally.deviation, tally.allowed, tally.unit = share, deviation, allowed, unit


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    if not TALLIES:
        return
    terminalreporter.section("checks against outside sources")
    terminalreporter.write_line(f"{'kind':13}{'values':>7}  {'worst deviation (allowed)':32} source")
    for (kind, source), tally in sorted(TALLIES.items()):
        worst = f"{tally.deviation:.2g} ({tally.allowed:.2g}) {tally.unit}".rstrip()
        terminalreporter.write_line(f"{kind:13}{tally.values:>7}  {worst:32} {source}")
    total = sum(tally.values for tally in TALLIES.values())
    kinds = len({kind for kind, _ in TALLIES})
    terminalreporter.write_line(f"{total} values in {kinds} kinds")
