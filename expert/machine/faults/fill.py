"""Faults of level probe, fill solenoid, its non-return valve, and the board. Grades: common practice, no source."""

from __future__ import annotations

from expert.machine.build.mains_parts import OPEN
from expert.machine.faults.change import BadJoint, Scale, Set
from expert.machine.faults.fault import COMMON, OCCASIONAL, RARE, Fault

_W, _B = "parts.water.", "parts.mains.board."

FILL_FAULTS = (
    Fault("level probe", "scaled over", COMMON, (Set(_W + "probe.lime", 600e3),)),
    Fault("level probe", "wire off or broken", COMMON, (BadJoint("probe", OPEN),)),
    Fault("level probe", "insulator cracked and wet", OCCASIONAL, (Set(_W + "probe.bridge", 8e3),), True),
    Fault("level probe", "touches the wall", OCCASIONAL, (Set(_W + "probe.bridge", 0.5),), True),
    Fault("fill solenoid", "coil open", COMMON, (Set(_W + "fill_solenoid.coil", OPEN),)),
    Fault(
        "fill solenoid",
        "coil with shorted turns",
        OCCASIONAL,
        (Scale(_W + "fill_solenoid.coil", 0.02), Set(_W + "fill_solenoid.impedance_factor", 1.3)),
    ),
    Fault("fill solenoid", "stuck shut", COMMON, (Set(_W + "fill_solenoid.plunger", "stuck shut"),)),
    Fault("fill solenoid", "passes when closed", COMMON, (Set(_W + "fill_solenoid.shut_hole", 0.5),)),
    Fault("fill non-return valve", "stuck shut", OCCASIONAL, (Set(_W + "fill_one_way.forward", 0.0),)),
    Fault("fill non-return valve", "leaks back", OCCASIONAL, (Set(_W + "fill_one_way.back", 0.6),)),
    Fault("control board", "fill output dead", OCCASIONAL, (Set(_B + "fill_output.state", "dead"),)),
    Fault("control board", "fill output stuck on", OCCASIONAL, (Set(_B + "fill_output.state", "stuck on"),), True),
    Fault("control board", "pump output dead", OCCASIONAL, (Set(_B + "pump_output.state", "dead"),)),
    Fault("control board", "pump output stuck on", OCCASIONAL, (Set(_B + "pump_output.state", "stuck on"),)),
    Fault("control board", "probe input blind", RARE, (Set(_B + "probe_input", "blind"),)),
    Fault("control board", "probe input always wet", RARE, (Set(_B + "probe_input", "always wet"),), True),
    Fault("control board", "heat release dead", RARE, (Set(_B + "release.state", "dead"),)),
    Fault("control board", "heat release stuck closed", RARE, (Set(_B + "release.state", "stuck on"),), True),
    Fault("control board", "dead", RARE, (Set(_B + "alive", False),)),
)
