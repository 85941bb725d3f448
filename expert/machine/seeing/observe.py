"""Putting a question to the machine: `observe(machine, observation) -> (machine, seen)`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from expert.machine.running.advance import settled
from expert.machine.running.instant import Instant
from expert.machine.running.machine import Machine
from expert.machine.seeing import electrical, gauges, inspections, sights, watching
from expert.machine.seeing import observations as o
from expert.machine.seeing.seen import Seen

_AT_ONCE: dict[type, Callable[[Machine, Instant, Any], Seen]] = {
    o.ResistanceBetween: electrical.resistance,
    o.PartResistance: electrical.part_resistance,
    o.DiodeTest: electrical.diode,
    o.Insulation: electrical.insulation,
    o.Volts: electrical.volts,
    o.SocketVolts: electrical.socket_volts,
    o.ControlVolts: electrical.direct_volts,
    o.BoardVolts: electrical.board_volts,
    o.Amps: electrical.amps,
    o.LeakageAmps: electrical.leakage,
    o.PressureOn: gauges.pressure,
    o.TemperatureOf: gauges.temperature,
    o.Display: gauges.display,
    o.Lamp: gauges.lamp,
    o.Conductivity: gauges.conductivity,
    o.Look: sights.look,
    o.Listen: sights.listen,
    o.Inspect: inspections.inspect,
    o.ActsAt: inspections.acts_at,
    o.SensorInBath: inspections.sensor_in_bath,
}


def observe(machine: Machine, asked: o.Observation) -> tuple[Machine, Seen]:
    """The machine after the observation, and what was seen.

    The bench decides: what is unplugged has no volts, what is behind a cover is not seen (`Unseen` says why). A reading
    is out by at most what its instrument states, always in the same way for the same seed, machine and question.
    ValueError for a point, place or part that the machine does not have; it names what would do.
    """
    if isinstance(asked, o.Watch):
        return watching.watched(machine, asked.seconds)
    if isinstance(asked, o.Collect):
        return watching.collected(machine, asked)
    if isinstance(asked, o.Drained):
        return watching.drained(machine, asked)
    machine, now = settled(machine, coarse=False)
    return machine, _AT_ONCE[type(asked)](machine, now, asked)
