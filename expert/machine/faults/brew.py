"""Faults of the brew water path, from the tank to the group. Grades: common practice, no source."""

from __future__ import annotations

from expert.machine.build.mains_parts import OPEN
from expert.machine.faults.change import BadJoint, Put
from expert.machine.faults.fault import COMMON, OCCASIONAL, RARE, Fault

_W, _M = "parts.water.", "parts.mains."

BREW_FAULTS = (
    Fault("tank", "not seated", COMMON, (Put(_W + "tank.seated", False),), stored=True),
    Fault("tank", "outlet valve stuck shut", COMMON, (Put(_W + "tank.valve_opens", False),)),
    Fault("tank", "cracked or seal leaking", OCCASIONAL, (Put(_W + "tank.leak", 0.6),)),
    Fault("tank float", "stuck at empty", COMMON, (Put(_M + "float_contact.stuck", "open"),)),
    Fault("tank float", "wire off", OCCASIONAL, (BadJoint("float.a", OPEN),)),
    Fault("tank float", "stuck at full", OCCASIONAL, (Put(_M + "float_contact.stuck", "closed"),)),
    Fault("suction filter", "blocked", COMMON, (Put(_W + "suction.filter", 0.5),)),
    Fault("suction hose", "draws air", OCCASIONAL, (Put(_W + "suction.air", 0.4),)),
    Fault("suction hose", "kinked", OCCASIONAL, (Put(_W + "suction.hose", 0.45),)),
    Fault(
        "pump",
        "worn",
        COMMON,
        (Put(_W + "pump.shut_pressure", 6.5), Put(_W + "pump.free_flow", 7.0)),
    ),
    Fault("pump", "coil open", OCCASIONAL, (Put(_W + "pump.coil", OPEN),)),
    Fault("pump", "diode open", OCCASIONAL, (Put(_W + "pump.diode", "open"),)),
    Fault("pump", "diode shorted", OCCASIONAL, (Put(_W + "pump.diode", "shorted"),)),
    Fault("pump", "air-locked", COMMON, (Put("state.primed", False), Put(_W + "pump.self_primes", False)), stored=True),
    Fault("pump", "piston stuck", OCCASIONAL, (Put(_W + "pump.piston", "stuck"),), stored=True),
    Fault("pump limiter", "open for good", OCCASIONAL, (Put(_W + "pump.limiter_broken", True),)),
    Fault("pump limiter", "weak, opens low", OCCASIONAL, (Put(_W + "pump.limiter_opens_at", 52.0),)),
    Fault("over-pressure valve", "held open by dirt", COMMON, (Put(_W + "relief.held", 0.7),)),
    Fault("over-pressure valve", "set too low", COMMON, (Put(_W + "relief.opens_at", 6.0),)),
    Fault("over-pressure valve", "set too high", COMMON, (Put(_W + "relief.opens_at", 12.0),)),
    Fault("over-pressure valve", "stuck shut", OCCASIONAL, (Put(_W + "relief.opens_at", 99.0),)),
    Fault("brew non-return valve", "leaks back", COMMON, (Put(_W + "brew_one_way.back", 0.6),)),
    Fault("brew non-return valve", "stuck shut", RARE, (Put(_W + "brew_one_way.forward", 0.0),)),
    Fault("pump gauge", "dead at zero", OCCASIONAL, (Put(_W + "pump_gauge.stuck_at", 0.0),)),
    Fault("pump gauge", "tee blocked", OCCASIONAL, (Put(_W + "pump_gauge.blocked", True),)),
    Fault("pump gauge", "reads low", OCCASIONAL, (Put(_W + "pump_gauge.offset", -2.5),)),
    Fault("pump gauge", "reads high", OCCASIONAL, (Put(_W + "pump_gauge.offset", 2.5),)),
    Fault("brew switch", "does not close", COMMON, (Put(_M + "brew_switch.stuck", "open"),)),
    Fault("brew switch", "stuck closed", OCCASIONAL, (Put(_M + "brew_switch.stuck", "closed"),)),
    Fault("group brew valve", "seal drips", OCCASIONAL, (Put(_W + "group.valve_leak", 0.12),)),
    Fault("group exhaust valve", "does not release", OCCASIONAL, (Put(_W + "group.exhaust_releases", False),)),
    Fault("group exhaust valve", "leaks while brewing", OCCASIONAL, (Put(_W + "group.exhaust_leak", 0.4),)),
    Fault("group jet", "blocked", COMMON, (Put(_W + "group.jet", 0.25),)),
    Fault("shower screen", "blocked", COMMON, (Put(_W + "group.shower", 0.35),)),
    Fault("group gasket", "hardened, leaks at the rim", COMMON, (Put(_W + "group.rim_leak", 0.45),)),
    Fault("brew hose", "leaks inside", OCCASIONAL, (Put(_W + "hose_leak", 0.35),), True),
)
