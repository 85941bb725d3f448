"""Carrying out an action: `do(machine, action) -> machine`. The clock runs only where the action takes time to work."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from expert.machine.bench import actions as a
from expert.machine.bench.bench import BASKETS
from expert.machine.build.plate import USUAL_CONDUCTIVITY
from expert.machine.faults.catalogue import mended
from expert.machine.hands.altering import all_put_back, altered, check_point, put_back
from expert.machine.hands.sound import sound_machine
from expert.machine.heat.properties import air_pressure
from expert.machine.heat.steam import air_shut_in, boiler_space
from expert.machine.running.advance import advance, settled
from expert.machine.running.instant import Instant, live, space_of, wall_at_limits
from expert.machine.running.machine import Machine

_RESET_BELOW = 30.0  # K under its opening temperature
_NIGHT = 10 * 3600.0
_DRIED = 0.02  # what two hours of warm air leave of the damp (common practice, no source)


def do(machine: Machine, action: a.Action) -> Machine:
    """The machine after an action. ValueError for a name or value that the machine does not have.

    >>> from expert.machine.hands.sound import sound_machine
    >>> from expert.machine.build.plate import Build
    >>> do(sound_machine(Build()), a.Lever(up=True)).bench.lever_up
    True
    """
    return _DOING[type(action)](machine, action)


def _bench(machine: Machine, **fields: Any) -> Machine:
    """With fields of the bench changed, and what acts at once done."""
    return settled(replace(machine, bench=replace(machine.bench, **fields)))[0]


def _state(machine: Machine, **fields: Any) -> Machine:
    return replace(machine, state=replace(machine.state, **fields))


def _plug(machine: Machine, action: a.Plug) -> Machine:
    if action.in_socket:
        machine = _state(machine, rcd_tripped=False)
    machine = _bench(machine, plugged=action.in_socket)
    return machine if live(machine) else _without_power(machine)


def _switch(machine: Machine, action: a.Switch) -> Machine:
    machine = _bench(machine, switch_on=action.on)
    return machine if live(machine) else _without_power(machine)


def _without_power(machine: Machine) -> Machine:
    """What forgets when the power goes: the board's memory, the controller's output."""
    return advance(_state(machine, calls_heat=False), 0.3)


def _heat_up(machine: Machine, action: a.HeatUp) -> Machine:
    machine = _switch(machine, a.Switch(True))
    target = machine.parts.mains.controller.set_point - 0.8

    def hot(now: Machine, instant: Instant) -> bool:
        shown = instant.display.temperature
        return shown is not None and shown >= target and not now.state.board.calling

    machine = advance(machine, action.minutes * 60.0, hot)
    return advance(machine, action.settle * 60.0)


def _cool_down(machine: Machine, action: a.CoolDown) -> Machine:
    machine = _switch(machine, a.Switch(False))
    below = max(action.below, machine.build.room + 2.0)
    return advance(machine, _NIGHT, lambda now, _: max(now.state.boiler, now.state.group) < below)


def _dry(machine: Machine, action: a.Dry) -> Machine:
    machine = advance(_switch(machine, a.Switch(False)), 7200.0)
    return replace(machine, state=replace(machine.state, moisture=machine.state.moisture * _DRIED))


def _vent(machine: Machine, action: a.Vent) -> Machine:
    before = machine.bench
    machine = _bench(machine, steam_tap=1.0)
    machine = advance(machine, 240.0, lambda _, now: now.space.gauge < 0.02)
    machine = _bench(machine, steam_tap=before.steam_tap)
    return _state(machine, trapped=0.0)


def _lever(machine: Machine, action: a.Lever) -> Machine:
    if machine.bench.lever_up and not action.up:
        chamber = settled(machine)[1].flows.chamber
        releases = machine.parts.water.group.exhaust_releases or machine.bench.basket == "none"
        machine = _state(machine, trapped=0.0 if releases else chamber)
    elif action.up:
        machine = _state(machine, trapped=0.0)
    return _bench(machine, lever_up=action.up)


def _basket(machine: Machine, action: a.Basket) -> Machine:
    if action.kind not in BASKETS:
        raise ValueError(f"{action.kind!r} is not a basket; {', '.join(BASKETS)} would do")
    return _bench(_state(machine, trapped=0.0), basket=action.kind)


def _tap(machine: Machine, action: a.Tap) -> Machine:
    if action.which not in ("steam", "water") or not 0.0 <= action.share <= 1.0:
        raise ValueError(f"no tap {action.which!r} opened by {action.share:g}; steam or water, 0 to 1")
    return _bench(machine, **{f"{action.which}_tap": action.share})


def _fill_tank(machine: Machine, action: a.FillTank) -> Machine:
    most = machine.parts.water.tank.litres
    litres = most if action.litres is None else min(max(action.litres, 0.0), most)
    return settled(_state(machine, tank=litres))[0]


def _boiler_to(machine: Machine, litres: float) -> Machine:
    """The boiler holding so much water, opened to the air meanwhile: let out as it is, or tap water poured in."""
    state = machine.state
    air = air_pressure(machine.build.altitude)
    space = boiler_space(state.boiler, litres, 0.0, machine.parts.water.boiler.litres, air).space
    kept = state.salts * min(litres / state.boiler_water, 1.0)
    poured = max(litres - state.boiler_water, 0.0) * USUAL_CONDUCTIVITY
    shut_in = air_shut_in(state.boiler, space, air)
    return _state(machine, boiler_water=litres, boiler_air=shut_in, salts=kept + poured)


def _reset_limit(machine: Machine, action: a.ResetLimit) -> Machine:
    mains = machine.parts.mains
    limit = {1: mains.limit_1, 2: mains.limit_2}[action.number]
    takes = limit.resets and wall_at_limits(machine) < limit.opens_at - _RESET_BELOW
    name = f"limit_{action.number}_open"
    return settled(_state(machine, **{name: getattr(machine.state, name) and not takes}))[0]


def _new_fuse(machine: Machine, action: a.NewFuse) -> Machine:
    name = {"mains": "fuse_blown", "board": "board_fuse_blown"}[action.which]
    return settled(_state(machine, **{name: False}))[0]


def _settings(machine: Machine, action: a.Settings) -> Machine:
    wanted = {"set_point": action.set_point, "offset": action.offset, "expects": action.expects}
    given = {name: value for name, value in wanted.items() if value is not None}
    controller = replace(machine.parts.mains.controller, **given)  # type: ignore[arg-type]
    mains = replace(machine.parts.mains, controller=controller)
    return settled(replace(machine, parts=replace(machine.parts, mains=mains)))[0]


def _link(machine: Machine, action: a.Link) -> Machine:
    check_point(action.one)
    check_point(action.other)
    return _bench(machine, links=(*machine.bench.links, (action.one, action.other, action.ohms)))


def _battery(machine: Machine, action: a.Battery) -> Machine:
    return _bench(machine, battery=(action.plus, action.minus, action.volts) if action.volts > 0.0 else None)


def _prime(machine: Machine, action: a.PrimePump) -> Machine:
    water = replace(machine.parts.water, pump=replace(machine.parts.water.pump, self_primes=True))
    return _state(replace(machine, parts=replace(machine.parts, water=water)), primed=True)


def _knock(machine: Machine, action: a.KnockPump) -> Machine:
    if settled(machine)[1].supply.pump <= 0.0:
        return machine
    water = replace(machine.parts.water, pump=replace(machine.parts.water.pump, piston="free"))
    return replace(machine, parts=replace(machine.parts, water=water))


def _flush(machine: Machine, action: a.Flush) -> Machine:
    basket = machine.bench.basket
    machine = _lever(_bench(machine, basket="none"), a.Lever(True))
    machine = _lever(advance(machine, action.seconds), a.Lever(False))
    return _bench(machine, basket=basket)


def _mend(machine: Machine, action: a.Mend) -> Machine:
    return settled(mended(machine, sound_machine(machine.build.as_it_should_be, machine.seed), action.part))[0]


def _drained(machine: Machine) -> Machine:
    return _boiler_to(machine, 0.02)


_DOING: dict[type, Callable[[Machine, Any], Machine]] = {
    a.Plug: _plug,
    a.Switch: _switch,
    a.Covers: lambda machine, action: _bench(machine, covers_off=action.off),
    a.Wait: lambda machine, action: advance(machine, action.seconds),
    a.HeatUp: _heat_up,
    a.CoolDown: _cool_down,
    a.Dry: _dry,
    a.Vent: _vent,
    a.Lever: _lever,
    a.Basket: _basket,
    a.Tap: _tap,
    a.FillTank: _fill_tank,
    a.SeatTank: lambda machine, _: _mend(machine, a.Mend("tank")),
    a.DrainBoiler: lambda machine, _: _drained(machine),
    a.PourIntoBoiler: lambda machine, action: _boiler_to(machine, max(action.litres, 0.02)),
    a.Alter: lambda machine, action: _altered(machine, action),
    a.PutBack: lambda machine, action: settled(
        replace(machine, bench=put_back(machine.bench, action.kind, action.what))
    )[0],
    a.Link: _link,
    a.Battery: _battery,
    a.PutAllBack: lambda machine, _: settled(replace(machine, bench=all_put_back(machine.bench)))[0],
    a.ResetLimit: _reset_limit,
    a.NewFuse: _new_fuse,
    a.Settings: _settings,
    a.PrimePump: _prime,
    a.KnockPump: _knock,
    a.Flush: _flush,
    a.Mend: _mend,
}


def _altered(machine: Machine, action: a.Alter) -> Machine:
    return settled(replace(machine, bench=altered(machine.bench, action.kind, action.what)))[0]


__all__ = ["do", "space_of"]
