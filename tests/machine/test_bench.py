"""The bench decides what can be seen; instruments are as exact as they say; hazards are physics."""

from __future__ import annotations

import math

import pytest

from expert.machine import (
    FAULTS,
    Alter,
    Amps,
    Battery,
    Build,
    Covers,
    Display,
    HeatUp,
    Inspect,
    Lamp,
    Lever,
    Link,
    Machine,
    Mend,
    PartResistance,
    Plug,
    PressureOn,
    PutAllBack,
    PutBack,
    Reading,
    ResetLimit,
    ResistanceBetween,
    Sight,
    Switch,
    TemperatureOf,
    Unseen,
    Vent,
    Volts,
    Wait,
    brought_in,
    do,
    fault,
    hazards_now,
    hazards_of,
    observe,
    sound_machine,
    with_faults,
)
from expert.machine.seeing.instruments import METERS, read


def bare() -> Machine:
    return do(sound_machine(Build(), 9), Covers())


def hot() -> Machine:
    return do(do(bare(), Plug()), HeatUp(25.0))


def value(machine: Machine, asked: object) -> float:
    seen = observe(machine, asked)[1]  # type: ignore[arg-type]
    assert isinstance(seen, Reading), seen
    return seen.value


def test_unplugged_nothing_is_live() -> None:
    machine = do(bare(), Switch())
    for points in (("plug.live", "plug.neutral"), ("element.a", "element.b"), ("board.live", "earth")):
        assert value(machine, Volts(*points)) <= 0.3
    assert observe(machine, Display())[1] == Sight("dark")
    assert observe(machine, Lamp("mains"))[1] == Sight("off")
    assert value(machine, Amps()) == pytest.approx(0.0, abs=0.06)


@pytest.mark.parametrize(
    ("machine", "asked", "why"),
    [
        (hot, ResistanceBetween("element.a", "element.b"), "plugged in: never on a live circuit"),
        (hot, Inspect("level probe"), "plugged in"),
        (lambda: do(hot(), Plug(False)), Inspect("level probe"), "hot or under pressure"),
        (lambda: sound_machine(Build()), PartResistance("element"), "covers are on"),
        (lambda: sound_machine(Build()), TemperatureOf("boiler wall"), "covers are on"),
        (bare, PressureOn("gauge in basket"), "the gauge's blind basket is not in the group"),
        (bare, TemperatureOf("brew water"), "no water runs at the group"),
    ],
)
def test_what_cannot_be_seen_says_why(machine: object, asked: object, why: str) -> None:
    assert observe(machine(), asked)[1] == Unseen(why)  # type: ignore[operator,arg-type]


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        (Volts("element.c", "earth"), "'element.c' is not a point of this machine's wiring"),
        (
            Lamp("brew"),
            "'brew' is not a lamp; mains, heating, fill call, tank empty, alarm would do",
        ),
        (Amps("earth"), "'earth' is not where a clamp fits; lead, element, pump, board would do"),
    ],
)
def test_what_is_not_there_is_refused_with_what_would_do(asked: object, message: str) -> None:
    with pytest.raises(ValueError) as refused:
        observe(hot(), asked)  # type: ignore[arg-type]
    assert str(refused.value) == message


def test_a_lifted_wire_is_open_until_it_is_put_back() -> None:
    machine = bare()
    asked = ResistanceBetween("switch.neutral out", "element.b")
    assert value(machine, asked) < 1.0
    lifted = do(machine, Alter("lift", "element.b"))
    assert value(lifted, asked) > 1000.0
    for back in (PutBack("lift", "element.b"), PutAllBack()):
        assert do(lifted, back) == machine


def test_tens_of_volts_at_an_open_element_vanish_with_a_lamp() -> None:
    """Common practice: a blocking relay leaks enough to move a meter, not a lamp."""
    machine = do(with_faults(Build(), [fault("element", "open circuit"), fault("relay", "input dead")], 3), Covers())
    machine = do(do(machine, Plug()), Switch())
    assert 10.0 < value(machine, Volts("element.a", "element.b")) < 120.0
    assert value(machine, Volts("element.a", "element.b", loaded=True)) < 2.0


def test_a_battery_drives_the_relay() -> None:
    machine = do(with_faults(Build(), [fault("temperature controller", "output dead")], 3), Covers())
    machine = do(do(do(machine, Alter("lift", "relay.control +")), Alter("lift", "relay.control -")), Plug())
    machine = do(machine, Switch())
    assert value(machine, Volts("element.a", "element.b")) < 5.0
    driven = do(machine, Battery("relay.control +", "relay.control -"))
    assert value(driven, Volts("element.a", "element.b")) > 200.0
    turned = do(machine, Battery("relay.control -", "relay.control +"))
    assert value(turned, Volts("element.a", "element.b")) < 5.0


def test_a_resistor_in_place_of_the_sensor_shows_its_temperature() -> None:
    """Data sheet 29049: 677.3 ohm at 100 degC."""
    machine = do(with_faults(Build(), [fault("temperature sensor", "open")], 3), Covers())
    for action in (
        Alter("lift", "sensor plug.a"),
        Alter("lift", "sensor.b"),
        Link("controller.sensor a", "controller.sensor b", 677.3),
        Plug(),
        Switch(),
    ):
        machine = do(machine, action)
    assert value(machine, Display()) == 100.0


