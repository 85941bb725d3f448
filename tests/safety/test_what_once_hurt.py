"""What once hurt, as classes: each of these was done wrong by an earlier state of rules and dialogue."""

from __future__ import annotations

import random
import re

import pytest

from expert.job.state.job import Phase
from expert.trace.records import Moved, PromptPut, Worker
from tests.dialogue.shipped_desk import ShippedDesk, shipped_knowledge
from tests.safety.cheap_search import AnyQuestion, any_order
from tests.safety.scenarios import CANNOT_TELL, Scenario, Story, play

BASE = shipped_knowledge().base
ON = {"mains": "on"}
HEATING = {"mains": "on", "element": "connected"}


def does(state: object, act: dict[str, str]) -> bool:
    return act.items() <= dict(state).items()  # type: ignore[call-overload]


def safe(story: Story) -> Story:
    """The same story, with nothing that the judge has to say against it, and an end."""
    assert not story.violations, "\n".join(map(str, story.violations))
    assert story.job.phase is Phase.DONE
    return story


# ---------------------------------------------------------------- danger in the complaint comes first


@pytest.mark.parametrize("other", ["slow_heat", "no_heat", "group_too_cool", "water_under_machine"])
def test_a_burnt_smell_beside_another_complaint_is_looked_into_dead(other: str) -> None:
    story = safe(play(Scenario([other, "burnt_smell"], rest="sound", qualified=True)))
    assert {"lead_looks", "inside_looks", "insulation_at_plug"} <= story.before_energising()


@pytest.mark.parametrize("complaint", ["overheats", "safety_valve_blows"])
@pytest.mark.parametrize("arrives", ["cold", "hot", "unsure"])
def test_what_ran_too_hot_is_tested_dead_before_it_is_energised_again(complaint: str, arrives: str) -> None:
    story = safe(play(Scenario([complaint], rest="sound", arrives=arrives)))
    assert {"relay_output", "high_limit_bridged"} <= story.before_energising()
    never = safe(play(Scenario([complaint], arrives=arrives)))
    assert not any(does(state, ON) for state in never.states())


# ---------------------------------------------------------------- an observation forbids by itself

# What is seen or measured, as it is typed, and the act that it forbids until it is mended or measured otherwise.
FORBIDDING = [
    ("wet_inside", "yes", ON),
    ("board_looks", "wet", ON),
    ("board_looks", "burnt", ON),
    ("terminal_look", "scorched", ON),
    ("fuse_continuity", "no", ON),
    ("what_trips", "rcd", ON),
    ("what_trips", "breaker", ON),
    ("lead_looks", "damaged", ON),
    ("lead_looks", "no_earth_pin", ON),
    ("lead_looks", CANNOT_TELL, ON),
    ("earth_bond", "5 ohm", ON),
    ("insulation_at_plug", "0.1 Mohm", ON),
    ("insulation_at_plug", "0.35 Mohm", ON),  # the tester's tolerance lies across the limit: the worse counts
    ("relay_output", "0.2 ohm", HEATING),
    ("high_limit_bridged", "yes", HEATING),
    ("sensor_seating", "out", HEATING),
    ("boiler_water_low", "yes", HEATING),
    ("probe_pulls_out", "yes", HEATING),
    ("told_of_danger", "shock", ON),
    ("told_of_danger", "burnt", ON),
    ("told_of_danger", "wet", ON),
    ("told_of_danger", "burst", ON),
    ("told_of_danger", CANNOT_TELL, ON),
]


@pytest.mark.parametrize(("question", "typed", "act"), FORBIDDING, ids=lambda value: str(value)[:30])
def test_an_observation_forbids_whichever_complaint_led_to_it(question: str, typed: str, act: dict[str, str]) -> None:
    for complaint in ("pump_noisy", "leaks_at_rim"):
        scenario = Scenario(
            [complaint], {"lead_looks": "sound", "told_of_danger": "nothing", question: typed}, repairs=False
        )
        with any_order(AnyQuestion(random.Random(complaint), (question,), keen=1)):
            story = safe(play(scenario))
        after = story.states(story.place_of(question))
        assert not any(does(state, act) for state in after), f"{complaint}: {question} {typed}"
        assert story.ending not in ("repaired", "normal")


# ---------------------------------------------------------------- stops


def stopped() -> ShippedDesk:
    """A machine that arrived hot; its gauge stands near the rating of the safety valve, and the work has stopped."""
    desk = ShippedDesk()
    desk.type("Ann", "1", "ok", "leaks_at_rim", "ok", "no", "cold")
    while desk.job.prompt.kind != "danger":
        subject = desk.job.prompt.subject
        first = desk.job.prompt.choices[:1] or (CANNOT_TELL,)
        desk.type("damaged" if subject == "lead_looks" else first[0])
    return desk


def test_whoever_works_at_the_bench_lifts_no_stop() -> None:
    desk = stopped()
    for name in ("Ann", "ann", "A n n.", "me", "nobody", "7"):
        desk.type(f"dealt with by {name}")
        assert desk.job.prompt.kind == "danger", name


def test_a_word_that_it_was_dealt_with_releases_nothing() -> None:
    desk = stopped()
    open_before = set(desk.job.hazards.open)
    desk.type("dealt with by Dee")
    assert set(desk.job.hazards.open) >= open_before
    for complaint in ("tingles", "trips_supply", "burnt_smell", "overheats", "safety_valve_blows"):
        story = safe(play(Scenario([complaint], arrives="hot")))
        assert not any(does(state, ON) for state in story.states()), complaint


