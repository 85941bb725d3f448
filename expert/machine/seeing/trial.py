"""A trial use, as an owner uses the machine: switch on, let it heat, draw steam, brew. What came of it, in numbers."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from expert.machine.bench import actions as a
from expert.machine.hands.do import do
from expert.machine.heat.properties import air_pressure, saturation_temperature
from expert.machine.running.advance import settled
from expert.machine.running.machine import Machine
from expert.machine.seeing import observations as o
from expert.machine.seeing.observe import observe
from expert.machine.seeing.seen import Course, Reading, Sight
from expert.machine.seeing.watching import watched

HEAT_MINUTES = 40.0


@dataclass(frozen=True, slots=True)
class Trial:
    """What an owner takes in. Times in [s], infinite if it did not happen; temperatures [degC], pressures [bar gauge],
    flows [ml/s]. boiler, gauge: at the end of the heating; hottest, highest: the most of it. pump_alone: seconds of
    pump with the lever down and no call for water. Words are those of `sights`."""

    lamp: bool
    tripped_at: float
    hot_at: float
    boiler: float
    hottest: float
    highest: float
    gauge: float
    gauge_cold: float
    group: float
    alarm: bool
    empty_lamp: bool
    display: str
    lifted: bool
    vacuum: str
    pump_alone: float
    steam: str
    steam_fell_to: float
    pump_sound: str
    free_flow: float
    blind: float
    idle_pump_gauge: float
    body_volts: float
    looks: tuple[tuple[str, str], ...]

    def look(self, place: str) -> str:
        """What a look at a place showed; "" if it was not looked at."""
        return dict(self.looks).get(place, "")


@lru_cache(maxsize=512)
def trial(machine: Machine) -> Trial:
    """Use a machine as it stands, its tank filled and seated only if it is; the machine itself is not changed."""
    cold = _number(machine, o.PressureOn("boiler gauge"))
    machine = do(do(do(machine, a.FillTank()), a.Plug()), a.Switch())
    machine, course = watched(machine, HEAT_MINUTES * 60.0)
    hot, now = settled(machine)
    steamed, steam, fell = _steam(hot)
    # A minute for the boiler to be filled again: a fill would take its share of the brew water.
    brewing = do(do(do(steamed, a.Tap("steam", 0.0)), a.Wait(60.0)), a.Lever())
    blind = do(brewing, a.Basket("blind"))
    return Trial(
        lamp=course.moments[0].display != "dark" or _word(hot, o.Lamp("mains")) == "on",
        tripped_at=_or_never(course.happened("residual-current device trips"), machine),
        hot_at=_hot_at(machine, course),
        boiler=hot.state.boiler,
        hottest=max(m.boiler_temperature for m in course.moments),
        highest=max(m.boiler_pressure for m in course.moments),
        gauge=_number(hot, o.PressureOn("boiler gauge")),
        gauge_cold=cold,
        group=hot.state.group,
        alarm=now.board.alarm_lamp,
        empty_lamp=now.board.empty_lamp,
        display=now.display.message,
        lifted=course.happened("safety valve lifts") is not None,
        vacuum=_word(do(hot, a.Covers()), o.Look("vacuum valve")),
        pump_alone=_pump_alone(course),
        steam=steam,
        steam_fell_to=fell,
        pump_sound=_word(brewing, o.Listen("pump")),
        free_flow=_number(brewing, o.Collect("group", 10.0)) / 10.0,
        blind=_number(blind, o.PressureOn("pump gauge")),
        idle_pump_gauge=_number(hot, o.PressureOn("pump gauge")),
        body_volts=now.supply.between("chassis", "true earth"),
        looks=_looks(hot, brewing, blind),
    )


def _looks(hot: Machine, brewing: Machine, blind: Machine) -> tuple[tuple[str, str], ...]:
    """What a look shows at rest, at the first flush, against a blind basket, and with a tap open."""
    asked = [(place, hot, place) for place in ("safety valve outlet", "steam tip", "water tip", "shower")]
    asked.append(("first flush", brewing, "shower"))
    asked += [(place, blind, place) for place in ("exhaust", "group rim", "exhaust on lowering", "under tank")]
    asked.append(("underneath", do(blind, a.Covers()), "under boiler"))
    asked += [(f"{tap} knob", do(hot, a.Tap(tap)), f"{tap} knob") for tap in ("steam", "water")]
    asked.append(("water tap open", do(hot, a.Tap("water")), "water tip"))
    return tuple((name, _word(machine, o.Look(place))) for name, machine, place in asked)


def _steam(hot: Machine) -> tuple[Machine, str, float]:
    opened = do(hot, a.Tap("steam"))
    word = _word(opened, o.Look("steam tip"))
    opened = do(opened, a.Wait(30.0))
    return opened, word, settled(opened)[1].space.gauge


def _number(machine: Machine, asked: o.Observation) -> float:
    seen = observe(machine, asked)[1]
    return seen.value if isinstance(seen, Reading) else 0.0


def _word(machine: Machine, asked: o.Observation) -> str:
    seen = observe(machine, asked)[1]
    return seen.word if isinstance(seen, Sight) else ""


def _or_never(second: float | None, machine: Machine) -> float:
    if second is not None:
        return second
    return 0.0 if machine.state.rcd_tripped else float("inf")


def _hot_at(machine: Machine, course: Course) -> float:
    """When the boiler was 15 K above the local boiling point, about half a bar."""
    enough = saturation_temperature(air_pressure(machine.build.altitude)) + 15.0
    return next((m.second for m in course.moments if m.boiler_temperature >= enough), float("inf"))


def _pump_alone(course: Course) -> float:
    """Seconds for which the pump ran with the lever down and no call for water."""
    steps = pairwise(course.moments)
    return sum(after.second - at.second for at, after in steps if at.pump_volts > 0.0 and not at.call_lamp)
