"""A job outlives the program and the rules that it began with: what was decided counts, not how it was said."""

from __future__ import annotations

import shutil
from collections.abc import Sequence

import pytest

from expert.desk.replay import rerun, rules_of
from expert.engine import planner
from expert.engine.planner import Candidate
from expert.job.answers.command_words import HELP
from expert.job.prompts import test_prompt
from expert.trace.reading import read_trace
from expert.trace.records import Answered, Resumed
from tests.dialogue.command_line import AT_THE_PUMP, GO_ON, HERE, PUMP_QUESTION, STANDS, Ran, Shop, run
from tests.dialogue.small_rules import small_knowledge

OTHER_WORDS = ("A silent pump is dead in this little world.", "Silence is death.")
OTHER_VERDICT = ("then: {confirm: pump.dead}", "then: {clear: hose.split}")
NOT_KEPT = "The rules were edited since this job was opened, and those of that time were not kept."
KEPT = "What was answered and done is kept."
READS = "This job would read differently now in {places}; nothing is decided otherwise.\n"
DECIDED = (
    "No longer found: pump: dead.\nDecided otherwise now, in {places}:\n"
    "  line 14: then the job held pump.dead to be present; now it held hose.split to\n    be absent\n"
)


@pytest.fixture
def silent(at_the_pump: Shop) -> Shop:
    """A job in which a pump was found dead."""
    assert "FOUND: pump: dead." in at_the_pump.resume(HERE + "yes\nno\n").out
    return at_the_pump


def forget_the_rules(shop: Shop) -> None:
    shutil.rmtree(shop.jobs / ".rules")


# ---------------------------------------------------------------- other rules


def test_rules_that_only_say_it_otherwise_go_on_although_the_old_ones_are_gone(silent: Shop) -> None:
    forget_the_rules(silent)
    silent.edit_rules(*OTHER_WORDS)
    again = silent.resume(HERE + "yes\n")
    assert (again.code, again.err) == (0, "")
    assert again.out.startswith(f"{NOT_KEPT} Today's decide nothing otherwise so far: it goes on.\n{STANDS}")


def test_where_they_decide_otherwise_nothing_is_written_before_somebody_chose(silent: Shop) -> None:
    forget_the_rules(silent)
    silent.edit_rules(*OTHER_VERDICT)
    before = silent.trace().read_bytes()
    again = silent.resume(HERE + "yes\n")
    assert (again.code, again.out) == (1, "")
    assert again.err.startswith(f"{NOT_KEPT}\n" + DECIDED.format(places="3 places"))
    assert again.err.endswith(
        "Nothing was changed. Name the rules of that time with --rules, or go on all the same with --today.\n"
    )
    assert silent.trace().read_bytes() == before


def today(shop: Shop, typed: str) -> Ran:
    words = ("resume", "--today", "--plain", "--rules", shop.rules, "--jobs", shop.jobs, "7")
    return shop.with_short_paths(run(*words, typed=typed))


def test_with_todays_rules_the_answers_stay_and_what_no_longer_holds_is_named(silent: Shop) -> None:
    silent.edit_rules(*OTHER_VERDICT)
    again = today(silent, HERE + "yes\nanswers\nsuspects\n")
    assert again.code == 0
    assert again.out.startswith(DECIDED.format(places="3 places"))
    assert f"{KEPT} The job goes on with today's rules.\n" in again.out
    assert "  1. Does the pump run? no\n" in again.out
    assert "Found: pump" not in again.out
    trace = read_trace(silent.trace())
    chosen = [record for record in trace.records if isinstance(record, Resumed) and record.rebuilt]
    assert len(chosen) == 1 and chosen[0].rules_digest == rules_of(trace)


def test_from_then_on_the_job_goes_by_them(silent: Shop) -> None:
    silent.edit_rules(*OTHER_VERDICT)
    today(silent, HERE + "yes\ncan't tell\n")
    silent.edit_rules(*reversed(OTHER_VERDICT))
    again = silent.resume(HERE + "yes\nsuspects\n")
    assert (again.code, again.err) == (0, "")
    assert "Found: pump" not in again.out
    assert run("audit", silent.trace(), "--rerun").code == 0


def test_a_question_that_is_gone_puts_nothing_after_it_out_of_step(silent: Shop) -> None:
    silent.resume(HERE + "yes\n")
    trace = read_trace(silent.trace())
    answers = [record.question for record in trace.records if isinstance(record, Answered)]
    silent.edit_rules("ask: Does the pump run?", "ask: Is the pump heard?")
    again = today(silent, HERE + "yes\nanswers\n")
    assert "  1. Is the pump heard? no\n" in again.out
    assert answers == ["pump_runs"]


# ---------------------------------------------------------------- another program


def test_a_planner_that_ranks_otherwise_does_not_disturb_an_open_job(
    at_the_pump: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    def backwards(candidates: Sequence[Candidate]) -> list[Candidate]:
        return sorted(candidates, key=lambda candidate: candidate.worth)

    at_the_pump.resume(HERE + "yes\nyes\nyes\n")
    assert "read differently" not in at_the_pump.resume(HERE + "yes\n").out
    monkeypatch.setattr(planner, "_by_worth", backwards)
    changed = rerun(small_knowledge(), read_trace(at_the_pump.trace()))
    assert changed.decided, "it does rank otherwise"
    again = at_the_pump.resume(HERE + "yes\n")
    assert (again.code, again.err) == (0, "")
    assert again.out.endswith("What does the coil read?\n  (a number in ohm, or OL; ohm meter)\n" + GO_ON)


def test_a_sentence_of_the_program_that_reads_otherwise_is_one_line(
    at_the_pump: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    at_the_pump.resume(HERE + "yes\nwhat if can't tell\nhelp\n")
    monkeypatch.setattr("expert.job.commands.obey.HELP", ("Type an answer.",))
    again = at_the_pump.resume(HERE + "yes\n")
    assert again == Ran(0, READS.format(places=f"{len(HELP)} places") + STANDS + PUMP_QUESTION + GO_ON, "")


def test_a_program_that_understands_an_answer_otherwise_is_not_gone_on_with_unseen(
    silent: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = test_prompt.read_answer
    monkeypatch.setattr(
        test_prompt, "read_answer", lambda job, question, line: real(job, question, "yes" if line == "no" else line)
    )
    refused = silent.resume(HERE + "yes\n")
    assert refused.code == 2 and refused.err.endswith("expert resume --today 7 [job-differs]\n")
    assert "took answer" not in refused.err and "text was 'no', now it is 'yes'" in refused.err
    again = today(silent, HERE + "yes\nanswers\n")
    assert "  1. Does the pump run? yes\n" in again.out
    assert silent.resume(HERE + "yes\n").code == 0, "it was seen and chosen: it is not asked again"


def test_a_job_in_its_intake_outlives_other_rules_too(shop: Shop) -> None:
    shop.bench("Ann\n1\n")
    forget_the_rules(shop)
    shop.edit_rules("name: fill valve", "name: inlet valve")
    assert shop.resume(AT_THE_PUMP.removeprefix("Ann\n1\n")).out.endswith(PUMP_QUESTION + GO_ON)
