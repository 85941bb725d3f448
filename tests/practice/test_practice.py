"""The practice dialogue: gates, cautions, what is seen, naming, the end; and that nothing typed can break it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.cli import main
from expert.engine.bench import satisfies
from expert.machine import COMPLAINTS, Build, brought_in, complaints, fault
from expert.practice import stepping
from expert.practice.at_terminal import completions
from expert.practice.ending import ExpertWay, expert_way, told_at_the_end
from expert.practice.opening import NoSuchBuild, begun, build_named, shipped_world
from expert.practice.practice import Practice
from expert.practice.scenario import Scenario
from expert.practice.stepping import HELP, step
from expert.practice.told import MEANS

PROBE, PUMP = ("level probe", "wire off or broken"), ("pump", "coil open")
LOOKED = ("lead looks", "told of danger")
SWITCHED_ON = (*LOOKED, "switch on", "on")


def practice_on(*faults: tuple[str, str], qualified: bool = False) -> Practice:
    known = [fault(part, mode) for part, mode in faults]
    machine = brought_in(Build(), known, 1)
    found = Scenario("common", 1, Build(), tuple(known), machine, complaints(machine))
    return begun(shipped_world(), found, qualified)[0]


def typed(practice: Practice, *lines: str) -> tuple[Practice, tuple[str, ...]]:
    said: tuple[str, ...] = ()
    for line in lines:
        practice, said = step(practice, line)
    return practice, said


def test_every_word_of_a_customer_is_a_complaint_of_the_rules() -> None:
    assert set(MEANS) == set(COMPLAINTS)
    assert set(MEANS.values()) <= shipped_world().knowledge.base.complaints.keys()


UNDER_PRESSURE = "Nobody opens a machine that may be under pressure. Let the pressure out first."
LIVE = "Mains on with the covers off is live work: for the qualified only, and never half prepared."
LIVE_TEST = "It is done with the mains on and the covers off, by the qualified only."
LEAD = (
    "It is forbidden to plug it in or switch it on, because of a mains lead that nobody has looked at. "
    "It ends when: Somebody has run the lead through the hand, plug and all, and it is sound."
)


@pytest.mark.parametrize(
    ("before", "line", "what", "because"),
    [
        ((), "switch on", "Fill the tank, plug in and switch on.", LEAD),
        (SWITCHED_ON, "covers off", "Take the covers off.", LIVE),
        ((*SWITCHED_ON, "lamp lights", "go", "isolate", "out"), "covers off", "Take the covers off.", UNDER_PRESSURE),
        ((*LOOKED, "covers off", "dead"), "switch on", "Fill the tank, plug in and switch on.", LIVE),
        ((*LOOKED, "covers off", "dead"), "switch on open", "Switch on with the covers off.", LIVE),
        (
            (),
            "fill starts unplugged at probe",
            "live work without being qualified: With the wire off at the probe, does the boiler fill start?",
            LIVE_TEST,
        ),
    ],
    ids=["open-hazard", "covers-live", "covers-under-pressure", "on-with-covers-off", "live-move", "live-test"],
)
def test_what_could_hurt_somebody_is_refused_and_counted(
    before: tuple[str, ...], line: str, what: str, because: str
) -> None:
    stood, _ = typed(practice_on(PROBE), *before)
    after, said = step(stood, line)
    assert said == (f"REFUSED, and counted as unsafe: {what}", because)
    assert after.unsafe == (*stood.unsafe, what) and after.job.bench == stood.job.bench


def test_who_is_qualified_may_switch_on_open() -> None:
    practice, said = typed(practice_on(PROBE, qualified=True), *LOOKED, "covers off", "dead", "switch on open")
    assert not practice.unsafe and said[0].startswith("! ") and said[-1].endswith("(type clear, or no)")


def test_cautions_come_before_the_test_and_the_instrument_after() -> None:
    practice, before = typed(practice_on(PROBE), "covers off", "dead", "level probe wire")
    assert before == (
        "! Boiler, group and pipes burn skin long after switching off: gloves on.",
        "Does the level probe's wire run without a break from the board's plug to the probe?",
        "How: Unplug. Pull the wire off at the probe and at the board. Measure from end to end, "
        "and bend it where it is clipped.",
        "Ready? (type go, or no)",
    )
    assert practice.seen == ()
    practice, after = step(practice, "go")
    assert after[0] == "= no" and [seen.question for seen in practice.seen] == ["level_probe_wire"]
    assert practice.minutes == 8.0  # covers off 5 min, the test 3 min


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("help",), HELP),
        (("",), HELP[:1]),
        (("3",), ("'3' chooses nothing: nothing is listed now. Type help to see what can be typed.",)),
        (("xyzzy",), ("No test and no move has the words 'xyzzy'. Other words, or: tests, bench, help",)),
        (("suspects",), ("The suspects are yours to think of: a practice does not show them. A hint costs points.",)),
        (("boiler pressure",), ("The bench does not stand for this test. First: mains on, boiler hot. Type: bench",)),
        (("heat up",), ("Not as the machine stands. This needs: mains on, boiler warm. Type: bench",)),
        (
            ("covers off", "yes"),
            ("'yes' does not confirm it. Type dead when it is so, or no if it cannot be done.",),
        ),
        (("covers off", "no"), ("Left. What next?",)),
        (("it is",), ("No part and failure has these words. Type: it is, and what, such as: it is pump worn",)),
        (
            ("bench",),
            (
                "It stands so: mains isolated, covers on, boiler cold, pressure none, element connected, "
                "altered nothing. 0 min so far. Moves from here:",
                "   1  Bench: Take the covers off. (5 min)",
                "   2  Bench: Fill the tank, plug in and switch on. (2 min)",
            ),
        ),
    ],
)
def test_what_is_said(lines: tuple[str, ...], said: tuple[str, ...]) -> None:
    assert typed(practice_on(PROBE), *lines)[1] == said


def test_a_wrong_name_costs_a_repair_and_counts() -> None:
    practice, said = typed(practice_on(PROBE), "it is vibration_pump.worn", "yes")
    called = practice.job.fault_name("vibration_pump.worn")
    minutes = practice.job.base.faults["vibration_pump.worn"].repair.minutes
    assert said == (
        f"Repaired and tried: as before. That part was sound: {called}. {minutes:g} min at the bench for nothing.",
    )
    assert practice.wrong == (called,) and practice.minutes == minutes
    assert typed(practice, "it is vibration_pump.worn", "yes")[1] == (f"You named that before: {called}.",)
    near, said = typed(practice, "it is level_probe.scaled", "yes")
    called = practice.job.fault_name("level_probe.scaled")
    assert said == (f"Not that, and near: this part did not fail so. ({called})",) and near.wrong == practice.wrong


def test_of_two_faults_the_first_does_not_end_it() -> None:
    practice, said = typed(practice_on(PROBE, PUMP), "it is level_probe.wire_off", "yes")
    called = practice.job.fault_name("level_probe.wire_off")
    assert said == (f"RIGHT: {called}. It is repaired, and the machine is still not as it should be.",)
    assert not practice.over and practice.missed == ("pump: coil open",)


def test_a_hint_is_counted_and_says_what_the_expert_would_look_at() -> None:
    practice, said = step(practice_on(PROBE), "hint")
    ask = practice.job.base.questions["lead_looks"].ask
    assert practice.hints == 1 and said == (f"Hint 1: The expert would look here next: {ask}",)


def test_a_look_and_the_way_out_are_open_where_a_word_has_to_confirm() -> None:
    at_a_gate, _ = typed(practice_on(PUMP), "covers off")
    assert at_a_gate.waiting is not None and at_a_gate.waiting.kind == "move"
    looked, said = typed(at_a_gate, "read", "hint")
    assert (looked.waiting, looked.hints) == (at_a_gate.waiting, 1) and said[0].startswith("Hint 1: ")
    left, _ = typed(looked, "give up", "yes")
    assert left.over
    stays, _ = typed(looked, "give up", "no")
    assert not stays.over and stays.waiting is None and dict(stays.job.bench)["covers"] == "on"


def test_a_machine_that_does_not_heat_does_not_get_hot() -> None:
    practice, said = typed(
        practice_on(("element", "open circuit")), *SWITCHED_ON, "lamp lights", "go", "heat up", "hot"
    )
    assert said == ("It does not come up to heat, however long you wait.",)
    assert dict(practice.job.bench)["boiler"] == "warm"


def test_the_end_shows_both_ways() -> None:
    practice, _ = typed(practice_on(PROBE), "switch on", "lead looks", "covers off", "dead", "level probe wire", "go")
    practice = replace(practice, found=("level probe: wire off or broken",), over=True)
    expert = ExpertWay((("lead_looks", "sound"), ("level_probe_wire", "no")), 9.0, practice.found)
    assert told_at_the_end(practice, expert) == (
        "It was: level probe: wire off or broken (you found it).",
        "",
        "                               you  expert",
        "tests                            2       2",
        "minutes, moves included          9       9",
        "faults found                     1       1",
        "hints                            0       -",
        "Wrong parts: none.",
        "Unsafe attempts, refused: Fill the tank, plug in and switch on.",
        "",
        "Your way:",
        "   1  How do the mains lead and its plug look? sound along its whole length",
        "   2  Does the level probe's wire run without a break from ... no",
        "The expert's way:",
        "   1  How do the mains lead and its plug look? sound along its whole length",
        "   2  Does the level probe's wire run without a break from ... no",
        "",
        "Points: 75 of 100.",  # 25 off for the unsafe step
    )


def test_the_expert_goes_through_the_same_machine_until_the_fault_is_named() -> None:
    expert = expert_way(practice_on(PROBE))
    assert expert.found == ("level probe: wire off or broken",)
    assert expert.tests[0] == ("lead_looks", "sound") and expert.tests[-1] == ("level_probe_wire", "no")
    base = shipped_world().knowledge.base
    assert expert.minutes > sum(base.questions[question].minutes for question, _ in expert.tests)  # and the moves


def test_words_are_completed() -> None:
    practice = practice_on(PROBE)
    assert completions(practice, "hi")[:3] == ["hint", "high limit tripped", "high limit continuity"]
    assert completions(practice, "IT IS lim pump")[:1] == ["it is pump thermal limiter: open for good"]


def test_the_command_is_the_same_for_a_class_and_ends_with_its_lines() -> None:
    def run() -> Any:
        return CliRunner().invoke(main, ["practice", "--seed", "1"], input="lead looks\n\x1b[31m\x00\nhint\n")

    one, other = run(), run()
    assert one.exit_code == 0 and one.output == other.output and "\x1b" not in one.output
    assert "= sound along its whole length" in one.output and one.output.rstrip().endswith("of 100.")


def test_what_there_is_not_is_said() -> None:
    assert build_named("") is None
    with pytest.raises(NoSuchBuild) as refused:
        build_named("110/55")
    assert str(refused.value) == (
        "'110/55' is no machine to practise on; name volts and hertz (100/50, 100/60, 120/60, 230/50, 240/50), "
        "and behind it the sensor, if it matters (ntc 10k, ntc 50k, pt1000)"
    )
    result = CliRunner().invoke(main, ["practice", "--complaint", "xyzzy"])
    assert result.exit_code == 2 and result.stderr.startswith("'xyzzy' is no complaint here. Some that are: ")


WORDS = (
    """
