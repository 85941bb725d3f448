"""Proofs in the order of the shortest way through the bench, and looks that are confirmed in one round."""

from __future__ import annotations

import pytest

from expert.engine.bench import bench_state
from expert.job.bench.rounds import first_of_round
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.trace.records import Answered, Moved, Proved, Record, Repaired, Told
from tests.dialogue.gasket_job import gasket, jobs

COLD = {"mains": "isolated", "covers": "on", "boiler": "cold", "pressure": "none"}
COLD |= {"element": "connected", "altered": "nothing"}


def at_a_round() -> Job:
    """The same job where looks are first put in one round."""
    return next(job for job in jobs() if job.round_put)


def answered(records: tuple[Record, ...]) -> list[tuple[str, str]]:
    return [(record.question, record.text) for record in records if isinstance(record, Answered)]


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


def test_no_round_has_a_reading_a_set_up_or_the_proof_of_the_repair_itself() -> None:
    rounds = [job for job in jobs() if job.round_put]
    assert rounds
    for job in rounds:
        own = {name for fault, proved in job.repaired.items() if not proved for name in job.base.faults[fault].prove}
        for name in job.round_put:
            question = job.base.questions[name]
            assert question.sound and question.outcomes and not question.instrument
            assert question.prepare is None and not question.alters and name not in own
        assert job.phase is Phase.PROVE


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
