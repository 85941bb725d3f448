"""Parameters of everything that carries current: lead, fuses, switch, element, limits, relay, controller, board.

Resistances in [ohm]; OPEN stands for no continuity. Sound values are common practice, no source, unless noted.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

OPEN = math.inf
JOINT_OHMS = 0.01


@dataclass(frozen=True, slots=True)
class Lead:
    """Mains lead, each core end to end. 2 m of 1.5 mm2: 0.0266 ohm (IEC 60228, 13.3 ohm/km at most)."""

    live: float = 0.0266
    neutral: float = 0.0266
    earth: float = 0.0266


@dataclass(frozen=True, slots=True)
class Fuse:
    """One fuse: resistance, rated current [A]."""

    ohms: float = 0.02
    amps: float = 16.0


@dataclass(frozen=True, slots=True)
class Switch:
    """Two-pole mains switch: closed resistance of each pole; how well it opens is not in question."""

    live: float = 0.02
    neutral: float = 0.02


@dataclass(frozen=True, slots=True)
class Element:
    """Heating element of two equal windings in parallel, cold resistance of each [ohm], hot by `hot_factor`.

    hot_factor 1.012: NiCr 80/20 at 200 degC (alloy table). sheath_limit: where the wire burns [degC].
    """

    winding_1: float
    winding_2: float
    hot_factor: float = 1.012
    sheath_limit: float = 700.0
    lime_kelvin: float = 0.0


@dataclass(frozen=True, slots=True)
class Limit:
    """Resettable high limit, clamped to the boiler wall: opens at [degC], bridged by a wire, reset button works."""

    opens_at: float
    ohms: float = 0.03
    bridged: bool = False
    resets: bool = True


@dataclass(frozen=True, slots=True)
class SolidStateRelay:
    """Solid-state relay: input resistance, least input volts, output when driven and not, impedance when
    blocking (its snubber's).

    share: of the mains' half waves that it passes when driven (0.5 = half-waving). shorted: conducts undriven.
    """

    input_ohms: float = 1500.0
    input_works: bool = True
    least_input: float = 3.0
    output_opens: bool = True
    shorted: bool = False
    share: float = 1.0
    snubber_ohms: float = 10e6
    paste: bool = True


@dataclass(frozen=True, slots=True)
class Sensor:
    """The boiler's temperature sensor: `series` and `parallel` to the element [ohm]; drift [K]; in its pocket."""

    kind: str
    series: float = 0.0
    parallel: float = OPEN
    drift: float = 0.0
    contact: float = 1.0


@dataclass(frozen=True, slots=True)
class Controller:
    """Temperature controller: what it expects, its settings [degC], and how its supply, display and output are.

    output: "works", "dead" or "stuck on".
    """

    expects: str
    set_point: float = 121.0
    offset: float = 0.0
    alive: bool = True
    output: str = "works"
    output_volts: float = 12.0
    output_ohms: float = 220.0


@dataclass(frozen=True, slots=True)
class Output:
    """A relay of the board: "works", "dead" or "stuck on"."""

    state: str = "works"


@dataclass(frozen=True, slots=True)
class Board:
    """Control board: outputs, probe input, and its programme.

    probe_wet_below: resistance from probe wire to body that counts as water [ohm]. fill_delay: dry for so long before
    it fills [s]; wet_delay: wet for so long before it stops; fill_timeout: longest call before the alarm [s]. Alarm and
    (if empty_blocks_heat) an empty tank open the heat release contact; both block the pump.
    """

    alive: bool = True
    probe_input: str = "works"  # "works", "blind" (always dry), "always wet"
    fill_output: Output = Output()
    pump_output: Output = Output()
    release: Output = Output()
    probe_wet_below: float = 100e3
    fill_delay: float = 4.0
    wet_delay: float = 1.0
    fill_timeout: float = 150.0
    empty_blocks_heat: bool = True


@dataclass(frozen=True, slots=True)
class Contact:
    """A small contact worked by hand or float: closed resistance, and whether it is stuck "open" or "closed"."""

    ohms: float = 0.1
    stuck: str = ""


@dataclass(frozen=True, slots=True)
class Leak:
    """An insulation path from a point to the body.

    cold, hot: resistance at 20 and 120 degC when dry [ohm]; damp: further path in parallel while moisture is there
    [ohm]; from_volts: below this the path does not conduct (an ohmmeter's battery does not show it) [V].
    """

    point: str
    cold: float = 200e6
    hot: float = 100e6
    damp: float = OPEN
    from_volts: float = 0.0


@dataclass(frozen=True, slots=True)
class Wiring:
    """Joints by the point they end at: those that are not as new [ohm]; `burnt`: which of them are discoloured."""

    joints: tuple[tuple[str, float], ...] = ()
    burnt: tuple[str, ...] = ()
    leaks: tuple[Leak, ...] = ()


@dataclass(frozen=True, slots=True)
class MainsParts:
    """Everything electrical of layout A."""

    element: Element
    sensor: Sensor
    controller: Controller
    lead: Lead = Lead()
    fuse: Fuse = Fuse()
    board_fuse: Fuse = Fuse(0.10, 2.0)
    switch: Switch = Switch()
    limit_1: Limit = Limit(135.0)
    limit_2: Limit = Limit(145.0)
    relay: SolidStateRelay = SolidStateRelay()
    board: Board = Board()
    brew_switch: Contact = Contact()
    float_contact: Contact = Contact()
    wiring: Wiring = field(default_factory=Wiring)
