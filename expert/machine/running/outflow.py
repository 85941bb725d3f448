"""What leaves the boiler at one instant: steam through every opening, water through the tap, and where it shows."""

from __future__ import annotations

import math
from dataclasses import dataclass

from expert.machine.heat.properties import air_pressure
from expert.machine.heat.steam import steam_flow
from expert.machine.running.instant import Instant, vacuum_hole
from expert.machine.running.machine import Machine
from expert.machine.water.holes import capacity

_CRACK = 0.1  # bar from first lift of the safety valve to fully open


@dataclass(frozen=True, slots=True)
class Outflow:
    """Steam [kg/s] by its way out, and boiler water out of the hot-water tap [kg/s]. lifted: the safety valve."""

    vacuum: float = 0.0
    steam_tap: float = 0.0
    steam_knob: float = 0.0
    safety: float = 0.0
    gasket: float = 0.0
    water_tap: float = 0.0
    lifted: bool = False

    @property
    def steam(self) -> float:
        """All steam [kg/s]."""
        return self.vacuum + self.steam_tap + self.steam_knob + self.safety + self.gasket


def outflow(machine: Machine, now: Instant) -> Outflow:
    """What leaves the boiler now."""
    water, bench = machine.parts.water, machine.bench
    gauge = now.space.gauge
    if gauge <= 0.0:
        return Outflow()
    air, temperature = air_pressure(machine.build.altitude), machine.state.boiler

    def steam(diameter: float) -> float:
        return steam_flow(gauge, air, temperature, diameter)

    valve = water.safety_valve
    lift = min(max((gauge - valve.lifts_at) / _CRACK, 0.0), 1.0)
    tip = 0.0 if "steam tip" in bench.capped else 3.0 if "steam" in bench.tips_off else water.steam_tap.tip
    seat = 0.0 if "steam tip" in bench.capped else water.steam_tap.seat_leak
    opened = bench.steam_tap
    return Outflow(
        vacuum=steam(vacuum_hole(machine)),
        steam_tap=steam(tip) * opened + steam(seat) * (opened == 0.0),
        steam_knob=steam(water.steam_tap.spindle_leak) * (opened > 0.0),
        safety=steam(valve.hole) * lift + steam(valve.weep),
        gasket=steam(water.boiler.gasket) + (steam(4.0) if "safety valve" in bench.removed else 0.0),
        water_tap=_water_out(machine, gauge),
        lifted=lift > 0.0,
    )


def _water_out(machine: Machine, gauge: float) -> float:
    tap, bench = machine.parts.water.water_tap, machine.bench
    if machine.state.boiler_water < 0.2 or "water tip" in bench.capped:
        return 0.0
    tip = 4.0 if "water" in bench.tips_off else tap.tip
    flow = capacity(tip) * math.sqrt(gauge) * bench.water_tap
    leaks = capacity(tap.spindle_leak if bench.water_tap else tap.seat_leak) * math.sqrt(gauge)
    return (flow + leaks) / 1000
