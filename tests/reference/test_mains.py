"""Mains bands against the published figures."""

from __future__ import annotations

import pytest

from expert.trade.limits.mains import mains_highest, mains_lowest
from expert.trade.physics.element import power_at_voltage

from .conftest import Check
from .sources import Source, restated, transcription

KIND = "mains"
AMENDED = transcription(
    "IEC 60038 as amended to 1997, quoted at pangonilo.com: +-10 %, in use 14 % below", ours="memory"
)
CENELEC = transcription(
    "Cenelec's steps as a note to the IEE wiring regulations prints them: 216.2 to 253 V, then 207 to 253 V",
    ours="percent of 230 V",
)
FIVE = transcription("a maker of converters on North American voltages: utilities keep within 5 %", ours="ANSI C84.1")
MEMORY = restated("from memory, to be confirmed")
ROWS = [
    ("europe", 207, 253, CENELEC),
    ("europe_in_use", 197.8, 253, AMENDED),
    ("europe_old", 216.2, 253, CENELEC),
    ("north_america", 114, 126, FIVE),
    ("north_america_in_use", 110, 126, MEMORY),
]


@pytest.mark.parametrize(("band", "low", "high", "source"), ROWS)
def test_bands(band: str, low: float, high: float, source: Source, check: Check) -> None:
    check(mains_lowest(band), low, source, within=0.21, unit="V")  # 198 V is 14 % below 230 V, in whole volts
    check(mains_highest(band), high, source, within=1e-9, unit="V")


PERCENTS = [("europe", 230, 10, 10), ("europe_old", 230, 6, 10), ("north_america", 120, 5, 5)]


@pytest.mark.parametrize(("band", "nominal", "below", "above"), PERCENTS)
def test_bands_are_their_percentages(band: str, nominal: float, below: float, above: float, check: Check) -> None:
    source = restated("percent of the nominal voltage")
    check(mains_lowest(band), nominal * (1 - below / 100), source, within=1e-9, unit="V")
    check(mains_highest(band), nominal * (1 + above / 100), source, within=1e-9, unit="V")


def test_weak_heat_where_both_supplies_exist(check: Check) -> None:
    check(power_at_voltage(100.0, 240.0, 208.0), 75.1, restated("(208/240)^2"), within=0.05, unit="%")