def test_a_limit_resets_only_when_it_has_cooled() -> None:
    machine = do(do(with_faults(Build(), [fault("relay", "output shorted")], 3), Plug()), Switch())
    machine = do(machine, Wait(900.0))
    assert machine.state.limit_1_open
    assert do(machine, ResetLimit(1)).state.limit_1_open
    cold = do(do(machine, Plug(False)), Wait(4 * 3600.0))
    assert not do(cold, ResetLimit(1)).state.limit_1_open


def test_venting_lets_the_pressure_out() -> None:
    machine = do(do(hot(), Switch(False)), Vent())
    assert value(machine, PressureOn("second gauge on boiler")) < 0.1


@pytest.mark.parametrize("known", FAULTS, ids=lambda known: known.name)
def test_mending_the_part_makes_the_machine_sound(known: object) -> None:
    broken = known.into(sound_machine(Build(), 6))  # type: ignore[attr-defined]
    assert broken != sound_machine(Build(), 6)
    assert do(broken, Mend(known.part)) == sound_machine(Build(), 6)  # type: ignore[attr-defined]


def test_mending_one_part_leaves_the_other_fault() -> None:
    both = with_faults(Build(), [fault("pump", "worn"), fault("relay", "output shorted")], 6)
    assert do(both, Mend("pump")) == with_faults(Build(), [fault("relay", "output shorted")], 6)


@pytest.mark.parametrize("meter", METERS)
@pytest.mark.parametrize("true", [0.0, 0.37, 1.1, 9.0, 42.0, 231.7, 1010.0])
def test_a_reading_is_out_by_no_more_than_the_instrument_states(meter: str, true: float) -> None:
    for seed in range(40):
        seen = read(sound_machine(Build(), seed), meter, true, meter)
        assert (
            math.isinf(seen.value) if true > METERS[meter].over else abs(seen.value - true) <= seen.uncertainty + 1e-9
        )


def test_the_same_question_is_answered_alike_and_another_seed_otherwise() -> None:
    readings = {value(with_faults(Build(), [], seed), PressureOn("boiler gauge")) for seed in range(12)}
    once, again = (value(bare(), PartResistance("element")) for _ in range(2))
    assert once == again and len(readings) > 1


@pytest.mark.parametrize(
    ("machine", "hazards"),
    [
        (bare, ()),
        (lambda: do(bare(), Plug()), ("live parts open",)),
        (hot, ("live parts open", "boiler under pressure", "hot", "brew side under pressure")),
        (lambda: with_faults(Build(), [fault("high limit 1", "bridged by a wire")]), ("a high limit is bridged",)),
    ],
)
def test_hazards_that_stand(machine: object, hazards: tuple[str, ...]) -> None:
    assert hazards_now(machine()) == hazards  # type: ignore[operator]


def test_a_broken_earth_and_a_broken_insulation_make_the_body_live() -> None:
    faults = [fault("mains lead", "earth core broken"), fault("element", "insulation broken down")]
    machine = with_faults(Build(), faults)
    assert hazards_of(do(machine, Switch()), Plug()) == ("body live",)
    earthed = with_faults(Build(), faults[1:])
    assert hazards_of(do(earthed, Switch()), Plug()) == ()  # the protection trips


@pytest.mark.parametrize(
    ("machine", "action", "met"),
    [
        (bare, Alter("lift", "element.a"), ()),
        (lambda: do(do(bare(), Plug()), Switch()), Alter("lift", "element.a"), ("live terminal touched",)),
        (hot, Alter("remove", "safety valve"), ("opened under pressure", "opened hot")),
        (lambda: do(hot(), Lever()), Alter("loosen", "pump outlet"), ("opened under pressure",)),
        (lambda: do(sound_machine(Build()), Plug()), Covers(), ("live parts laid open", "live parts open")),
        (bare, Link("limit 1.in", "limit 1.out"), ("a high limit is bridged",)),
    ],
)
def test_hazards_that_an_action_meets(machine: object, action: object, met: tuple[str, ...]) -> None:
    assert hazards_of(machine(), action) == met  # type: ignore[operator,arg-type]


def test_what_is_brought_in_shows_what_its_use_has_left() -> None:
    """Fuses, limits, low and overfull boilers come with the machine."""
    left = {
        "relay: output shorted": lambda s: s.limit_1_open,
        "fill solenoid: coil with shorted turns": lambda s: s.board_fuse_blown,
        "level probe: touches the wall": lambda s: s.boiler_water < 0.5 and s.limit_1_open,
        "level probe: scaled over": lambda s: s.boiler_water > 1.5,
        "tank: cracked or seal leaking": lambda s: s.tank < 1.0,
    }
    for name, shows in left.items():
        state = brought_in(Build(), [fault(*name.split(": "))], 2).state
        assert shows(state), name
        assert state.boiler < 25.0 and not state.rcd_tripped
