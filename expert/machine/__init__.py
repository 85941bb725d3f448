"""A simulated machine of layout A: physics and control logic from components, and nothing of any rule.

Heat exchanger, tank, vibration pump, temperature controller with solid-state relay and sensor, lever group with brew
microswitch and thermosyphon, level probe, fill solenoid, non-return valves, over-pressure valve to the tank, two high
limits, 2 bar safety valve, vacuum relief valve. Pure and deterministic: a machine is one frozen value, everything
done to it or asked of it gives a new one, and all chance comes from its seed. Imports `expert.trade` only.

    build/    rating plate, place, and the parameters of every part
    faults/   every failure mode as a change of parameters; circumstances (water, supply, handling)
    mains/    the wiring as a linear network: ohms, insulation, volts, currents
    control/  the board's programme and the temperature controller
    water/    the piping solved for pressures and flows
    heat/     steam, heat, the sensor's curve
    running/  state, one instant solved, the clock
    bench/    how it stands and what hands can do
    hands/    doing it; sound machines and machines as customers bring them
    seeing/   everything that can be observed, and how exactly

In use:

>>> from expert.machine import Build, Plug, HeatUp, PressureOn, brought_in, do, fault, observe
>>> machine = brought_in(Build(), [fault("vacuum valve", "stuck closed")], seed=1)
>>> machine = do(do(machine, Plug()), HeatUp(minutes=25))
>>> machine, seen = observe(machine, PressureOn("boiler gauge"))
>>> seen.unit, seen.value > 1.2      # steam and shut-in air: more pressure than the temperature accounts for
('bar', True)
"""

from expert.machine.bench.actions import (
    Action,
    Alter,
    Basket,
    Battery,
    CoolDown,
    Covers,
    DrainBoiler,
    Dry,
    FillTank,
    Flush,
    HeatUp,
    KnockPump,
    Lever,
    Link,
    Mend,
    NewFuse,
    Plug,
    PourIntoBoiler,
    PrimePump,
    PutAllBack,
    PutBack,
    ResetLimit,
    SeatTank,
    Settings,
    Switch,
    Tap,
    Vent,
    Wait,
)
from expert.machine.build.plate import PLATES, SENSORS, Build, Plate
from expert.machine.faults.catalogue import FAULTS, fault
from expert.machine.faults.fault import Fault
from expert.machine.hands.arrival import brought_in, with_faults
from expert.machine.hands.do import do
from expert.machine.hands.sound import sound_machine
from expert.machine.running.machine import Machine
from expert.machine.seeing.complaints import COMPLAINTS, complaints
from expert.machine.seeing.hazards import hazards_now, hazards_of
from expert.machine.seeing.observations import (
    ActsAt,
    Amps,
    BoardVolts,
    Collect,
    Conductivity,
    ControlVolts,
    DiodeTest,
    Display,
    Drained,
    Inspect,
    Insulation,
    Lamp,
    LeakageAmps,
    Listen,
    Look,
    Observation,
    PartResistance,
    PressureOn,
    ResistanceBetween,
    SensorInBath,
    SocketVolts,
    TemperatureOf,
    Volts,
    Watch,
)
from expert.machine.seeing.observe import observe
from expert.machine.seeing.seen import Course, Reading, Seen, Sight, Unseen

__all__ = [
    "COMPLAINTS",
    "FAULTS",
    "PLATES",
    "SENSORS",
    "Action",
    "ActsAt",
    "Alter",
    "Amps",
    "Basket",
    "Battery",
    "BoardVolts",
    "Build",
    "Collect",
    "Conductivity",
    "ControlVolts",
    "CoolDown",
    "Course",
    "Covers",
    "DiodeTest",
    "Display",
    "DrainBoiler",
    "Drained",
    "Dry",
    "Fault",
    "FillTank",
    "Flush",
    "HeatUp",
    "Inspect",
    "Insulation",
    "KnockPump",
    "Lamp",
    "LeakageAmps",
    "Lever",
    "Link",
    "Listen",
    "Look",
    "Machine",
    "Mend",
    "NewFuse",
    "Observation",
    "PartResistance",
    "Plate",
    "Plug",
    "PourIntoBoiler",
    "PressureOn",
    "PrimePump",
    "PutAllBack",
    "PutBack",
    "Reading",
    "ResetLimit",
    "ResistanceBetween",
    "SeatTank",
    "Seen",
    "SensorInBath",
    "Settings",
    "Sight",
    "SocketVolts",
    "Switch",
    "Tap",
    "TemperatureOf",
    "Unseen",
    "Vent",
    "Volts",
    "Wait",
    "Watch",
    "brought_in",
    "complaints",
    "do",
    "fault",
    "hazards_now",
    "hazards_of",
    "observe",
    "sound_machine",
    "with_faults",
]
