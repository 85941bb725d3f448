"""Mains bands against the published figures."""

from __future__ import annotations

import pytest

from expert.trade.limits.mains import mains_highest, mains_lowest
from expert.trade.physics.element import power_at_voltage

from .conftest import Check
from .sources import Source, restated

KIND = "mains"
ONE = restated("the bands as published")
MEMORY = restated("from memory, to be confirmed")
ROWS = [
    ("europe", 207, 253, ONE),
    ("europe_in_use", 198, 253, MEMORY),
    ("europe_old", 216.2, 253, ONE),
    ("north_america", 114, 126, ONE),
    ("north_america_in_use", 110, 126, MEMORY),
]


@pytest.mark.parametrize(("band", "low", "high", "source"), ROWS)
def test_bands(band: str, low: float, high: float, source: Source, check: Check) -> None:
    check(mains_lowest(band), low, source, within=1e-9, unit="V")
    check(mains_highest(band), high, source, within=1e-9, unit="V")


PERCENTS = [("europe", 230, 10, 10), ("europe_old", 230, 6, 10), ("north_america", 120, 5, 5)]


@pytest.mark.parametrize(("band", "nominal", "below", "above"), PERCENTS)
def test_bands_are_their_percentages(band: str, nominal: float, below: float, above: float, check: Check) -> None:
    source = restated("percent of the nominal voltage")
    check(mains_lowest(band), nominal * (1 - below / 100), source, within=1e-9, unit="V")
    check(mains_highest(band), nominal * (1 + above / 100), source, within=1e-9, unit="V")


def test_weak_heat_where_both_supplies_exist(check: Check) -> None:
    check(power_at_voltage(100.0, 240.0, 208.0), 75.1, restated("(208/240)^2"), within=0.05, unit="%")
