"""Observations that take time: watching, and catching water."""

from __future__ import annotations

from collections.abc import Iterator

from expert.machine.bench.actions import DrainBoiler
from expert.machine.hands.do import do
from expert.machine.mains.control_volts import relay_is_driven
from expert.machine.running.advance import advance, settled
from expert.machine.running.instant import Instant
from expert.machine.running.machine import Machine
from expert.machine.running.outflow import outflow
from expert.machine.seeing import observations as o
from expert.machine.seeing.gauges import outlet_flow
from expert.machine.seeing.instruments import read
from expert.machine.seeing.seen import Course, Moment, Seen, Unseen

# What starts and what ends, by the words of the two events.
_SWITCHING: tuple[tuple[str, str, str], ...] = (
    ("call_lamp", "fill call starts", "fill call ends"),
    ("pumping", "pump starts", "pump stops"),
    ("heating", "heating starts", "heating stops"),
    ("alarm_lamp", "alarm", "alarm ends"),
    ("limit_1", "limit 1 opens", "limit 1 closes"),
    ("limit_2", "limit 2 opens", "limit 2 closes"),
    ("lifted", "safety valve lifts", "safety valve shuts"),
    ("fuse", "fuse blows", "fuse whole"),
    ("board_fuse", "board fuse blows", "board fuse whole"),
    ("rcd", "residual-current device trips", "residual-current device on"),
    ("limiter", "pump limiter opens", "pump limiter closes"),
    ("vacuum", "vacuum valve shuts", "vacuum valve opens"),
    ("empty", "tank empty", "tank filled"),
    ("burnt", "element burns out", "element whole"),
    ("full", "boiler full", "boiler no longer full"),
)

_RUNNING = ("call_lamp", "pumping", "heating", "lifted")


def _flags(machine: Machine, now: Instant) -> dict[str, bool]:
    state = machine.state
    return {
        "call_lamp": now.board.call_lamp,
        "pumping": now.supply.pump > 0.0,
        "heating": now.supply.element_watts > 0.0,
        "alarm_lamp": now.board.alarm_lamp,
        "limit_1": state.limit_1_open,
        "limit_2": state.limit_2_open,
        "lifted": outflow(machine, now).lifted,
        "fuse": state.fuse_blown,
        "board_fuse": state.board_fuse_blown,
        "rcd": state.rcd_tripped,
        "limiter": state.limiter_open,
        "vacuum": state.vacuum_shut,
        "empty": state.tank < 0.05,
        "burnt": state.element_burnt,
        "full": now.space.full,
    }


def watched(machine: Machine, seconds: float) -> tuple[Machine, Course]:
    """The machine after so many seconds, and what happened meanwhile."""
    start = machine.state.clock
    moments: list[Moment] = []
    events: list[tuple[float, str]] = []
    before: dict[str, bool] = {}

    def note(at: Machine, now: Instant) -> bool:
        flags = _flags(at, now)
        second = round(at.state.clock - start, 2)
        events.extend((second, word) for word in _changes(before, flags))
        before.update(flags)
        moments.append(moment(at, now, second))
        return False

    machine = advance(machine, seconds, note)
    return machine, Course(tuple(moments), tuple(events))


def _changes(before: dict[str, bool], after: dict[str, bool]) -> Iterator[str]:
    """Events between two looks. At the first look what runs counts as just started; what stands does not."""
    for flag, starts, ends in _SWITCHING:
        was = before.get(flag, after[flag] and flag not in _RUNNING)
        if after[flag] != was:
            yield starts if after[flag] else ends


def moment(machine: Machine, now: Instant, second: float) -> Moment:
    """One moment in numbers."""
    shown = now.display
    return Moment(
        second=second,
        boiler_temperature=machine.state.boiler,
        boiler_pressure=now.space.gauge,
        boiler_litres=now.space.water,
        tank_litres=machine.state.tank,
        display=shown.message or f"{shown.temperature:.0f}",
        element_watts=now.supply.element_watts,
        pump_volts=now.supply.pump,
        pump_flow=now.flows.pump,
        tee_pressure=now.flows.tee,
        fill_flow=now.flows.fill,
        group_temperature=machine.state.group,
        solenoid_on=now.solenoid_on,
        call_lamp=now.board.call_lamp,
        alarm_lamp=now.board.alarm_lamp,
        empty_lamp=now.board.empty_lamp,
        heat_lamp=relay_is_driven(machine.parts, now.contacts, machine.bench),
    )


def collected(machine: Machine, asked: o.Collect) -> tuple[Machine, Seen]:
    """Water caught in so many seconds, the exchanger's steam blown off first."""
    caught, last = 0.0, [machine.state.clock, outlet_flow(machine, settled(machine)[1], asked.outlet)]

    def note(at: Machine, now: Instant) -> bool:
        nonlocal caught
        caught += last[1] * (at.state.clock - last[0])
        last[:] = [at.state.clock, outlet_flow(at, now, asked.outlet)]
        return False

    machine = advance(machine, asked.seconds, note)
    return machine, read(machine, "scales", caught, asked)


def drained(machine: Machine, asked: o.Drained) -> tuple[Machine, Seen]:
    """What comes out of the boiler when it is drained."""
    now = settled(machine)[1]
    if machine.bench.plugged or machine.state.boiler > 60.0 or now.space.gauge > 0.05:
        return machine, Unseen("plugged in, hot or under pressure")
    return do(machine, DrainBoiler()), read(machine, "scales", now.space.water * 1000, asked)
