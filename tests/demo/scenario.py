"""The demo jobs: an invented shop, invented people, invented machines. Nothing here is a check of the trade.

Each job names what is typed at a question: a list of visits, each a list of lines. A question without an entry is
answered as a sound machine would.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field


@dataclass(frozen=True)
class DemoJob:
    """One invented job.

    `visits`: for a question id the lines typed each time it is put; `after_repair`: from the first repair on.
    """

    number: str
    technician: str
    complaints: Sequence[str]
    visits: Mapping[str, Sequence[Sequence[str]]]
    after_repair: Mapping[str, Sequence[Sequence[str]]] = field(default_factory=dict)
    arrives: str = "1"
    plate: Sequence[str] = ()
    ending: str = "1"
    note: str = "no"
    danger: Sequence[str] = ("hand over",)
    take_back: Sequence[str] = ()
    said_of_repair: Mapping[str, str] = field(default_factory=dict)


JOBS = (
    DemoJob(
        number="demo-1-straight",
        technician="Ines (demo)",
        complaints=["the boiler will not fill", "1"],
        visits={
            "fill_is_called": [["yes"]],
            "pump_runs_on_fill": [["why", "yes"]],
            "water_reaches_boiler": [["how", "no"]],
            "fill_valve_sound": [["silent"]],
            "how_the_fill_ends": [["on_and_on"]],
            "hot_water_tap": [["none"]],
            "fill_coil_resistance": [["OL"]],
        },
        note="customer uses bottled water",
    ),
    DemoJob(
        number="demo-2-taken-back",
        technician="Tomo (demo)",
        complaints=["the pump is dead", "1"],
        visits={
            "pump_runs_on_brew": [["no"]],
            "pump_runs_on_fill": [["no"]],
            "fill_is_called": [["yes"]],
            "pump_coil": [["what if open_both", "open_both"], ["note first reading was taken on ohms", "one_way"]],
            "pump_limiter_continuity": [["no"]],
            "pump_use_when_it_stops": [["long_runs"]],
        },
        take_back=("pump_coil",),
    ),
    DemoJob(
        number="demo-3-normal",
        technician="Ines (demo)",
        complaints=["it hisses when it heats up", "1"],
        visits={"vacuum_valve_on_heat_up": [["how", "snaps"]]},
    ),
    DemoJob(
        number="demo-4-danger",
        technician="Tomo (demo)",
        complaints=["blows off"],
        arrives="2",
        visits={
            "safety_valve_outlet": [["lifts"]],
            "second_gauge_pressure": [["2.1 bar"]],
            "boiler_pressure": [["2.0 bar"]],
        },
    ),
    DemoJob(
        number="demo-5-two-faults",
        technician="Ines (demo)",
        complaints=["the brew pressure is too low", "1"],
        visits={
            "blind_pressure": [["3.5"]],
            "return_when_blind": [["strong"]],
            "portafilter_pressure": [["3.4"]],
            "pressure_with_return_held": [["rises_part"]],
            "return_in_free_flow": [["runs"]],
            "pump_gauge_in_free_flow": [["1.5"]],
            "free_flow": [["5.1 ml/s"]],
        },
        after_repair={
            "blind_pressure": [["6.5"], ["9.6"]],
            "portafilter_pressure": [["6.4"], ["9.5"]],
            "return_when_blind": [["dry"], ["some"]],
            "pressure_with_return_held": [["no_change"]],
            "free_flow": [["6.6 ml/s"], ["8 ml/s"]],
            "pump_gauge_in_free_flow": [["2.4"]],
        },
    ),
)
