"""Faults of lead, switch, fuses, joints, wiring and insulation. Grades: common practice, no source."""

from __future__ import annotations

from expert.machine.build.mains_parts import OPEN
from expert.machine.faults.change import BadJoint, LeakToBody, Set
from expert.machine.faults.fault import COMMON, OCCASIONAL, RARE, Fault
from expert.machine.running.machine import Machine

_M = "parts.mains."


def _burnt_pole(machine: Machine) -> float:
    """3 ohm at 230 V; the same share of the voltage on other supplies, but never under 0.7 ohm."""
    return max(3.0 * (machine.build.plate.volts / 230.0) ** 2, 0.7)


MAINS_FAULTS = (
    Fault("mains lead", "live core broken", OCCASIONAL, (Set(_M + "lead.live", OPEN),)),
    Fault("mains lead", "neutral core broken", OCCASIONAL, (Set(_M + "lead.neutral", OPEN),), dangerous=True),
    Fault("mains lead", "earth core broken", RARE, (Set(_M + "lead.earth", OPEN),), dangerous=True),
    Fault("main switch", "live pole burnt open", OCCASIONAL, (Set(_M + "switch.live", OPEN),)),
    Fault("main switch", "neutral pole burnt open", OCCASIONAL, (Set(_M + "switch.neutral", OPEN),)),
    Fault("main switch", "live pole burnt to a resistance", OCCASIONAL, (Set(_M + "switch.live", _burnt_pole),)),
    Fault("mains fuse", "blown by age", RARE, (Set("state.fuse_blown", True),), stored=True),
    Fault("board fuse", "blown by age", RARE, (Set("state.board_fuse_blown", True),), stored=True),
    Fault("heater joint", "loose and burnt", COMMON, (BadJoint("element.a", 1.2, True),)),
    Fault("heater joint", "parted", OCCASIONAL, (BadJoint("element.b", OPEN, True),)),
    Fault("limit joint", "loose and burnt", OCCASIONAL, (BadJoint("limit 1.in", 1.2, True),)),
    Fault("relay joint", "parted", OCCASIONAL, (BadJoint("relay.mains in", OPEN, True),)),
    Fault("relay control wire", "off", OCCASIONAL, (BadJoint("relay.control +", OPEN),)),
    Fault("fill coil wire", "off", OCCASIONAL, (BadJoint("fill coil.a", OPEN),)),
    Fault("pump wire", "off", OCCASIONAL, (BadJoint("pump.b", OPEN),)),
    Fault("brew switch wire", "off", OCCASIONAL, (BadJoint("brew switch.a", OPEN),)),
    Fault("board supply wire", "off", OCCASIONAL, (BadJoint("board.neutral", OPEN),)),
    Fault("body earth joint", "parted", RARE, (BadJoint("chassis", OPEN),), dangerous=True),
    Fault("wiring", "chafed through to the body", OCCASIONAL, (LeakToBody("limit 1.out", 2.5e3, 2.5e3),), True),
    Fault(
        "wiring",
        "insulation rubbed thin",
        OCCASIONAL,
        (LeakToBody("switch.live out", 0.35e6, 0.3e6, from_volts=100.0, steady=True),),
        True,
    ),
    Fault(
        "insulation",
        "damp from storage or a leak",
        OCCASIONAL,
        (
            Set("state.moisture", 1.0),
            LeakToBody("element.a", 200e6, 150e6, damp=0.5e6, steady=True),
            LeakToBody("board.live", 200e6, 150e6, damp=0.8e6, steady=True),
        ),
        stored=True,
    ),
)
