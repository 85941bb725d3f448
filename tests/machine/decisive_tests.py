"""By failure mode the test that decides it: what the fault shows, and what a sound machine shows.

Common practice, no source; figures come from the plate (V^2/P), from data sheets of sensors, or from the limits that the
trade uses (0.5 V over a joint, 1 Mohm, 60 degC), never from running the machine.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from expert.machine import (
    Action,
    ActsAt,
    Alter,
    Basket,
    BoardVolts,
    Collect,
    Conductivity,
    ControlVolts,
    DiodeTest,
    Display,
    FillTank,
    HeatUp,
    Inspect,
    Insulation,
    Lamp,
    Lever,
    Link,
    Listen,
    Look,
    Observation,
    PartResistance,
    Plug,
    PressureOn,
    Reading,
    ResistanceBetween,
    Seen,
    SensorInBath,
    Sight,
    SocketVolts,
    Switch,
    Tap,
    TemperatureOf,
    Volts,
    Wait,
)

Says = Callable[[Seen], bool]
ON: tuple[Action, ...] = (Plug(), Switch())
HOT: tuple[Action, ...] = (Plug(), HeatUp(25.0, 5.0))
BLIND: tuple[Action, ...] = (*ON, Wait(10.0), Basket("blind"), Lever())
OPEN_FLOW: tuple[Action, ...] = (*ON, Wait(10.0), Lever())


def above(limit: float) -> Says:
    return lambda seen: isinstance(seen, Reading) and seen.value > limit


def below(limit: float) -> Says:
    return lambda seen: isinstance(seen, Reading) and seen.value < limit


def near(value: float, share: float) -> Says:
    return lambda seen: isinstance(seen, Reading) and abs(seen.value - value) <= share * abs(value)


def word(*words: str) -> Says:
    return lambda seen: isinstance(seen, Sight) and seen.word in words


def over_range(seen: Seen) -> bool:
    return isinstance(seen, Reading) and math.isinf(seen.value)


def either(one: Says, other: Says) -> Says:
    return lambda seen: one(seen) or other(seen)


PLATE_OHMS = 230.0**2 / 1350.0  # the plate's 1400 W less 50 W of the pump

# part, mode; what is done first; what is observed; what the fault shows; what a sound machine shows.
ROWS: tuple[tuple[str, str, tuple[Action, ...], Observation, Says, Says], ...] = (
    ("mains lead", "live core broken", (), PartResistance("live core"), over_range, below(0.1)),
    ("mains lead", "neutral core broken", (), PartResistance("neutral core"), over_range, below(0.1)),
    ("mains lead", "earth core broken", (), ResistanceBetween("plug.earth", "chassis"), over_range, below(0.5)),
    ("main switch", "live pole burnt open", ON, Volts("switch.live out", "switch.neutral out"), below(50.0), above(200.0)),
    ("main switch", "neutral pole burnt open", (), PartResistance("main switch neutral"), over_range, below(0.5)),
    ("main switch", "live pole burnt to a resistance", (), PartResistance("main switch live"), above(0.5), below(0.5)),
    ("mains fuse", "blown by age", (), PartResistance("mains fuse"), over_range, below(1.0)),
    ("board fuse", "blown by age", (), PartResistance("board fuse"), over_range, below(1.0)),
    ("heater joint", "loose and burnt", ON, Volts("relay.mains out", "element.a"), above(0.5), below(0.5)),
    ("heater joint", "parted", ON, Volts("element.b", "switch.neutral out"), above(200.0), below(0.5)),
    ("limit joint", "loose and burnt", ON, Volts("switch.live out", "limit 1.in"), above(0.5), below(0.5)),
    ("relay joint", "parted", ON, Volts("limit 2.out", "relay.mains in"), above(100.0), below(0.5)),
    ("relay control wire", "off", ON, ControlVolts(), below(1.0), above(5.0)),
    ("fill coil wire", "off", (), ResistanceBetween("board.fill", "board.neutral"), above(1e5), below(1500.0)),
    ("pump wire", "off", (), DiodeTest("limiter.in", "board.neutral"), over_range, below(2.0)),
    ("brew switch wire", "off", (Lever(),), ResistanceBetween("board.brew a", "board.brew b"), over_range, below(2.0)),
    ("board supply wire", "off", ON, Volts("board.live", "board.neutral"), below(200.0), above(200.0)),
    ("body earth joint", "parted", (), ResistanceBetween("plug.earth", "chassis"), over_range, below(0.5)),
    ("wiring", "chafed through to the body", (Switch(),), Insulation(), below(1e6), above(1e6)),
    ("wiring", "insulation rubbed thin", (Switch(),), Insulation(), below(1e6), above(1e6)),
    ("insulation", "damp from storage or a leak", (Switch(),), Insulation(), below(1e6), above(1e6)),
    ("element", "open circuit", (), PartResistance("element"), over_range, near(PLATE_OHMS, 0.1)),
    ("element", "one of two windings open", (), PartResistance("element"), near(2 * PLATE_OHMS, 0.1), near(PLATE_OHMS, 0.1)),
    ("element", "insulation broken down", (), Insulation(alone="element"), below(1e6), above(1e6)),
    ("element", "insulation breaks down hot", (*HOT, Plug(False)), Insulation(alone="element"), below(1e6), above(1e6)),
    ("element", "thick with scale", (), Inspect("element"), word("thick with scale"), word("clean")),
    ("element", "burnt out", (), PartResistance("element"), over_range, near(PLATE_OHMS, 0.1)),
    ("relay", "output does not close", ON, Volts("element.a", "element.b"), below(50.0), above(200.0)),
    ("relay", "output shorted", (), PartResistance("relay output"), below(1.0), over_range),
    ("relay", "input dead", ON, Lamp("heating"), word("off"), word("on")),
    ("relay", "passes one half wave only", ON, Volts("element.a", "element.b"), near(230.0 / math.sqrt(2), 0.04), above(215.0)),
    ("relay", "mounted without paste", (*ON, Wait(300.0)), TemperatureOf("relay body"), above(60.0), below(60.0)),
    ("temperature controller", "output dead", ON, ControlVolts("controller.out +", "controller.out -"), below(1.0), above(5.0)),
    ("temperature controller", "output stuck on", (*HOT, Alter("lift", "relay.control +")), ControlVolts("controller.out +", "controller.out -"), above(5.0), below(1.0)),
    ("temperature controller", "set to another sensor", (), Look("controller sensor setting"), word("another sensor"), word("as fitted")),
    ("temperature controller", "offset set, reads high", ON, Display(), above(27.0), below(25.0)),
    ("temperature controller", "offset set, reads low", ON, Display(), below(15.0), above(17.0)),
    ("temperature controller", "dead", ON, Display(), word("dark"), near(20.0, 0.1)),
    ("temperature sensor", "open", (), PartResistance("sensor"), over_range, near(12490.0, 0.05)),
    ("temperature sensor", "lead broken", ON, Display(), word("no sensor"), near(20.0, 0.1)),
    ("temperature sensor", "shorted", ON, Display(), word("low resistance"), near(20.0, 0.1)),
    # Data sheet 29049: 677.3 ohm at 100 degC.
    ("temperature sensor", "resistance in its plug", (), SensorInBath(100.0), above(740.0), near(677.3, 0.04)),
    ("temperature sensor", "out of its pocket", (), Look("sensor"), word("out of its pocket"), word("in its pocket")),
    ("temperature sensor", "another type fitted", (), SensorInBath(100.0), near(3316.0, 0.04), near(677.3, 0.04)),
    ("temperature sensor", "drifted, reads low", (), SensorInBath(100.0), above(740.0), near(677.3, 0.04)),
    ("temperature sensor", "drifted, reads high", (), SensorInBath(100.0), below(600.0), near(677.3, 0.04)),
    ("high limit 1", "has opened once, cause gone", (), PartResistance("high limit 1"), over_range, below(0.5)),
    ("high limit 1", "weak, opens low", (), ActsAt("high limit 1"), below(125.0), near(135.0, 0.02)),
    ("high limit 1", "bridged by a wire", (), Look("high limit 1"), word("a wire lies across it"), word("pressed in")),
    ("high limit 1", "open and does not reset", (), PartResistance("high limit 1"), over_range, below(0.5)),
    ("high limit 2", "has opened once, cause gone", (), PartResistance("high limit 2"), over_range, below(0.5)),
    ("high limit 2", "weak, opens low", (), ActsAt("high limit 2"), below(135.0), near(145.0, 0.02)),
    ("high limit 2", "bridged by a wire", (), Look("high limit 2"), word("a wire lies across it"), word("pressed in")),
    ("high limit 2", "open and does not reset", (), PartResistance("high limit 2"), over_range, below(0.5)),
    ("safety valve", "weeps", HOT, Look("safety valve outlet"), word("drips"), word("dry")),
    ("safety valve", "lifts low", (), ActsAt("safety valve"), below(1.2), near(2.0, 0.05)),
    ("safety valve", "stuck shut", (), ActsAt("safety valve"), above(3.0), near(2.0, 0.05)),
    ("vacuum valve", "stuck open", HOT, Look("vacuum valve"), word("blows steadily"), word("dry")),
    ("vacuum valve", "stuck closed", HOT, PressureOn("second gauge on boiler"), above(1.6), below(1.3)),
    ("boiler gauge", "stuck at zero", HOT, PressureOn("boiler gauge"), below(0.2), near(1.1, 0.2)),
    ("boiler gauge", "stuck at working pressure", (), PressureOn("boiler gauge"), above(0.9), below(0.2)),
    ("boiler gauge", "reads high", (), PressureOn("boiler gauge"), above(0.3), below(0.2)),
    ("boiler gauge", "reads low", HOT, PressureOn("boiler gauge"), below(0.85), near(1.1, 0.2)),
    ("boiler gauge", "capillary blocked", HOT, PressureOn("boiler gauge"), below(0.2), near(1.1, 0.2)),
    ("heat exchanger", "pinhole into the boiler", (), Inspect("heat exchanger under pressure"), word("falls, bubbles in the boiler"), word("holds")),
    ("heat exchanger", "scaled inside", OPEN_FLOW, Collect("group", 10.0), below(55.0), above(60.0)),
    ("thermosyphon", "restricted by scale", (*HOT, Wait(1800.0)), TemperatureOf("group"), below(72.0), above(88.0)),
    ("thermosyphon", "air lock", (*HOT, Wait(1800.0)), TemperatureOf("thermosyphon return"), below(60.0), above(80.0)),
    ("thermosyphon", "circulates too much", (*HOT, Wait(2400.0)), TemperatureOf("group"), above(98.0), below(97.0)),
    ("boiler gasket", "leaks", HOT, Look("under boiler"), word("steam and drops"), word("dry")),
    ("steam tap", "seat worn", HOT, Look("steam tip"), word("drips"), word("dry")),
    ("steam tap", "spindle seal leaks", (*HOT, Tap("steam")), Look("steam knob"), word("leaks"), word("dry")),
    ("steam tap", "tip blocked", (*HOT, Tap("steam")), Look("steam tip"), word("weak steam"), word("strong steam")),
    ("water tap", "seat worn", HOT, Look("water tip"), word("drips"), word("dry")),
    ("water tap", "spindle seal leaks", (*HOT, Tap("water")), Look("water knob"), word("leaks"), word("dry")),
    ("water tap", "tip blocked", (*HOT, Tap("water")), Look("water tip"), word("weak"), word("runs")),
    ("level probe", "scaled over", (), PartResistance("level probe to body"), above(1e5), below(1e5)),
    ("level probe", "wire off or broken", (), ResistanceBetween("board.probe", "boiler"), above(1e6), below(1e5)),
    ("level probe", "insulator cracked and wet", (*ON, Alter("lift", "probe"), Wait(8.0)), Lamp("fill call"), word("on"), word("on")),
    ("level probe", "touches the wall", (), PartResistance("level probe to body"), below(10.0), above(1e3)),
    ("fill solenoid", "coil open", (), PartResistance("fill solenoid coil"), over_range, near(1000.0, 0.1)),
    ("fill solenoid", "coil with shorted turns", (), PartResistance("fill solenoid coil"), below(100.0), near(1000.0, 0.1)),
    ("fill solenoid", "stuck shut", (*ON, Alter("lift", "probe"), Wait(8.0)), Listen("fill solenoid"), word("buzzes, no click"), word("clicks and hums")),
    ("fill solenoid", "passes when closed", (*BLIND, Alter("loosen", "solenoid outlet")), Look("opened line"), word("runs", "drops"), word("dry")),
    ("fill non-return valve", "stuck shut", (*ON, Alter("loosen", "fill valve outlet"), Alter("lift", "probe"), Wait(8.0)), Look("opened line"), word("dry"), word("runs")),
    ("fill non-return valve", "leaks back", HOT, PressureOn("gauge on fill line"), above(0.5), below(0.3)),
    ("control board", "fill output dead", (*ON, Alter("lift", "probe"), Wait(8.0)), Volts("fill coil.a", "fill coil.b"), below(50.0), above(200.0)),
    ("control board", "fill output stuck on", (*ON, Wait(8.0)), Volts("fill coil.a", "fill coil.b"), above(200.0), below(50.0)),
    ("control board", "pump output dead", OPEN_FLOW, Volts("limiter.in", "board.neutral"), below(50.0), above(200.0)),
    ("control board", "pump output stuck on", (*ON, Wait(8.0)), Volts("limiter.in", "board.neutral"), above(200.0), below(50.0)),
    ("control board", "probe input blind", (*ON, Link("board.probe", "chassis"), Wait(10.0)), Lamp("fill call"), word("on"), word("off")),
    ("control board", "probe input always wet", (*ON, Alter("lift", "probe"), Wait(10.0)), Lamp("fill call"), word("off"), word("on")),
    ("control board", "heat release dead", ON, ControlVolts(), below(1.0), above(5.0)),
    ("control board", "heat release stuck closed", (FillTank(0.0), *ON), ControlVolts(), above(5.0), below(1.0)),
    ("control board", "dead", ON, BoardVolts(), below(1.0), near(12.0, 0.05)),
    ("tank", "not seated", OPEN_FLOW, Collect("group", 10.0), below(5.0), above(60.0)),
    ("tank", "outlet valve stuck shut", (), Inspect("tank outlet valve"), word("stuck shut"), word("opens")),
    ("tank", "cracked or seal leaking", (), Look("under tank"), word("wet"), word("dry")),
    ("tank float", "stuck at empty", (), PartResistance("tank float full"), over_range, below(2.0)),
    ("tank float", "wire off", ON, Lamp("tank empty"), word("on"), word("off")),
    ("tank float", "stuck at full", (FillTank(0.0), *ON), Lamp("tank empty"), word("off"), word("on")),
    ("suction filter", "blocked", OPEN_FLOW, Collect("group", 10.0), below(40.0), above(60.0)),
    ("suction hose", "draws air", OPEN_FLOW, Look("suction hose"), word("bubbles"), word("full of water")),
    ("suction hose", "kinked", (), Look("suction hose"), word("kinked"), word("full of water")),
    ("pump", "worn", BLIND, PressureOn("gauge in basket"), below(8.0), near(9.5, 0.05)),
    ("pump", "coil open", (), DiodeTest("pump.a", "pump.b"), over_range, below(1.0)),
    ("pump", "diode open", (), DiodeTest("pump.a", "pump.b"), over_range, below(1.0)),
    ("pump", "diode shorted", (), DiodeTest("pump.b", "pump.a"), below(1.0), over_range),
    ("pump", "air-locked", OPEN_FLOW, Listen("pump"), word("loud, moves nothing"), word("steady")),
    ("pump", "piston stuck", OPEN_FLOW, Listen("pump"), word("faint hum"), word("steady")),
    ("pump limiter", "open for good", (), PartResistance("pump limiter"), over_range, below(2.0)),
    ("pump limiter", "weak, opens low", (), ActsAt("pump limiter"), below(80.0), above(100.0)),
    ("over-pressure valve", "held open by dirt", BLIND, PressureOn("gauge in basket"), below(8.0), near(9.5, 0.05)),
    ("over-pressure valve", "set too low", BLIND, PressureOn("gauge in basket"), near(6.7, 0.1), near(9.5, 0.05)),
    ("over-pressure valve", "set too high", BLIND, PressureOn("gauge in basket"), above(11.0), near(9.5, 0.05)),
    ("over-pressure valve", "stuck shut", BLIND, PressureOn("gauge in basket"), above(14.0), near(9.5, 0.05)),
    ("brew non-return valve", "leaks back", HOT, PressureOn("pump gauge"), above(0.5), below(0.5)),
    ("brew non-return valve", "stuck shut", OPEN_FLOW, Collect("group", 10.0), below(5.0), above(60.0)),
    ("pump gauge", "dead at zero", BLIND, PressureOn("pump gauge"), below(1.0), above(8.5)),
    ("pump gauge", "tee blocked", BLIND, PressureOn("pump gauge"), below(1.0), above(8.5)),
    ("pump gauge", "reads low", BLIND, PressureOn("pump gauge"), below(8.0), above(8.5)),
    ("pump gauge", "reads high", BLIND, PressureOn("pump gauge"), above(11.0), below(10.5)),
    ("brew switch", "does not close", (), PartResistance("brew switch lever up"), over_range, below(2.0)),
    ("brew switch", "stuck closed", (), PartResistance("brew switch lever down"), below(2.0), over_range),
    ("group brew valve", "seal drips", HOT, Look("shower"), word("drips"), word("dry")),
    ("group exhaust valve", "does not release", BLIND, Look("exhaust on lowering"), word("nothing"), word("gushes")),
    ("group exhaust valve", "leaks while brewing", BLIND, Look("exhaust"), word("runs"), word("dry")),
    ("group jet", "blocked", OPEN_FLOW, Collect("return hose", 10.0), above(15.0), below(2.0)),
    ("shower screen", "blocked", OPEN_FLOW, Collect("group", 10.0), below(40.0), above(60.0)),
    ("group gasket", "hardened, leaks at the rim", BLIND, Look("group rim"), word("leaks"), word("dry")),
    ("brew hose", "leaks inside", BLIND, Look("under boiler"), word("water runs"), word("dry")),
    ("water", "too pure for the probe", (), Conductivity(), below(10.0), above(50.0)),
    ("supply", "voltage low", (), SocketVolts(), below(207.0), near(230.0, 0.02)),
    ("supply", "voltage high", (), SocketVolts(), above(253.0), near(230.0, 0.02)),
    ("tank", "empty", (), Look("tank"), word("empty"), word("full enough")),
    ("set point", "set too low", HOT, PressureOn("boiler gauge"), below(0.5), near(1.1, 0.2)),
    ("set point", "set too high", HOT, PressureOn("boiler gauge"), above(1.4), near(1.1, 0.2)),
    ("steam tap", "left open a little", HOT, Look("steam tip"), word("weak steam", "strong steam"), word("dry")),
)  # fmt: skip
