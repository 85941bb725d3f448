"""Layout A's wiring: points named "part.terminal", wires named by the point they end at, parts between their terminals.

The same wiring is solved for three uses: "ohm" (a meter's small direct current, machine unplugged), "mains"
(alternating, complex) and "control" (the controller's direct voltage for the relay).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from expert.machine.build.mains_parts import JOINT_OHMS
from expert.machine.build.parts import Parts
from expert.machine.mains.contacts import Contacts
from expert.machine.mains.network import Edge
from expert.trade.physics.copper import copper_resistance

# Each wire from, to; it is lifted, loose or burnt at the point it ends at.
WIRES = (
    ("inlet.live", "mains fuse.in"),
    ("mains fuse.out", "switch.live in"),
    ("inlet.neutral", "switch.neutral in"),
    ("inlet.earth", "chassis"),
    ("chassis", "boiler"),
    ("switch.live out", "limit 1.in"),
    ("limit 1.out", "limit 2.in"),
    ("limit 2.out", "relay.mains in"),
    ("relay.mains out", "element.a"),
    ("switch.neutral out", "element.b"),
    ("switch.live out", "controller.live"),
    ("switch.neutral out", "controller.neutral"),
    ("switch.live out", "board fuse.in"),
    ("board fuse.out", "board.live"),
    ("switch.neutral out", "board.neutral"),
    ("board.pump", "limiter.in"),
    ("limiter.out", "pump.a"),
    ("board.neutral", "pump.b"),
    ("board.fill", "fill coil.a"),
    ("board.neutral", "fill coil.b"),
    ("controller.out +", "board.heat in"),
    ("board.heat out", "relay.control +"),
    ("controller.out -", "relay.control -"),
    ("controller.sensor a", "sensor plug.a"),
    ("controller.sensor b", "sensor.b"),
    ("board.brew a", "brew switch.a"),
    ("board.brew b", "brew switch.b"),
    ("board.float a", "float.a"),
    ("board.float b", "float.b"),
    ("board.probe", "probe"),
    ("chassis", "board.0V"),
)
JOINTS = tuple(end for _, end in WIRES)
POINTS = tuple(
    dict.fromkeys(
        [point for wire in WIRES for point in wire]
        + ["plug.live", "plug.neutral", "plug.earth", "inlet.live", "inlet.neutral", "inlet.earth", "sensor.a"]
        + ["switch.live in", "switch.neutral in", "limit 2.in", "limiter.out", "mains fuse.out", "board fuse.out"]
    )
)

# Unit factors on a coil's resistance (common practice, no source): half-wave pump with its diode, the same with the
# diode shorted (the core saturates), and the board's transformer and the controller's supply at 230 V [ohm].
_PUMP, _PUMP_SHORTED = 3.1 + 3.5j, 1.2 + 1.7j
_BOARD_OHM_230, _BOARD_FACTOR = 1200.0, 9.0
_CONTROLLER_OHM_230 = 17e3
_LAMP_OHM_230 = 150e3
_PULL_UP = 47e3


def edges(parts: Parts, contacts: Contacts, lifted: frozenset[str], volts: float, use: str) -> list[Edge]:
    """All conducting paths of the machine, leakage and supply not counted. volts: on the plate, for the scaling of
    coils; use: "ohm", "mains" or "control"."""
    scale = (volts / 230.0) ** 2
    found = list(_wires(parts, lifted))
    found += _path_of_live(parts, contacts)
    found += _heater(parts, contacts, use)
    found += _board_and_controller(parts, contacts, use, scale)
    found += _motors(parts, contacts, use)
    found += _small_signals(parts, contacts, use)
    return [(one, other, y) for one, other, y in found if y]


def _wires(parts: Parts, lifted: frozenset[str]) -> Iterator[Edge]:
    worn = dict(parts.mains.wiring.joints)
    for start, end in WIRES:
        if end not in lifted:
            yield start, end, _y(JOINT_OHMS + worn.get(end, 0.0))


def _path_of_live(parts: Parts, contacts: Contacts) -> list[Edge]:
    mains = parts.mains
    return [
        ("plug.live", "inlet.live", _y(mains.lead.live)),
        ("plug.neutral", "inlet.neutral", _y(mains.lead.neutral)),
        ("plug.earth", "inlet.earth", _y(mains.lead.earth)),
        ("mains fuse.in", "mains fuse.out", _y(mains.fuse.ohms, contacts.fuse)),
        ("switch.live in", "switch.live out", _y(mains.switch.live, contacts.switch)),
        ("switch.neutral in", "switch.neutral out", _y(mains.switch.neutral, contacts.switch)),
        ("board fuse.in", "board fuse.out", _y(mains.board_fuse.ohms, contacts.board_fuse)),
    ]


def _heater(parts: Parts, contacts: Contacts, use: str) -> list[Edge]:
    mains = parts.mains
    hot = mains.element.hot_factor if contacts.relay_conducts else 1.0
    element = (_y(mains.element.winding_1 * hot) + _y(mains.element.winding_2 * hot)) if contacts.element else 0.0
    limits = [
        (f"limit {number}.in", f"limit {number}.out", _y(limit.ohms, closed or limit.bridged))
        for number, limit, closed in ((1, mains.limit_1, contacts.limit_1), (2, mains.limit_2, contacts.limit_2))
    ]
    return [*limits, ("element.a", "element.b", element), _relay(parts, contacts, use, element)]


def _relay(parts: Parts, contacts: Contacts, use: str, element: complex) -> Edge:
    relay = parts.mains.relay
    if relay.shorted:
        y: complex = _y(0.02)
    elif use == "ohm":
        y = 0.0  # a blocking triac shows an ohmmeter nothing
    elif contacts.relay_conducts:
        # Half of the half waves: 1/sqrt(2) of the voltage at the load, true RMS, as a resistance in series does it.
        lost = 1 / math.sqrt(relay.share) - 1
        y = _y(0.01 + (lost / element.real if element else 0.0))
    else:
        y = _y(relay.snubber_ohms)
    return "relay.mains in", "relay.mains out", y


def _board_and_controller(parts: Parts, contacts: Contacts, use: str, scale: float) -> list[Edge]:
    board = _BOARD_OHM_230 * scale * (1 if use == "ohm" else _BOARD_FACTOR)
    found: list[Edge] = [
        ("board.live", "board.neutral", _y(board)),
        ("board.live", "board.pump", _y(0.05, contacts.pump_out)),
        ("board.live", "board.fill", _y(0.05, contacts.fill_out)),
        ("board.heat in", "board.heat out", _y(0.1, contacts.release)),
    ]
    if use == "mains":
        found.append(("controller.live", "controller.neutral", _y(_CONTROLLER_OHM_230 * scale)))
        found.append(("switch.live out", "switch.neutral out", _y(_LAMP_OHM_230 * scale)))
    if use == "control":
        found.append(("relay.control +", "relay.control -", _y(parts.mains.relay.input_ohms)))
    return found


def _motors(parts: Parts, contacts: Contacts, use: str) -> list[Edge]:
    pump, solenoid = parts.water.pump, parts.water.fill_solenoid
    found: list[Edge] = [("limiter.in", "limiter.out", _y(0.3, contacts.limiter and not pump.limiter_broken))]
    coil = 0.0 if math.isinf(pump.coil) else copper_resistance(pump.coil, contacts.pump_coil)
    if coil and pump.diode != "open":
        if use == "mains":
            found.append(("pump.a", "pump.b", 1 / (coil * (_PUMP_SHORTED if pump.diode == "shorted" else _PUMP))))
        elif pump.diode == "shorted":
            found.append(("pump.a", "pump.b", _y(coil)))
    if not math.isinf(solenoid.coil):
        ohms = copper_resistance(solenoid.coil, contacts.coil)
        factor = solenoid.impedance_factor * (0.75 if solenoid.plunger == "stuck shut" else 1.0)
        impedance = ohms * (1 + 1j * math.sqrt(max(factor**2 - 1, 0.0))) if use == "mains" else ohms
        found.append(("fill coil.a", "fill coil.b", 1 / impedance))
    return found


def _small_signals(parts: Parts, contacts: Contacts, use: str) -> list[Edge]:
    mains, probe = parts.mains, parts.water.probe
    found: list[Edge] = [
        ("sensor plug.a", "sensor.a", _y(mains.sensor.series + 0.05)),
        ("sensor.a", "sensor.b", _y(contacts.sensor) + _y(mains.sensor.parallel)),
        ("brew switch.a", "brew switch.b", _y(mains.brew_switch.ohms, contacts.brew)),
        ("float.a", "float.b", _y(mains.float_contact.ohms, contacts.float_)),
        ("probe", "boiler", _y(contacts.rod_to_body) + _y(probe.bridge)),
    ]
    if use == "ohm":
        found.append(("controller.sensor a", "controller.sensor b", _y(_PULL_UP)))
    return found


def _y(ohms: float, closed: bool = True) -> complex:
    """Admittance of a resistance; open is none."""
    return 0.0 if not closed or math.isinf(ohms) else 1 / max(ohms, 1e-4)


def pump_diode_ohms(parts: Parts, contacts: Contacts) -> float:
    """What stands behind the pump's diode for a meter's diode range, in its forward direction [ohm]; open: infinite."""
    pump = parts.water.pump
    if pump.diode == "open" or math.isinf(pump.coil):
        return math.inf
    return copper_resistance(pump.coil, contacts.pump_coil)
