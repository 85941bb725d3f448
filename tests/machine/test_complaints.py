"""What an owner notices of a fault follows from physics: each row is bench knowledge (common practice, no source)."""

from __future__ import annotations

import pytest

from expert.machine import PLATES, SENSORS, Build, brought_in, complaints, fault

ROWS = (
    ("mains lead: live core broken", {"nothing lights"}),
    ("mains fuse: blown by age", {"nothing lights"}),
    ("wiring: chafed through to the body", {"trips the protection at once"}),
    ("element: insulation breaks down hot", {"trips the protection when warm"}),
    ("element: open circuit", {"does not heat"}),
    ("element: one of two windings open", {"heats slowly"}),
    ("relay: output shorted", {"does not heat"}),  # its high limit has opened
    ("relay: passes one half wave only", {"heats slowly"}),
    ("temperature sensor: open", {"display shows an error", "does not heat"}),
    ("temperature sensor: drifted, reads low", {"pressure too high"}),
    ("high limit 1: weak, opens low", {"does not heat"}),
    ("vacuum valve: stuck open", {"hisses on top and does not stop"}),
    ("vacuum valve: stuck closed", {"pressure too high"}),
    ("boiler gauge: capillary blocked", {"pressure too low"}),
    ("thermosyphon: restricted by scale", {"coffee cold"}),
    ("thermosyphon: circulates too much", {"coffee too hot"}),
    ("boiler gasket: leaks", {"water or steam underneath"}),
    ("level probe: scaled over", {"alarm"}),
    ("level probe: touches the wall", {"does not heat"}),  # runs low until a limit opens
    ("fill solenoid: coil open", {"alarm"}),
    ("fill solenoid: coil with shorted turns", {"does not heat", "pump does not run with the lever up"}),
    ("fill solenoid: stuck shut", {"alarm"}),
    ("fill non-return valve: stuck shut", {"alarm"}),
    ("control board: fill output dead", {"alarm"}),
    ("control board: pump output dead", {"alarm"}),
    ("water: too pure for the probe", {"alarm"}),
    ("tank float: stuck at empty", {"tank lamp with the tank full"}),
    ("tank: cracked or seal leaking", {"water under the tank"}),
    ("suction filter: blocked", {"pump loud", "little water at the group"}),
    ("pump: worn", {"brew pressure low"}),
    ("pump: air-locked", {"alarm"}),  # it cannot fill the boiler either
    ("over-pressure valve: set too high", {"brew pressure high"}),
    ("over-pressure valve: held open by dirt", {"brew pressure low"}),
    ("brew non-return valve: leaks back", {"pump gauge not at zero at rest", "steam before water at the group"}),
    ("brew switch: does not close", {"pump does not run with the lever up"}),
    ("brew switch: stuck closed", {"pump runs with the lever down"}),
    ("group brew valve: seal drips", {"group drips with the lever down"}),
    ("group exhaust valve: does not release", {"pressure stays on the coffee"}),
    ("group jet: blocked", {"little water at the group"}),
    ("group gasket: hardened, leaks at the rim", {"leaks at the rim of the group"}),
    ("mains lead: earth core broken", {"the body tingles"}),
    ("set point: set too low", {"stays lukewarm"}),
    ("supply: voltage low", {"heats slowly"}),
)


@pytest.mark.parametrize(("name", "noticed"), ROWS, ids=[row[0] for row in ROWS])
def test_what_the_owner_notices(name: str, noticed: set[str]) -> None:
    part, mode = name.split(": ", 1)
    assert noticed <= set(complaints(brought_in(Build(), [fault(part, mode)], 1)))


@pytest.mark.parametrize("plate", PLATES)
@pytest.mark.parametrize(("sensor", "altitude"), [(SENSORS[0], 0.0), (SENSORS[1], 2200.0), (SENSORS[2], 1000.0)])
def test_nobody_complains_of_a_sound_machine(plate: str, sensor: str, altitude: float) -> None:
    for seed in (1, 2):
        assert complaints(brought_in(Build(PLATES[plate], sensor, altitude), [], seed)) == ()


@pytest.mark.parametrize(
    "name",
    ["high limit 1: bridged by a wire", "safety valve: stuck shut", "wiring: insulation rubbed thin", "tank: empty"],
)
def test_some_faults_nobody_notices(name: str) -> None:
    """Safety devices, and what only a tester shows: the reason for looking at every one of them; and a tank to fill."""
    assert complaints(brought_in(Build(), [fault(*name.split(": ", 1))], 1)) == ()


@pytest.mark.parametrize(
    ("name", "noticed"),
    [
        ("element: one of two windings open", {"heats slowly"}),
        ("element: insulation breaks down hot", {"trips the protection when warm"}),
        ("vacuum valve: stuck open", {"hisses on top and does not stop"}),
        ("level probe: touches the wall", {"does not heat"}),
        ("fill solenoid: coil with shorted turns", {"does not heat"}),
        ("pump: worn", {"brew pressure low"}),
        ("water tap: seat worn", {"water tip drips"}),
    ],
)
@pytest.mark.parametrize(("plate", "sensor", "altitude"), [("100/60", "pt1000", 2200.0), ("120/60", "ntc 50k", 0.0)])
def test_it_is_noticed_on_other_supplies_and_heights(
    name: str, noticed: set[str], plate: str, sensor: str, altitude: float
) -> None:
    """The same faults on other supplies: what is to be seen does not hang on one plate's figures."""
    machine = brought_in(Build(PLATES[plate], sensor, altitude), [fault(*name.split(": ", 1))], 1)
    assert noticed <= set(complaints(machine))
