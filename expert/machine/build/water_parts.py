"""Parameters of everything that holds or moves water and steam.

Holes are given by the diameter [mm] of an equal sharp orifice (`trade`'s orifice equation); 0 is shut. Pressures in
[bar gauge]. Sound values are common practice, no source, unless noted.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tank:
    """Water tank: what it holds at most [l], seated on its valve, its valve opens, leak below [mm]."""

    litres: float = 3.0
    seated: bool = True
    valve_opens: bool = True
    leak: float = 0.0


@dataclass(frozen=True, slots=True)
class Suction:
    """Hose and filter from tank to pump: equal hole [mm], share of air drawn in (0 to 1)."""

    filter: float = 3.5
    hose: float = 4.0
    air: float = 0.0


@dataclass(frozen=True, slots=True)
class Pump:
    """Vibration pump: pressure against a shut outlet [bar] and free flow [ml/s] at plate voltage, cold.

    Cold resistance of the coil; diode: "works", "open", "shorted". piston: "free" or "stuck". Limiter in its supply
    opens at [degC] of the coil and closes again 25 K below, or is open for good.
    """

    coil: float
    shut_pressure: float = 15.5
    free_flow: float = 10.0
    diode: str = "works"
    piston: str = "free"
    self_primes: bool = True
    limiter_opens_at: float = 110.0
    limiter_broken: bool = False


@dataclass(frozen=True, slots=True)
class ReliefValve:
    """Over-pressure valve to the tank: opens at [bar], passes `slope` [ml/s per bar] above that; `held` open [mm]."""

    opens_at: float = 9.0
    slope: float = 6.0
    held: float = 0.0


@dataclass(frozen=True, slots=True)
class OneWay:
    """Non-return valve: forward hole [mm], pressure to open it [bar], hole when it should be shut [mm]."""

    forward: float = 3.0
    cracking: float = 0.2
    back: float = 0.0


@dataclass(frozen=True, slots=True)
class FillSolenoid:
    """Fill solenoid: cold coil resistance, reactance factor (impedance over resistance), hole open and shut [mm]."""

    coil: float
    impedance_factor: float = 4.5
    open_hole: float = 1.6
    shut_hole: float = 0.0
    plunger: str = "free"  # "free", "stuck shut", "held open"


@dataclass(frozen=True, slots=True)
class Exchanger:
    """Heat exchanger: lime as an equal hole in the way [mm], pinhole into the boiler [mm], volume [l]."""

    way: float = 2.5
    pinhole: float = 0.0
    litres: float = 0.35


@dataclass(frozen=True, slots=True)
class Loop:
    """Thermosyphon loop: circulation against a clean loop with its right restrictor (1)."""

    circulation: float = 1.0


@dataclass(frozen=True, slots=True)
class Group:
    """Lever group: jet and shower as holes [mm]; leaks of brew valve, exhaust valve and rim gasket [mm].

    exhaust_releases: lowering the lever lets the pressure out. lever_opens: the cam lifts the brew valve.
    """

    jet: float = 0.7
    shower: float = 3.0
    valve_leak: float = 0.0
    exhaust_leak: float = 0.0
    rim_leak: float = 0.0
    exhaust_releases: bool = True


@dataclass(frozen=True, slots=True)
class Boiler:
    """Boiler: volume, and water at the heights of element top and probe tip [l]; wall [kg of copper]; loss [W/K].

    gasket: leak at flange or fittings [mm].
    """

    litres: float = 1.9
    element_top: float = 0.55
    probe_tip: float = 1.15
    metal: float = 3.2
    loss: float = 1.9
    gasket: float = 0.0


@dataclass(frozen=True, slots=True)
class Probe:
    """Level probe: cell constant [1/cm], lime on it in series [ohm], false path to the body [ohm], look."""

    cell: float = 2.5
    lime: float = 0.0
    bridge: float = float("inf")


@dataclass(frozen=True, slots=True)
class SafetyValve:
    """2 bar safety valve: lifts at [bar], hole when lifted [mm], weep when shut [mm]."""

    lifts_at: float = 2.0
    hole: float = 4.0
    weep: float = 0.0


@dataclass(frozen=True, slots=True)
class VacuumValve:
    """Vacuum relief valve: "works", "stuck open" or "stuck closed"; shuts at [bar]; hole [mm]."""

    state: str = "works"
    shuts_at: float = 0.1
    hole: float = 1.0


@dataclass(frozen=True, slots=True)
class Gauge:
    """Dial gauge: full scale [bar], class [%], offset [bar], stuck at [bar] or None, line blocked."""

    full_scale: float
    accuracy_class: float = 2.5
    offset: float = 0.0
    stuck_at: float | None = None
    blocked: bool = False


@dataclass(frozen=True, slots=True)
class Tap:
    """Steam or water tap: seat leak when shut and spindle leak when open [mm], tip hole [mm]."""

    seat_leak: float = 0.0
    spindle_leak: float = 0.0
    tip: float = 2.5


@dataclass(frozen=True, slots=True)
class WaterParts:
    """Everything wet of layout A."""

    pump: Pump
    fill_solenoid: FillSolenoid
    tank: Tank = Tank()
    suction: Suction = Suction()
    relief: ReliefValve = ReliefValve()
    brew_one_way: OneWay = OneWay()
    fill_one_way: OneWay = OneWay()
    exchanger: Exchanger = Exchanger()
    loop: Loop = Loop()
    group: Group = Group()
    boiler: Boiler = Boiler()
    probe: Probe = Probe()
    safety_valve: SafetyValve = SafetyValve()
    vacuum_valve: VacuumValve = VacuumValve()
    boiler_gauge: Gauge = Gauge(3.0)
    pump_gauge: Gauge = Gauge(16.0)
    steam_tap: Tap = Tap()
    water_tap: Tap = Tap()
    hose_leak: float = 0.0
