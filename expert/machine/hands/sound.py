"""A sound machine, cold, as it leaves the bench."""

from __future__ import annotations

from expert.machine.bench.bench import Bench
from expert.machine.build.parts import sound_parts
from expert.machine.build.plate import Build
from expert.machine.heat.properties import air_pressure
from expert.machine.heat.steam import air_shut_in
from expert.machine.running.machine import Machine
from expert.machine.running.state import State


def sound_machine(build: Build, seed: int = 0) -> Machine:
    """A sound machine of a build, cold, unplugged, boiler filled to its probe, tank nearly full."""
    parts, room = sound_parts(build, seed), build.room
    water = parts.water.boiler.probe_tip + 0.03
    air = air_shut_in(room, parts.water.boiler.litres - water, air_pressure(build.altitude))
    state = State(
        boiler=room,
        boiler_water=water,
        boiler_air=air,
        salts=water * build.conductivity,
        sheath=room,
        sensed=room,
        group=room,
        exchanger=room,
        coil=room,
        pump_coil=room,
        relay_body=room,
        switch_body=room,
    )
    return Machine(build, parts, Bench(), state, seed)
