"""Faults of the brew water path, from the tank to the group. Grades: common practice, no source."""

from __future__ import annotations

from expert.machine.build.mains_parts import OPEN
from expert.machine.faults.change import BadJoint, Set
from expert.machine.faults.fault import COMMON, OCCASIONAL, RARE, Fault

_W, _M = "parts.water.", "parts.mains."

BREW_FAULTS = (
    Fault("tank", "not seated", COMMON, (Set(_W + "tank.seated", False),), stored=True),
    Fault("tank", "outlet valve stuck shut", COMMON, (Set(_W + "tank.valve_opens", False),)),
    Fault("tank", "cracked or seal leaking", OCCASIONAL, (Set(_W + "tank.leak", 0.6),)),
    Fault("tank float", "stuck at empty", COMMON, (Set(_M + "float_contact.stuck", "open"),)),
    Fault("tank float", "wire off", OCCASIONAL, (BadJoint("float.a", OPEN),)),
    Fault("tank float", "stuck at full", OCCASIONAL, (Set(_M + "float_contact.stuck", "closed"),)),
    Fault("suction filter", "blocked", COMMON, (Set(_W + "suction.filter", 0.5),)),
    Fault("suction hose", "draws air", OCCASIONAL, (Set(_W + "suction.air", 0.4),)),
    Fault("suction hose", "kinked", OCCASIONAL, (Set(_W + "suction.hose", 0.45),)),
    Fault(
        "pump",
        "worn",
        COMMON,
        (Set(_W + "pump.shut_pressure", 6.5), Set(_W + "pump.free_flow", 7.0)),
    ),
    Fault("pump", "coil open", OCCASIONAL, (Set(_W + "pump.coil", OPEN),)),
    Fault("pump", "diode open", OCCASIONAL, (Set(_W + "pump.diode", "open"),)),
    Fault("pump", "diode shorted", OCCASIONAL, (Set(_W + "pump.diode", "shorted"),)),
    Fault(
        "pump",
        "air-locked",
        COMMON,
        (Set("state.primed", False), Set(_W + "pump.self_primes", False)),
        stored=True,
    ),
    Fault("pump", "piston stuck", OCCASIONAL, (Set(_W + "pump.piston", "stuck"),), stored=True),
    Fault("pump limiter", "open for good", OCCASIONAL, (Set(_W + "pump.limiter_broken", True),)),
    Fault("pump limiter", "weak, opens low", OCCASIONAL, (Set(_W + "pump.limiter_opens_at", 52.0),)),
    Fault("over-pressure valve", "held open by dirt", COMMON, (Set(_W + "relief.held", 0.7),)),
    Fault("over-pressure valve", "set too low", COMMON, (Set(_W + "relief.opens_at", 6.0),)),
    Fault("over-pressure valve", "set too high", COMMON, (Set(_W + "relief.opens_at", 12.0),)),
    Fault("over-pressure valve", "stuck shut", OCCASIONAL, (Set(_W + "relief.opens_at", 99.0),)),
    Fault("brew non-return valve", "leaks back", COMMON, (Set(_W + "brew_one_way.back", 0.6),)),
    Fault("brew non-return valve", "stuck shut", RARE, (Set(_W + "brew_one_way.forward", 0.0),)),
    Fault("pump gauge", "dead at zero", OCCASIONAL, (Set(_W + "pump_gauge.stuck_at", 0.0),)),
    Fault("pump gauge", "tee blocked", OCCASIONAL, (Set(_W + "pump_gauge.blocked", True),)),
    Fault("pump gauge", "reads low", OCCASIONAL, (Set(_W + "pump_gauge.offset", -2.5),)),
    Fault("pump gauge", "reads high", OCCASIONAL, (Set(_W + "pump_gauge.offset", 2.5),)),
    Fault("brew switch", "does not close", COMMON, (Set(_M + "brew_switch.stuck", "open"),)),
    Fault("brew switch", "stuck closed", OCCASIONAL, (Set(_M + "brew_switch.stuck", "closed"),)),
    Fault("group brew valve", "seal drips", OCCASIONAL, (Set(_W + "group.valve_leak", 0.12),)),
    Fault("group exhaust valve", "does not release", OCCASIONAL, (Set(_W + "group.exhaust_releases", False),)),
    Fault("group exhaust valve", "leaks while brewing", OCCASIONAL, (Set(_W + "group.exhaust_leak", 0.4),)),
    Fault("group jet", "blocked", COMMON, (Set(_W + "group.jet", 0.25),)),
    Fault("shower screen", "blocked", COMMON, (Set(_W + "group.shower", 0.35),)),
    Fault("group gasket", "hardened, leaks at the rim", COMMON, (Set(_W + "group.rim_leak", 0.45),)),
    Fault("brew hose", "leaks inside", OCCASIONAL, (Set(_W + "hose_leak", 0.35),), True),
)
