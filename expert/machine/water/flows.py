"""The piping of layout A, solved for pressures and flows at one instant.

Tank, valve, hose, filter, pump; at its outlet the tee with pump gauge and relief valve; from there the fill branch
(solenoid, non-return valve, boiler) and the brew branch (non-return valve, exchanger, lever valve, jet, basket).
Pressures in [bar gauge], flows in [ml/s]. One unknown is enough: the pressure deepest in the brew branch gives every
flow on the way back to the pump, and the pump's curve says which one is true.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from expert.machine.bench.bench import Bench
from expert.machine.build.plate import Plate
from expert.machine.build.water_parts import WaterParts
from expert.machine.water.holes import capacity, in_a_row, root, through
from expert.machine.water.pump import Drive, curve, pressure_at

PUCK = 6.5  # bar per ml/s: 9 bar at 1.4 ml/s (common practice, no source)
_BLOCKED_HEAD = 0.85  # bar of suction at which the water tears off (cavitation)
_HOSE = 4.0  # mm, an open line
_OPEN_JET, _OPEN_SHOWER = 3.0, 5.0  # mm, with jet or shower in the hand


@dataclass(frozen=True, slots=True)
class Situation:
    """What the piping is in: pump's drive, solenoid energised, boiler's pressure, water at the suction, the bench."""

    drive: Drive
    solenoid: bool
    boiler: float
    water_there: bool
    bench: Bench


@dataclass(frozen=True, slots=True)
class Flows:
    """Pressures and flows. tee: pump outlet, where the pump gauge sits; returned: through the relief valve to the tank;
    fill: into the boiler; fill_line: pressure between solenoid and its non-return valve; brew: through the brew
    non-return valve; pinhole: exchanger to boiler; chamber: under the shower; cup, rim, exhaust, drip: what comes out
    of the group; spilled: out of an opened line or a leaking hose; starved: the pump tears the water off."""

    pump: float = 0.0
    suction: float = 0.0
    tee: float = 0.0
    returned: float = 0.0
    fill: float = 0.0
    fill_line: float = 0.0
    brew: float = 0.0
    exchanger: float = 0.0
    pinhole: float = 0.0
    chamber: float = 0.0
    cup: float = 0.0
    rim: float = 0.0
    exhaust: float = 0.0
    drip: float = 0.0
    spilled: float = 0.0
    starved: bool = False


def flows(water: WaterParts, plate: Plate, now: Situation) -> Flows:
    """Solve the piping. With the pump still, or no water at it, everything is 0 (what stands then is `standing`)."""
    shut, free = curve(water.pump, plate, now.drive)
    sucks = suction_capacity(water, now.bench)
    if shut <= 0.0 or sucks <= 0.0 or not now.water_there:
        return Flows()
    most = sucks * math.sqrt(_BLOCKED_HEAD)
    branch = _brew_branch(water, now)

    def lacking(x: float) -> float:
        """What the pump makes above what the pressure x asks for; falls as x rises."""
        found = _upstream(water, now, branch(x))
        if found.pump >= most:
            return most - found.pump - 1e-3
        head = pressure_at(shut, free, found.pump) - (found.pump / sucks) ** 2
        return head - found.tee

    found = _upstream(water, now, branch(root(lacking, 0.0, shut)))
    return replace(found, suction=-min((found.pump / sucks) ** 2, _BLOCKED_HEAD), starved=found.pump > 0.97 * most)


def suction_capacity(water: WaterParts, bench: Bench) -> float:
    """Flow that 1 bar of suction draws from the tank, or from a jug, to the pump [ml/s]; 0 if nothing comes."""
    if "suction hose" in bench.pinched:
        return 0.0
    if "tank" not in bench.bypassed and not (water.tank.seated and water.tank.valve_opens):
        return 0.0
    without = "suction filter" in bench.bypassed | bench.removed
    ways = [water.suction.hose] if without else [water.suction.hose, water.suction.filter]
    return in_a_row(ways)


def _brew_branch(water: WaterParts, now: Situation) -> Callable[[float], Flows]:
    """The brew branch for a pressure at its deepest open place: chamber, exchanger, or the tee itself."""
    bench, group = now.bench, water.group
    way = in_a_row((water.brew_one_way.forward, water.exchanger.way))
    jet = capacity(_OPEN_JET if "group jet" in bench.removed else group.jet)
    if bench.loosened & {"pump outlet", "brew valve inlet"} or way <= 0.0:
        return lambda x: Flows(tee=x)
    if "brew valve outlet" in bench.loosened:
        valve = in_a_row((water.brew_one_way.forward, _HOSE))

        def to_air(x: float) -> Flows:
            flow = through(valve, max(x - water.brew_one_way.cracking, 0.0))
            return Flows(tee=x, brew=flow, spilled=flow)

        return to_air
    pinhole = capacity(water.exchanger.pinhole)

    def from_exchanger(pressure: float, out: Flows) -> Flows:
        lost = through(pinhole, pressure - now.boiler)
        brew = max(out.cup + out.rim + out.exhaust + out.drip + lost, 0.0)
        tee = pressure + (water.brew_one_way.cracking + (brew / way) ** 2 if brew else 0.0)
        return replace(out, exchanger=pressure, pinhole=lost, brew=brew, tee=tee)

    if not bench.lever_up or jet <= 0.0:
        drip = capacity(group.valve_leak)
        return lambda x: from_exchanger(x, Flows(drip=through(drip, x)))

    def from_chamber(x: float) -> Flows:
        out = _out_of_group(water, bench, x)
        flow = out.cup + out.rim + out.exhaust
        return from_exchanger(x + (flow / jet) ** 2, out)

    return from_chamber


def _out_of_group(water: WaterParts, bench: Bench, chamber: float) -> Flows:
    group = water.group
    shower = through(capacity(_OPEN_SHOWER if "shower screen" in bench.removed else group.shower), chamber)
    cup = {"none": shower, "blind": 0.0, "coffee": min(shower, chamber / PUCK)}[bench.basket]
    rim = through(capacity(group.rim_leak), chamber) if bench.basket != "none" else 0.0
    exhaust = 0.0 if "exhaust outlet" in bench.capped else through(capacity(group.exhaust_leak), chamber)
    return Flows(chamber=chamber, cup=cup, rim=rim, exhaust=exhaust)


def _upstream(water: WaterParts, now: Situation, found: Flows) -> Flows:
    """Everything that leaves at the tee besides the brew branch, and so what goes through the pump."""
    tee, bench = found.tee, now.bench
    spilled = found.spilled + through(capacity(water.hose_leak), tee)
    if bench.loosened & {"pump outlet", "brew valve inlet"}:
        spilled += through(capacity(_HOSE), tee)
    returned = 0.0
    if "return hose" not in bench.pinched:
        relief = water.relief
        returned = max(tee - relief.opens_at, 0.0) * relief.slope + through(capacity(relief.held), tee)
    fill, line, lost = 0.0, 0.0, 0.0
    if "pump outlet" not in bench.loosened:
        fill, line, lost = _fill_branch(water, now, tee)
    total = found.brew + returned + fill + lost + spilled - found.spilled  # what the brew line spills is in its flow
    return replace(found, returned=returned, fill=fill, fill_line=line, spilled=spilled + lost, pump=total)


def _fill_branch(water: WaterParts, now: Situation, tee: float) -> tuple[float, float, float]:
    """Flow into the boiler, pressure between solenoid and non-return valve, flow out of an opened line."""
    valve = water.fill_one_way
    hole = solenoid_hole(water, now.solenoid)
    if "solenoid inlet" in now.bench.loosened:
        return 0.0, 0.0, through(capacity(_HOSE), tee)
    if "solenoid outlet" in now.bench.loosened:
        return 0.0, 0.0, through(in_a_row((hole, _HOSE)), tee)
    if "fill valve outlet" in now.bench.loosened:
        out = through(in_a_row((hole, valve.forward)), max(tee - valve.cracking, 0.0))
        return 0.0, valve.cracking if out else tee * bool(hole), out
    way = in_a_row((hole, valve.forward))
    behind = max(now.boiler, 0.0)
    fill = through(way, max(tee - valve.cracking - now.boiler, 0.0))
    standing = behind if valve.back > 0.0 else 0.0
    if hole <= 0.0:
        return 0.0, standing, 0.0
    if fill <= 0.0:
        return 0.0, max(tee, standing), 0.0
    return fill, tee - (fill / capacity(hole)) ** 2, 0.0


def solenoid_hole(water: WaterParts, energised: bool) -> float:
    """Equal hole of the fill solenoid now [mm]."""
    solenoid = water.fill_solenoid
    if solenoid.plunger == "stuck shut":
        return 0.0
    if solenoid.plunger == "held open" or energised:
        return solenoid.open_hole
    return solenoid.shut_hole


def standing(water: WaterParts, bench: Bench, boiler: float, hot: bool) -> Flows:
    """Pressures with the pump still: what heat and leaking valves leave in the lines, and what drips.

    A sound exchanger, shut at both ends and heated, stands under the swelling of its water (capped at 5 bar by what
    seals give); with its non-return valve leaking back it stands at the boiler's pressure, and so does the tee.
    """
    boiler = max(boiler, 0.0)
    swelling = 5.0 if hot else 0.0
    leaks_back = water.brew_one_way.back > 0.0
    exchanger = boiler if leaks_back or water.exchanger.pinhole > 0.0 or water.group.valve_leak > 0.0 else swelling
    if bench.lever_up or bench.loosened & {"brew valve outlet"}:
        exchanger = 0.0
    through_fill = water.fill_one_way.back > 0.0
    line = boiler if through_fill and not bench.loosened & {"solenoid outlet", "fill valve outlet"} else 0.0
    back_to_tee = line if water.fill_solenoid.shut_hole > 0.0 or water.fill_solenoid.plunger == "held open" else 0.0
    tee = max(exchanger if leaks_back else 0.0, back_to_tee)
    if bench.loosened & {"pump outlet", "brew valve inlet", "solenoid inlet"} or water.relief.held > 0.0:
        tee = 0.0
    drip = through(capacity(water.group.valve_leak), exchanger)
    # An opened line between boiler and a leaking non-return valve lets boiler water out.
    spilled = 0.0
    if "solenoid outlet" in bench.loosened:
        spilled += through(capacity(water.fill_one_way.back), boiler)
    if bench.loosened & {"pump outlet", "brew valve inlet"}:
        spilled += through(capacity(water.brew_one_way.back), boiler)
    return Flows(tee=tee, exchanger=exchanger, fill_line=line, drip=drip, spilled=spilled)