# ---------------------------------------------------------------- hands, and what they are told to do

ENERGISES = re.compile(
    r"\b(switch (it|the machine|the mains) on|switch on|plug (it|the machine) in|plug in|heat(s|ing)? up|heat-up|"
    r"bring it to pressure)\b",
    re.IGNORECASE,
)
PROTECTS_NOT = re.compile(
    r"\b(bridg\w*|pinch\w*|wedge\w*|block\w*|jumper\w*)\b[^.]*\b(limit|safety valve|return|thermal link|outlet)\b",
    re.IGNORECASE,
)
FORBIDS = re.compile(r"\b(never|do not|not|no|neither|look|remove|take)\b", re.IGNORECASE)


@pytest.mark.parametrize("fault", BASE.faults)
def test_a_repair_in_a_dead_machine_energises_nothing(fault: str) -> None:
    repair = BASE.faults[fault].repair
    if repair.bench.get("mains", "isolated") == "isolated":
        energising = [step for step in repair.steps if ENERGISES.search(step) and not FORBIDS.search(step)]
        assert not energising
    else:
        assert repair.bench.get("covers") == "on", "a repair under mains is at most a setting, with the covers on"


def test_no_step_takes_a_protection_away() -> None:
    texts = {f"repair of {fault.id}": fault.repair.steps for fault in BASE.faults.values()}
    texts |= {question.id: (question.how,) for question in BASE.questions.values()}
    texts |= {f"set-up of {q.id}": q.prepare.steps for q in BASE.questions.values() if q.prepare is not None}
    wrong = [
        f"{where}: {sentence}"
        for where, steps in texts.items()
        for step in steps
        for sentence in re.split(r"(?<=[.:;])\s", step)
        if PROTECTS_NOT.search(sentence) and not FORBIDS.search(sentence)
    ]
    assert not wrong, "\n".join(wrong)


HANDS = re.compile(r"\b(clip|pull (the|one|both|a)|loosen|unscrew|push .* on|take .* off|fit )", re.IGNORECASE)


@pytest.mark.parametrize(
    "name", [q.id for q in BASE.questions.values() if q.bench.get("mains") == "on" and q.bench.get("covers") == "off"]
)
def test_a_live_question_is_set_up_dead(name: str) -> None:
    question = BASE.questions[name]
    assert question.prepare is not None or not HANDS.search(question.how), question.how
    if question.prepare is not None:
        assert question.prepare.bench.get("mains") == "isolated"


# ---------------------------------------------------------------- how it stands


def test_not_sure_how_it_arrived_is_never_hot_enough_for_a_test() -> None:
    story = safe(play(Scenario(["weak_steam"], rest="sound", arrives="unsure")))
    bench: dict[str, str] = {}
    heated = False
    for record in story.records:
        if isinstance(record, Moved):
            bench, heated = dict(record.state), heated or record.move == "heat_up"
        elif isinstance(record, PromptPut) and record.prompt in ("question", "proof"):
            assert heated or BASE.questions[record.question].bench.get("boiler") != "hot", record.question
    assert bench["mains"] == "isolated"


def test_a_rhythm_of_yes_confirms_nothing() -> None:
    desk = ShippedDesk()
    desk.type("Ann", "1", "ok", "leaks_at_rim", "ok", "no", "hot")
    stands = desk.job.bench
    for word in ("y", "yes", "ok", "done", "Y", "j", ""):
        desk.type(word)
        assert desk.job.bench == stands, word


# ---------------------------------------------------------------- who is at the bench


def test_whoever_resumes_is_asked_and_is_not_qualified_by_another() -> None:
    scenario = Scenario(["no_heat"], {"lead_looks": "sound", "told_of_danger": "nothing"}, rest="sound", qualified=True)
    story = safe(play(scenario, pause_at="display_from_cold"))
    workers = [record for record in story.records if isinstance(record, Worker)]
    assert len(workers) >= 2, "after the pause nobody asked who is there"


# ---------------------------------------------------------------- no release without a look

DEVICES = {"safety_valve_outlet_free", "high_limit_bridged", "earth_bond", "insulation_at_plug", "lead_looks"}


@pytest.mark.parametrize("complaint", ["leaks_at_rim", "pump_noisy", "drips_at_shower", "weak_wand", "tank_lamp_wrong"])
def test_no_machine_goes_back_as_fine_without_a_look_at_every_device(complaint: str) -> None:
    story = safe(play(Scenario([complaint], rest="sound")))
    if story.ending in ("repaired", "normal"):
        assert story.answered().keys() >= DEVICES
    for device in DEVICES:
        blind = safe(play(Scenario([complaint], {device: CANNOT_TELL}, rest="sound")))
        assert blind.ending not in ("repaired", "normal"), f"{device} was not looked at"


def test_after_a_runaway_every_device_that_should_have_caught_it_is_proved() -> None:
    found = {"relay_output": "0.2 ohm"}
    found["high_limit_opens_at"] = "145 degC"
    story = safe(play(Scenario(["overheats"], found, rest="sound", again={"relay_output": "OL"})))
    assert story.ending == "repaired"
    assert story.answered().keys() >= {*DEVICES, "high_limit_opens_at", "safety_valve_bench_test"}
