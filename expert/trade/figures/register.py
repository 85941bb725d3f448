"""The register of every calculation that a rule formula or a person may call by name.

`FIGURES["element_resistance"]` says what it takes and gives and where it comes from; `work_out` calls it with
quantities, converting units and refusing wrong kinds.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from expert.trade.figures.calculation import STANDINGS, Figure, Input, work_out
from expert.trade.figures.of_boiler import BOILER_FIGURES
from expert.trade.figures.of_circuits import CIRCUIT_FIGURES
from expert.trade.figures.of_elements import ELEMENT_FIGURES
from expert.trade.figures.of_flow import FLOW_FIGURES
from expert.trade.figures.of_heating import HEATING_FIGURES
from expert.trade.figures.of_safety import SAFETY_FIGURES
from expert.trade.figures.of_sensors import SENSOR_FIGURES
from expert.trade.figures.of_steam import STEAM_FIGURES
from expert.trade.figures.of_water import WATER_FIGURES

_ALL = (
    *STEAM_FIGURES,
    *BOILER_FIGURES,
    *HEATING_FIGURES,
    *FLOW_FIGURES,
    *ELEMENT_FIGURES,
    *SENSOR_FIGURES,
    *CIRCUIT_FIGURES,
    *SAFETY_FIGURES,
    *WATER_FIGURES,
)
FIGURES: Mapping[str, Figure] = MappingProxyType({figure.name: figure for figure in _ALL})

__all__ = ["FIGURES", "STANDINGS", "Figure", "Input", "work_out"]