lead looks;told of danger;switch on;on;covers off;dead;isolate;out;vent;empty;heat up;hot;let cool;cool;covers on;closed
measure the wall;element off;taped;put back;back;switch on open;clear;go;set;yes;no;1;2;5;tests;bench;read;pump;element
gauge;probe;fuse;it is pump;it is fuse;it is the probe wire;give up;help;suspects;-1;99999;lamp
""".replace("\n", ";")
    .strip(";")
    .split(";")
)


@settings(max_examples=25, deadline=None)
@given(st.booleans(), st.lists(st.one_of(st.sampled_from(WORDS), st.text(max_size=12)), max_size=25))
def test_nothing_that_is_typed_breaks_it_or_gets_past_the_gates(qualified: bool, lines: list[str]) -> None:
    told = ExpertWay((), 10.0, ())
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(stepping, "expert_way", lambda practice: told)
        practice = practice_on(PROBE, PUMP, qualified=qualified)
        bench = practice.job.base.bench
        for line in lines:
            before = practice
            practice, said = step(practice, line)
            assert said and practice.minutes >= before.minutes and len(practice.unsafe) >= len(before.unsafe)
            if not qualified:
                assert not any(satisfies(practice.job.bench, states) for states in bench.qualified_only)
            stands = dict(practice.job.bench)
            assert practice.machine.bench.plugged == (stands["mains"] == "on")
            assert practice.machine.bench.covers_off == (stands["covers"] == "off")
