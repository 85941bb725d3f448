"""Proofs in the order of the shortest way through the bench, and looks that are confirmed in one round."""

from __future__ import annotations

import pytest

from expert.engine.bench import bench_state
from expert.job.bench.rounds import first_of_round
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.trace.records import Answered, ComplaintNow, Moved, Proved, Record, Repaired, Told
from tests.dialogue.gasket_job import gasket, jobs

COLD = {"mains": "isolated", "covers": "on", "boiler": "cold", "pressure": "none"}
COLD |= {"element": "connected", "altered": "nothing"}


def at_a_round() -> Job:
    """The same job where looks are first put in one round."""
    return next(job for job in jobs() if job.round_put)


def at_readings(name: str = "display_temperature") -> Job:
    """The same job where this reading is put with another one."""
    return next(job for job in jobs() if len(job.round_put) > 1 and job.prompt.at == ("proof", name))


def answered(records: tuple[Record, ...]) -> list[tuple[str, str]]:
    return [(record.question, record.text) for record in records if isinstance(record, Answered)]


def told(records: tuple[Record, ...]) -> list[str]:
    return [record.text for record in records if isinstance(record, Told)]


def test_after_a_repair_the_machine_is_opened_once_and_heated_once() -> None:
    last = max(n for n, record in enumerate(gasket().records) if isinstance(record, Repaired))
    moves = [record.move for record in gasket().records[last:] if isinstance(record, Moved)]
    assert [moves.count(move) for move in ("covers_off", "covers_on", "heat_up", "let_cool")] == [1, 1, 1, 0]
    assert gasket().job.closing["ending"] == "repaired"


def test_the_earth_is_measured_after_the_last_opening() -> None:
    job = gasket().job
    earth = max(given.number for given in job.given.values() if given.question == "earth_bond" and given.holds)
    assert earth >= job.opened_at > 0


def test_one_word_confirms_each_look_that_was_listed() -> None:
    job = at_a_round()
    listed = job.round_put
    after, records = step(job, f"{len(listed)} sound")
    assert answered(records) == [(name, job.base.questions[name].sound[0]) for name in listed]
    assert [record.passed for record in records if isinstance(record, Proved)] == [True] * len(listed)
    assert not set(listed) & set(after.to_prove)


def test_not_the_first_puts_it_by_itself_and_confirms_nothing() -> None:
    job = at_a_round()
    after, records = step(job, "not 1")
    assert answered(records) == []
    assert after.prompt.at == ("proof", job.round_put[0])
    assert after.round_put == ()


def test_the_first_that_is_not_is_put_by_itself() -> None:
    job = at_a_round()
    after, records = step(job, "not 2")
    assert [question for question, _ in answered(records)] == [job.round_put[0]]
    assert after.prompt.at == ("proof", job.round_put[1])
    assert after.round_put == ()


@pytest.mark.parametrize("line", ["99 sound", "1 sound", "not 0", "not 99"])
def test_another_number_than_was_listed_confirms_nothing(line: str) -> None:
    job = at_a_round()
    after, records = step(job, line)
    count = len(job.round_put)
    assert after is job
    assert records == (
        Told(
            f"{count} looks are listed. All as written: {count} sound. "
            f"Else the first that is not: not 1 to not {count}."
        ),
    )


@pytest.mark.parametrize("line", ["y", "yes sound", "sound", "ok", "all sound"])
def test_a_word_without_the_number_confirms_no_round(line: str) -> None:
    _, records = step(at_a_round(), line)
    assert len(answered(records)) <= 1


def test_no_round_has_a_set_up_a_danger_or_the_proof_of_the_repair_itself() -> None:
    rounds = [job for job in jobs() if len(job.round_put) > 1]
    assert {bool(job.base.questions[job.round_put[0]].instrument) for job in rounds} == {True, False}
    for job in rounds:
        own = {name for fault, proved in job.repaired.items() if not proved for name in job.base.faults[fault].prove}
        readings = bool(job.base.questions[job.round_put[0]].instrument)
        for name in job.round_put:
            question = job.base.questions[name]
            assert question.sound and bool(question.instrument) is readings
            assert question.prepare is None and not question.alters and name not in own
            assert not readings or name not in ("leakage_current", "boiler_pressure", "earth_bond")


@pytest.mark.parametrize(
    ("line", "texts"),
    [
        ("121 degC; 92 degC", ["121 degC", "92 degC"]),
        ("121,5, 92,3", ["121,5", "92,3"]),
        ("121.5 ;92", ["121.5", "92"]),
        ("can't tell, 92", ["92"]),
        ("121; can't tell: no probe", ["121"]),
        ("121", ["121"]),
    ],
    ids=["units", "decimal-commas", "semicolon", "first-not-told", "last-not-told", "one-by-one"],
)
def test_readings_typed_in_one_line_are_taken_each(line: str, texts: list[str]) -> None:
    job = at_readings()
    after, records = step(job, line)
    assert [text for _, text in answered(records)] == texts
    left_out = [name for name in job.round_put if name in after.cannot]
    assert len(texts) + len(left_out) == (1 if line == "121" else 2)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (
            "121; 92; 1.1 bar",
            "3 readings were typed, 2 are wanted. Between them stands a comma with a blank, or ;",
        ),
        (
            "121; 1.1 bar",
            "Nothing of the line was taken. Hot and at rest for half an hour: how hot is the group's body? "
            "'1.1 bar' is a pressure; a temperature is wanted, in degC, degF or K, or OL. Or type: can't tell",
        ),
    ],
    ids=["too-many", "the-wrong-way-round"],
)
def test_a_line_with_a_reading_that_is_none_is_not_taken(line: str, said: str) -> None:
    job = at_readings()
    after, records = step(job, line)
    assert after is job
    assert told(records) == [said]


def test_what_was_listed_is_not_listed_again_for_whoever_types_one_by_one() -> None:
    job = at_readings("heating_current")
    after, records = step(job, "5.9 A")
    assert after.prompt.at == ("proof", job.round_put[1])
    assert [text for text in told(records) if text.startswith("2. ")] == []


def test_a_reading_that_is_not_sound_leaves_the_others_taken() -> None:
    job = at_readings("heating_current")
    after, records = step(job, "5.9 A; 2 ml/s")
    assert [record.passed for record in records if isinstance(record, Proved)] == [True, False]
    assert [record.complaint for record in records if isinstance(record, ComplaintNow)] == ["low_flow"]
    assert after.phase is Phase.FIND


@pytest.mark.parametrize(
    ("wanted", "first"),
    [
        (("earth_bond", "high_limit_bridged"), "high_limit_bridged"),
        (("steam_round", "insulation_at_plug", "high_limit_bridged"), "high_limit_bridged"),
        (("steam_round", "insulation_at_plug"), "insulation_at_plug"),
        (("earth_bond",), "earth_bond"),
    ],
    ids=["opening-before-earth", "opening-before-heat", "cold-before-hot", "alone"],
)
def test_what_comes_first(wanted: tuple[str, ...], first: str) -> None:
    job = gasket().job.copy()
    job.bench = bench_state(job.base.bench, COLD)
    assert first_of_round(job, wanted).id == first
