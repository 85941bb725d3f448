"""Each danger of the trade stops the work: safe first, nothing else asked, no fine ending, no lifting by oneself.

That these findings must stop the work is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from expert.desk.unattended import sound_answer
from expert.engine.bench import satisfies
from expert.job.prompts.danger import open_dangers
from expert.job.prompts.ending import endings_open_to
from expert.job.sentences import safety as say
from expert.job.state.job import Phase
from expert.job.wording.customer import CLOSING_LINES
from expert.trace.records import CautionShown, Cleared, Closed, HandedOver, Moved, PromptPut, Record, Stopped
from tests.dialogue.shipped_desk import ShippedDesk
from tests.dialogue.stops import STOPS, TECHNICIAN, Stop, brought_to

EACH = pytest.mark.parametrize("stop", STOPS.values(), ids=STOPS)
QUESTIONS = ("question", "proof", "repair", "close")
TRIES = (
    *("yes", "no", "ok", "done", "1", "2", "1.2 bar", "go on", "continue", "can't tell", "dealt with", "dealt with by"),
    *("what if yes", "why", "how", "suspects", "answers", "help", "note it smells", "", "?", "lift the stop"),
)


def made_safe(stop: Stop) -> tuple[ShippedDesk, list[Record]]:
    """The same with every move to the safe state confirmed; the records since the danger was answered."""
    desk, records = brought_to(stop)
    before = len(desk.records)
    for _ in range(10):
        if desk.job.prompt.kind == "danger":
            return desk, records + desk.records[before:]
        assert desk.job.prompt.kind == "move", f"{desk.job.prompt} before the machine is safe"
        desk.type(desk.job.prompt.choices[0])
    raise AssertionError("the machine is never safe")


def asked(records: list[Record]) -> list[str]:
    return [record.prompt for record in records if isinstance(record, PromptPut)]


def lasts(desk: ShippedDesk, caution: str, state: Mapping[str, str]) -> bool:
    """Whether a caution stands as long as the machine stands so."""
    states = desk.job.base.cautions[caution].lasts
    return bool(states) and all(state[name] in values for name, values in states.items())


@EACH
def test_cautions_come_before_what_they_belong_to(stop: Stop) -> None:
    desk, _ = made_safe(stop)
    read: set[str] = set()
    for record in desk.records:
        match record:
            case Moved(move=move, state=state):
                if not move.startswith(("prepare ", "test ")):
                    read = {caution for caution in read if lasts(desk, caution, state)}
            case CautionShown(caution=caution):
                assert caution not in read, f"{caution} is shown twice in one state"
                read.add(caution)
            case PromptPut(prompt="question" | "proof", question=name):
                assert set(desk.job.base.questions[name].cautions) <= read, name
            case PromptPut(prompt="move", question=name) if not name.startswith("prepare "):
                move = next(move for move in desk.job.base.bench.moves if move.id == name)
                assert set(move.cautions) <= read, name


@EACH
def test_the_stop_is_told_and_the_bench_made_safe_before_anything_else(stop: Stop) -> None:
    desk, records = made_safe(stop)
    kinds = [record for record in records if isinstance(record, Stopped | PromptPut | Moved)]
    assert isinstance(kinds[0], Stopped), "the stop comes first"
    assert stop.rule in [record.rule for record in records if isinstance(record, Stopped)]
    assert set(asked(records)) <= {"move", "danger"}, "nothing is tested"
    assert satisfies(desk.job.bench, desk.job.base.bench.safe)
    assert desk.job.prompt.kind == "danger"
    last = records[-1]
    assert isinstance(last, PromptPut) and last.text.startswith(say.STOPPED) and "It ends when: " in last.text


@EACH
@pytest.mark.parametrize("tried", TRIES)
def test_nothing_that_is_typed_goes_on(stop: Stop, tried: str) -> None:
    desk, _ = brought_to(stop)
    waiting, before = desk.job.prompt, len(desk.records)
    desk.type(tried)
    new = desk.records[before:]
    assert not set(asked(new)) & set(QUESTIONS), "something else is asked"
    assert open_dangers(desk.job) and not any(isinstance(record, Cleared) for record in new)
    assert waiting.kind == "move" or desk.job.prompt == waiting


@EACH
def test_a_junior_cannot_lift_his_own_stop(stop: Stop) -> None:
    desk, _ = made_safe(stop)
    himself = "Whoever works at the bench cannot lift the stop. Somebody else must answer for it by name."
    nobody = "is nobody's name. Type: dealt with by, and the name of who answers for it."
    assert desk.type(f"dealt with by {TECHNICIAN}") == [himself]
    assert desk.type(f"Dealt with by  {TECHNICIAN.upper()} .") == [himself]
    assert desk.type("dealt with by me") == [f"'me' {nobody}"]
    assert desk.type("dealt with by NAME") == [f"'NAME' {nobody}"]
    assert desk.type("dealt with by ---") == [f"'---' {nobody}"]
    for given in desk.job.given.values():
        if given.question in stop.answers:
            said = desk.type(f"take back {given.number}")
            # Of two answers that each show the danger, one may be taken back: the other still stops the work.
            if said[-1] == "Take it back? Type yes or no.":
                desk.type("yes")
            assert open_dangers(desk.job) and desk.job.prompt.kind == "danger"


@EACH
def test_a_stopped_job_cannot_be_closed_as_fine(stop: Stop) -> None:
    desk, _ = made_safe(stop)
    assert endings_open_to(desk.job) == ("stopped", "handed_over", "beyond_repair")
    said = desk.type("hand over")
    assert not any(isinstance(record, Closed) for record in desk.records) and not desk.job.is_closed
    assert (desk.job.phase, desk.job.outcome) == (Phase.DONE, "stopped")
    (handed,) = [record for record in desk.records if isinstance(record, HandedOver)]
    told = [record.text for record in desk.records if isinstance(record, Stopped)]
    dangers = [line for line in handed.summary.splitlines() if line.startswith("Danger: ")]
    assert dangers[: len(told)] == [f"Danger: {t}" for t in told]
    assert len(dangers) > len(told), "what ends it is told to whoever goes on"
    assert f"  Danger: {told[0]}" in said
    assert f"  {CLOSING_LINES['normal']}" not in said and f"  {CLOSING_LINES['repaired']}" not in said


@EACH
def test_somebody_else_lifts_it_by_name_and_the_search_goes_on(stop: Stop) -> None:
    desk, _ = made_safe(stop)
    desk.type("dealt with by Bo")
    assert desk.records[-1] != Cleared("Bo") and Cleared("Bo") in desk.records
    assert not open_dangers(desk.job)
    assert "normal" not in endings_open_to(desk.job), "a danger was met: nothing was as it should be"


@EACH
def test_a_machine_that_cannot_be_made_safe_is_left_alone(stop: Stop) -> None:
    desk, _ = brought_to(stop)
    if desk.job.prompt.kind == "danger":
        assert satisfies(desk.job.bench, desk.job.base.bench.safe)
        return
    assert desk.type("no") == [
        "Nothing else comes before this. Type out when it is done, or can't if it cannot be done."
    ]
    said = desk.type("can't")
    assert said[-1] == say.COULD_NOT_BE_MADE_SAFE and desk.job.prompt.kind == "danger"
    said = desk.type("hand over")
    assert any(line.startswith("! The machine is not safe to leave: mains on") for line in said)


@EACH
def test_a_danger_met_again_stops_the_work_again(stop: Stop) -> None:
    desk, _ = made_safe(stop)
    desk.type("dealt with by Bo")
    number = next(given.number for given in desk.job.given.values() if given.question in stop.answers and given.holds)
    again = desk.job.given[number].question
    desk.type(f"take back {number}", "yes")
    before = len(desk.records)
    for _ in range(60):
        prompt = desk.job.prompt
        if prompt.kind == "move":
            desk.type(prompt.choices[0])
        elif prompt.kind in ("question", "proof"):
            question = desk.job.base.questions[prompt.subject]
            desk.type(stop.answers.get(prompt.subject) or sound_answer(desk.job, question))
            if prompt.subject == again:
                break
        else:
            break
    asked_again = [r.question for r in desk.records[before:] if isinstance(r, PromptPut) and r.prompt == "question"]
    if again in asked_again:
        assert any(isinstance(record, Stopped) for record in desk.records[before:]) and open_dangers(desk.job)
    else:  # Taken back and not needed any more for the search: then nothing is called sound either.
        assert not {"normal", "repaired", "repaired_unproved"} & set(endings_open_to(desk.job))
