"""What could hurt: hazards that stand on the bench now, and those that an action meets. Physics only, no permission.

Limits: 50 V alternating against earth (IEC 61140 extra-low voltage), 0.1 bar gauge and 60 degC (common practice, no
source).
"""

from __future__ import annotations

from expert.machine.bench import actions as a
from expert.machine.hands.do import do
from expert.machine.mains.wiring import POINTS
from expert.machine.running.advance import settled
from expert.machine.running.instant import Instant, space_of
from expert.machine.running.machine import Machine

LIVE_VOLTS, UNDER_PRESSURE, SCALDS = 50.0, 0.1, 60.0
_BOILER_OPENED = ("vacuum valve", "safety valve")


def hazards_now(machine: Machine) -> tuple[str, ...]:
    """Hazards that stand: "body live", "live parts open", "boiler under pressure", "boiler above its safety valve",
    "hot", "brew side under pressure", "basket under pressure", "element heats dry", "a high limit is bridged"."""
    machine, now = settled(machine, coarse=False)
    mains, state = machine.parts.mains, machine.state
    valve = machine.parts.water.safety_valve
    bridged = mains.limit_1.bridged or mains.limit_2.bridged or _links_a_limit(machine)
    bare = now.space.water < 0.9 * machine.parts.water.boiler.element_top
    standing = {
        "body live": now.supply.between("chassis", "true earth") > LIVE_VOLTS,
        "live parts open": machine.bench.covers_off and _any_live(now),
        "boiler under pressure": now.space.gauge > UNDER_PRESSURE,
        "boiler above its safety valve": now.space.gauge > max(min(valve.lifts_at, 2.0), 0.5) + 0.3,
        "hot": max(state.boiler, state.group) > SCALDS,
        "brew side under pressure": now.flows.tee > UNDER_PRESSURE or now.flows.exchanger > UNDER_PRESSURE,
        "basket under pressure": max(state.trapped, now.flows.chamber) > UNDER_PRESSURE,
        "element heats dry": bare and now.supply.element_watts > 50.0,
        "a high limit is bridged": bridged,
    }
    return tuple(name for name, stands in standing.items() if stands)


def hazards_of(machine: Machine, action: a.Action) -> tuple[str, ...]:
    """What an action meets as the machine stands, besides what stands already: "live terminal touched", "live parts
    laid open", "opened under pressure", "opened hot", and whatever newly stands once it is done."""
    before = set(hazards_now(machine))
    after = [name for name in hazards_now(do(machine, action)) if name not in before]
    return tuple(dict.fromkeys([*_met(machine, action), *after]))


def _met(machine: Machine, action: a.Action) -> list[str]:
    machine, now = settled(machine, coarse=False)
    if isinstance(action, a.Covers):
        return ["live parts laid open"] if action.off and _any_live(now) else []
    touched = _points_touched(action)
    found = ["live terminal touched"] if any(_live(now, point) for point in touched) else []
    if isinstance(action, a.Basket):
        under = max(machine.state.trapped, now.flows.chamber) > UNDER_PRESSURE
        found += ["opened under pressure"] if under else []
    if isinstance(action, a.Alter | a.DrainBoiler | a.PourIntoBoiler):
        pressure, hot = _behind(machine, now, action)
        found += ["opened under pressure"] if pressure > UNDER_PRESSURE else []
        found += ["opened hot"] if hot else []
    return found


def _points_touched(action: a.Action) -> tuple[str, ...]:
    if isinstance(action, a.Link):
        return (action.one, action.other)
    if isinstance(action, a.Battery):
        return (action.plus, action.minus)
    if isinstance(action, a.Alter | a.PutBack) and action.kind == "lift":
        return (action.what,)
    if isinstance(action, a.Alter) and action.kind == "feed":
        return {"pump": ("limiter.in",), "fill solenoid": ("fill coil.a",), "element": ("element.a",)}[action.what]
    if isinstance(action, a.NewFuse):
        return (f"{action.which} fuse.in",)
    return ()


def _live(now: Instant, point: str) -> bool:
    return now.supply.between(point, "true earth") > LIVE_VOLTS


def _any_live(now: Instant) -> bool:
    return any(_live(now, point) for point in POINTS if not point.startswith("plug."))


def _links_a_limit(machine: Machine) -> bool:
    return any(
        {f"limit {number}.in", f"limit {number}.out"} <= {one, other}
        for one, other, _ in machine.bench.links
        for number in (1, 2)
    )


def _behind(machine: Machine, now: Instant, action: a.Action) -> tuple[float, bool]:
    """Pressure behind what is opened [bar], and whether what is there scalds."""
    boiler, hot = max(space_of(machine).gauge, 0.0), machine.state.boiler > SCALDS
    if isinstance(action, a.DrainBoiler | a.PourIntoBoiler):
        return boiler, hot
    if not isinstance(action, a.Alter):
        return 0.0, False
    if action.kind == "remove":
        if action.what in _BOILER_OPENED:
            return boiler, hot
        return (now.flows.exchanger, hot) if action.what == "group jet" else (0.0, False)
    if action.kind != "loosen":
        return 0.0, False
    lines = {
        "solenoid outlet": (now.flows.fill_line, hot and now.flows.fill_line > 0.0),
        "fill valve outlet": (boiler, hot),
        "brew valve outlet": (now.flows.exchanger, hot),
    }
    return lines.get(action.what, (now.flows.tee, False))
