"""All that follows at one instant from state, bench and parts: contacts, board, display, supply, flows, pressure."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from expert.machine.build.mains_parts import Contact
from expert.machine.control.board import Inputs, Outputs, outputs
from expert.machine.control.controller import Display, calls_for_heat, display
from expert.machine.heat.properties import air_pressure, saturation_pressure
from expert.machine.heat.sensing import sensor_ohms
from expert.machine.heat.steam import Space, boiler_space
from expert.machine.mains.contacts import Contacts
from expert.machine.mains.control_volts import relay_is_driven
from expert.machine.mains.signals import loop_ohms
from expert.machine.mains.supply import NO_SUPPLY, Hands, Supply, supply
from expert.machine.running.machine import Machine
from expert.machine.water.flows import Flows, Situation, flows, solenoid_hole, standing
from expert.machine.water.pump import Drive

TANK_LOW, TANK_DRY = 0.30, 0.03  # l: the float drops; nothing reaches the outlet
_WORKS_ABOVE = 0.7  # of the plate's voltage: board and controller run
_SIGNAL_CLOSED = 2000.0  # ohm: what the board takes for a closed contact
_PULLS_IN_ABOVE = 0.7  # of the plate's voltage: the fill solenoid lifts its plunger
_TURNS_LEFT = 2.0  # impedance over resistance; below it shorted turns have taken the magnet's force
HOT_AT = 90.0


@dataclass(frozen=True, slots=True)
class Instant:
    """One instant, solved. `probe_ohms` and `sensor_loop`: what board and controller see at their terminals."""

    contacts: Contacts
    supply: Supply
    inputs: Inputs
    board: Outputs
    display: Display
    flows: Flows
    space: Space
    sensor_loop: float
    solenoid_on: bool


def instant(machine: Machine, coarse: bool = False) -> Instant:
    """Solve the machine as it is now. coarse: wiring's temperatures in steps of 10 K, for stepping through time."""
    space = space_of(machine)
    contacts = _contacts_by_state(machine, space, coarse)
    contacts, board, inputs, shown, sensor_loop = _decided(machine, contacts, live(machine))
    now = supply_of(machine, contacts)
    if live(machine) and _powered(machine, now.board) != inputs.powered:
        contacts, board, inputs, shown, sensor_loop = _decided(machine, contacts, False)
        now = supply_of(machine, contacts)
        if _powered(machine, now.controller):
            contacts, board, inputs, shown, sensor_loop = _decided(machine, contacts, False, True)
            now = supply_of(machine, contacts)
    elif live(machine) and not _powered(machine, now.controller):
        contacts, board, inputs, shown, sensor_loop = _decided(machine, contacts, True, False)
        now = supply_of(machine, contacts)
    solenoid_on = _pulls_in(machine, now)
    return Instant(
        contacts=contacts,
        supply=now,
        inputs=inputs,
        board=board,
        display=shown,
        flows=_flows(machine, now, solenoid_on, space, coarse),
        space=space,
        sensor_loop=sensor_loop,
        solenoid_on=solenoid_on,
    )


def _pulls_in(machine: Machine, now: Supply) -> bool:
    """Whether the fill solenoid's coil lifts its plunger: voltage, a whole winding, and turns enough left of it."""
    coil = machine.parts.water.fill_solenoid
    return (
        now.fill > _PULLS_IN_ABOVE * machine.build.plate.volts
        and not math.isinf(coil.coil)
        and coil.impedance_factor > _TURNS_LEFT
    )


def live(machine: Machine) -> bool:
    """Plugged in, nothing upstream tripped, switched on: the mains reaches the machine's inside if its parts let it."""
    return machine.bench.plugged and machine.bench.switch_on and not machine.state.rcd_tripped


def space_of(machine: Machine) -> Space:
    """Water, steam space and pressure in the boiler now."""
    state, boiler = machine.state, machine.parts.water.boiler
    air = air_pressure(machine.build.altitude)
    found = boiler_space(state.boiler, state.boiler_water, state.boiler_air, boiler.litres, air)
    if vacuum_hole(machine) > 0.0:
        # The valve passes air far faster than anything here makes it: only vapour above the air's pressure counts.
        return replace(found, gauge=max(saturation_pressure(state.boiler) - air, 0.0))
    return replace(found, gauge=max(found.gauge, 0.0)) if vented(machine) else found


def vacuum_hole(machine: Machine) -> float:
    """Hole of the vacuum relief valve now [mm]."""
    valve = machine.parts.water.vacuum_valve
    if "vacuum valve" in machine.bench.removed:
        return 4.0
    if valve.state == "stuck closed":
        return 0.0
    return valve.hole if valve.state == "stuck open" or not machine.state.vacuum_shut else 0.0


def vented(machine: Machine) -> bool:
    """The steam space is open to the air: through the vacuum valve, a tap, an opened fitting."""
    bench = machine.bench
    return vacuum_hole(machine) > 0.0 or bench.steam_tap > 0.0 or "safety valve" in bench.removed


def wall_at_limits(machine: Machine) -> float:
    """Temperature of the boiler's wall where the limits sit [degC]: between the water and the element's sheath."""
    return machine.state.boiler + 0.25 * (machine.state.sheath - machine.state.boiler)


