"""What changes while a machine stands and runs: temperatures, water, contacts, the board's memory, a ledger."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BoardMemory:
    """What the board remembers while it is powered; all of it is lost with the power.

    dry_for, wet_for: how long the probe has been seen so [s]; calling: it asks for water; call_for: since [s]; alarm:
    the call has outlasted the time-out.
    """

    dry_for: float = 0.0
    wet_for: float = 0.0
    calling: bool = False
    call_for: float = 0.0
    alarm: bool = False


@dataclass(frozen=True, slots=True)
class Ledger:
    """What has crossed the machine's border since it came: for the balances of energy [kJ] and water [kg].

    heat_in: from the element. heat_lost: to the room and to the exchanger's water. heat_fed, heat_out: with water and
    steam coming and leaving (enthalpy counted from the triple point). water_in: into the boiler. water_out, steam_out:
    out of it.
    """

    heat_in: float = 0.0
    heat_lost: float = 0.0
    heat_fed: float = 0.0
    heat_out: float = 0.0
    water_in: float = 0.0
    water_out: float = 0.0
    steam_out: float = 0.0


@dataclass(frozen=True, slots=True)
class State:
    """Temperatures in [degC], water in [kg], times in [s].

    boiler_air: air shut in the steam space, as pressure times volume over kelvin [bar l/K]. salts: what the
    boiler's water carries, as conductivity times mass [uS/cm kg]. sheath: of the element. sensed: of the sensor's
    own tip. group: of the group's body. switch_body: of the main switch and its terminals. exchanger: water in the
    heat exchanger. coil, pump_coil: windings. tank: water in the tank [l]. moisture: of the insulation, 0 dry to 1
    wet. vacuum_shut: the vacuum valve has closed. primed: the pump's chamber is full of water. loop_air: air stands
    in the thermosyphon. trapped: pressure left under the shower [bar]. hx_steam: share of the exchanger that holds
    steam. run_through: water through the exchanger since it last stood [ml]. calls_heat: the controller's output is
    on. hot_minutes: above 100 degC since it was switched on.
    """

    clock: float = 0.0
    boiler: float = 20.0
    boiler_water: float = 1.15
    boiler_air: float = 0.00259
    salts: float = 402.5
    sheath: float = 20.0
    sensed: float = 20.0
    group: float = 20.0
    exchanger: float = 20.0
    coil: float = 20.0
    pump_coil: float = 20.0
    relay_body: float = 20.0
    switch_body: float = 20.0
    tank: float = 2.5
    moisture: float = 0.0
    vacuum_shut: bool = False
    primed: bool = True
    loop_air: bool = False
    trapped: float = 0.0
    hx_steam: float = 0.0
    run_through: float = 0.0
    calls_heat: bool = False
    hot_minutes: float = 0.0
    limit_1_open: bool = False
    limit_2_open: bool = False
    limiter_open: bool = False
    fuse_blown: bool = False
    board_fuse_blown: bool = False
    rcd_tripped: bool = False
    element_burnt: bool = False
    board: BoardMemory = BoardMemory()
    ledger: Ledger = Ledger()
