"""Faults of boiler, valves, gauges, exchanger, loop and taps. Grades: common practice, no source."""

from __future__ import annotations

from expert.machine.faults.change import Set
from expert.machine.faults.fault import COMMON, OCCASIONAL, RARE, Fault

_W = "parts.water."

BOILER_FAULTS = (
    Fault("safety valve", "weeps", COMMON, (Set(_W + "safety_valve.weep", 0.35),)),
    Fault("safety valve", "lifts low", OCCASIONAL, (Set(_W + "safety_valve.lifts_at", 0.85),)),
    Fault("safety valve", "stuck shut", RARE, (Set(_W + "safety_valve.lifts_at", 25.0),), dangerous=True),
    Fault("vacuum valve", "stuck open", COMMON, (Set(_W + "vacuum_valve.state", "stuck open"),)),
    Fault("vacuum valve", "stuck closed", COMMON, (Set(_W + "vacuum_valve.state", "stuck closed"),)),
    Fault("boiler gauge", "stuck at zero", OCCASIONAL, (Set(_W + "boiler_gauge.stuck_at", 0.0),), True),
    Fault("boiler gauge", "stuck at working pressure", OCCASIONAL, (Set(_W + "boiler_gauge.stuck_at", 1.1),)),
    Fault("boiler gauge", "reads high", OCCASIONAL, (Set(_W + "boiler_gauge.offset", 0.45),)),
    Fault("boiler gauge", "reads low", OCCASIONAL, (Set(_W + "boiler_gauge.offset", -0.4),)),
    Fault("boiler gauge", "capillary blocked", OCCASIONAL, (Set(_W + "boiler_gauge.blocked", True),), True),
    Fault("heat exchanger", "pinhole into the boiler", RARE, (Set(_W + "exchanger.pinhole", 0.5),)),
    Fault("heat exchanger", "scaled inside", OCCASIONAL, (Set(_W + "exchanger.way", 0.55),)),
    Fault("thermosyphon", "restricted by scale", COMMON, (Set(_W + "loop.circulation", 0.06),)),
    Fault("thermosyphon", "air lock", OCCASIONAL, (Set("state.loop_air", True),)),
    Fault("thermosyphon", "circulates too much", OCCASIONAL, (Set(_W + "loop.circulation", 1.6),)),
    Fault("boiler gasket", "leaks", COMMON, (Set(_W + "boiler.gasket", 0.35),)),
    Fault("steam tap", "seat worn", COMMON, (Set(_W + "steam_tap.seat_leak", 0.3),)),
    Fault("steam tap", "spindle seal leaks", COMMON, (Set(_W + "steam_tap.spindle_leak", 0.4),)),
    Fault("steam tap", "tip blocked", COMMON, (Set(_W + "steam_tap.tip", 0.4),)),
    Fault("water tap", "seat worn", COMMON, (Set(_W + "water_tap.seat_leak", 0.25),)),
    Fault("water tap", "spindle seal leaks", COMMON, (Set(_W + "water_tap.spindle_leak", 0.3),)),
    Fault("water tap", "tip blocked", COMMON, (Set(_W + "water_tap.tip", 0.3),)),
)