def rod_to_body(machine: Machine, space: Space) -> float:
    """Resistance from the level probe's tip through the water to the boiler [ohm]; in steam infinite.

    R = cell constant / conductivity, which rises 2 % per kelvin (from memory).
    """
    probe, boiler = machine.parts.water.probe, machine.parts.water.boiler
    if space.water < boiler.probe_tip:
        return math.inf
    conductivity = machine.state.salts / machine.state.boiler_water
    siemens = conductivity * 1e-6 * (1 + 0.02 * (machine.state.boiler - 25.0))
    return probe.cell / siemens + probe.lime


def _contacts_by_state(machine: Machine, space: Space, coarse: bool) -> Contacts:
    state, bench, mains = machine.state, machine.bench, machine.parts.mains
    rod = rod_to_body(machine, space)
    sensor = sensor_ohms(mains.sensor.kind, state.sensed + mains.sensor.drift)
    return Contacts(
        switch=bench.switch_on,
        fuse=not state.fuse_blown and "mains fuse" not in bench.removed,
        board_fuse=not state.board_fuse_blown and "board fuse" not in bench.removed,
        limit_1=not state.limit_1_open,
        limit_2=not state.limit_2_open,
        limiter=not state.limiter_open,
        element=not state.element_burnt,
        brew=_worked(mains.brew_switch, bench.lever_up),
        float_=_worked(mains.float_contact, state.tank > TANK_LOW),
        rod_to_body=rod if math.isinf(rod) else float(f"{rod:.2g}") if coarse else rod,
        sensor=sensor,
        boiler=_rough(state.boiler, coarse),
        coil=_rough(state.coil, coarse),
        pump_coil=_rough(state.pump_coil, coarse),
        moisture=round(state.moisture, 1) if coarse else state.moisture,
    )


def _rough(temperature: float, coarse: bool) -> float:
    return round(temperature, -1) if coarse else temperature


def _worked(contact: Contact, pressed: bool) -> bool:
    return pressed if not contact.stuck else contact.stuck == "closed"


def _decided(
    machine: Machine, contacts: Contacts, board_powered: bool, controller_powered: bool | None = None
) -> tuple[Contacts, Outputs, Inputs, Display, float]:
    """What board and controller make of their inputs, powered or not, and the contacts with that."""
    parts, bench = machine.parts, machine.bench
    inputs = Inputs(
        powered=board_powered,
        probe_ohms=loop_ohms(parts, contacts, bench, "probe"),
        brew=loop_ohms(parts, contacts, bench, "brew") < _SIGNAL_CLOSED,
        float_water=loop_ohms(parts, contacts, bench, "float") < _SIGNAL_CLOSED,
    )
    board = outputs(parts.mains.board, inputs, machine.state.board)
    loop = loop_ohms(parts, contacts, bench, "sensor")
    powered = board_powered if controller_powered is None else controller_powered
    shown = display(parts.mains.controller, powered, loop)
    calls = calls_for_heat(parts.mains.controller, shown, machine.state.calls_heat)
    found = replace(contacts, pump_out=board.pump, fill_out=board.fill, release=board.release, controller_out=calls)
    driven = parts.mains.relay.output_opens and relay_is_driven(parts, found, bench)
    return replace(found, relay_conducts=driven or parts.mains.relay.shorted), board, inputs, shown, loop


def supply_of(machine: Machine, contacts: Contacts) -> Supply:
    """The mains solved for contacts that stand as given; nothing if unplugged or tripped upstream."""
    if not machine.bench.plugged or machine.state.rcd_tripped:
        return NO_SUPPLY
    # What carries no mains is left out of the key under which the solved network is remembered.
    key = replace(contacts, sensor=1e4, float_=False, brew=False, rod_to_body=math.inf, controller_out=False)
    bench = machine.bench
    return supply(machine.build, machine.parts, key, Hands(bench.lifted, bench.links, bench.fed))


def _powered(machine: Machine, volts: float) -> bool:
    return volts > _WORKS_ABOVE * machine.build.plate.volts


def _flows(machine: Machine, now: Supply, solenoid_on: bool, space: Space, coarse: bool) -> Flows:
    state, water, bench = machine.state, machine.parts.water, machine.bench
    hot = state.boiler > HOT_AT
    if now.pump <= 0.0:
        return standing(water, bench, space.gauge, hot)
    coil = round(state.pump_coil, -1) if coarse else state.pump_coil
    drive = Drive(now.pump, machine.build.mains_hertz, coil, state.primed, water.suction.air)
    there = "tank" in bench.bypassed or state.tank > TANK_DRY
    boiler = full_pressure(machine, solenoid_on) if space.full else space.gauge
    found = flows(water, machine.build.plate, Situation(drive, solenoid_on, boiler, there, bench))
    return found if found.pump > 0.0 or found.tee > 0.0 else standing(water, bench, space.gauge, hot)


def full_pressure(machine: Machine, solenoid_on: bool) -> float:
    """Pressure in a boiler full of water while more is pumped in [bar gauge]: its safety valve lifts, or an open vacuum
    valve spills."""
    if vented(machine):
        return 0.2
    open_way = solenoid_hole(machine.parts.water, solenoid_on) > 0.0 or machine.parts.water.exchanger.pinhole > 0.0
    return machine.parts.water.safety_valve.lifts_at if open_way else space_of(machine).gauge
