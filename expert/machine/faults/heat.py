"""Faults of element, relay, controller, sensor and high limits. Grades: common practice, no source."""

from __future__ import annotations

from expert.machine.build.mains_parts import OPEN
from expert.machine.faults.change import BadJoint, LeakToBody, Set
from expert.machine.faults.fault import COMMON, OCCASIONAL, RARE, Fault
from expert.machine.heat.sensing import sensor_ohms
from expert.machine.running.machine import Machine

_M = "parts.mains."


def _other_sensor(machine: Machine) -> str:
    """A sensor type that the controller can be set to and that is not fitted."""
    return "ntc 10k" if machine.parts.mains.sensor.kind == "ntc 50k" else "ntc 50k"


def _plug_ohms(machine: Machine) -> float:
    """A third of a thermistor's hot resistance; for platinum as much as reads ten kelvins."""
    kind = machine.parts.mains.sensor.kind
    return 38.0 if kind == "pt1000" else 0.3 * sensor_ohms(kind, 120.0)


def _limit_faults(number: int) -> tuple[Fault, ...]:
    part, limit, state = f"high limit {number}", f"{_M}limit_{number}.", f"state.limit_{number}_open"
    weak = 108.0 if number == 1 else 112.0
    return (
        Fault(part, "has opened once, cause gone", OCCASIONAL, (Set(state, True),)),
        Fault(part, "weak, opens low", OCCASIONAL, (Set(limit + "opens_at", weak),)),
        Fault(part, "bridged by a wire", OCCASIONAL, (Set(limit + "bridged", True),), dangerous=True),
        Fault(part, "open and does not reset", RARE, (Set(state, True), Set(limit + "resets", False))),
    )


HEAT_FAULTS = (
    Fault(
        "element",
        "open circuit",
        COMMON,
        (Set(_M + "element.winding_1", OPEN), Set(_M + "element.winding_2", OPEN)),
    ),
    Fault("element", "one of two windings open", RARE, (Set(_M + "element.winding_2", OPEN),)),
    Fault("element", "insulation broken down", COMMON, (LeakToBody("element.a", 4e3, 3e3),), True),
    Fault(
        "element",
        "insulation breaks down hot",
        COMMON,
        (LeakToBody("element.a", 40e6, 5e3, from_volts=100.0),),
        True,
    ),
    Fault("element", "thick with scale", OCCASIONAL, (Set(_M + "element.lime_kelvin", 75.0),)),
    Fault("element", "burnt out", OCCASIONAL, (Set("state.element_burnt", True),)),
    Fault("relay", "output does not close", COMMON, (Set(_M + "relay.output_opens", False),)),
    Fault("relay", "output shorted", COMMON, (Set(_M + "relay.shorted", True),), dangerous=True),
    Fault("relay", "input dead", OCCASIONAL, (Set(_M + "relay.input_works", False),)),
    Fault("relay", "passes one half wave only", RARE, (Set(_M + "relay.share", 0.5),)),
    Fault("relay", "mounted without paste", RARE, (Set(_M + "relay.paste", False),)),
    Fault("temperature controller", "output dead", COMMON, (Set(_M + "controller.output", "dead"),)),
    Fault("temperature controller", "output stuck on", OCCASIONAL, (Set(_M + "controller.output", "stuck on"),), True),
    Fault(
        "temperature controller",
        "set to another sensor",
        OCCASIONAL,
        (Set(_M + "controller.expects", _other_sensor),),
    ),
    Fault("temperature controller", "offset set, reads high", OCCASIONAL, (Set(_M + "controller.offset", 12.0),)),
    Fault("temperature controller", "offset set, reads low", OCCASIONAL, (Set(_M + "controller.offset", -10.0),), True),
    Fault("temperature controller", "dead", RARE, (Set(_M + "controller.alive", False),)),
    Fault("temperature sensor", "open", COMMON, (Set(_M + "sensor.series", OPEN),)),
    Fault("temperature sensor", "lead broken", COMMON, (BadJoint("sensor.b", OPEN),)),
    Fault("temperature sensor", "shorted", OCCASIONAL, (Set(_M + "sensor.parallel", 3.0),)),
    Fault("temperature sensor", "resistance in its plug", OCCASIONAL, (Set(_M + "sensor.series", _plug_ohms),), True),
    Fault("temperature sensor", "out of its pocket", OCCASIONAL, (Set(_M + "sensor.contact", 0.72),), True),
    Fault("temperature sensor", "another type fitted", RARE, (Set(_M + "sensor.kind", _other_sensor),)),
    Fault("temperature sensor", "drifted, reads low", RARE, (Set(_M + "sensor.drift", -9.0),), True),
    Fault("temperature sensor", "drifted, reads high", RARE, (Set(_M + "sensor.drift", 12.0),)),
    *_limit_faults(1),
    *_limit_faults(2),
)
