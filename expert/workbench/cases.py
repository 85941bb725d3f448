"""Running worked cases through the real dialogue, and saying in which way a case fails."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from expert.desk.result import result_of
from expert.desk.unattended import CannotPlay, play
from expert.engine.knowledge import Knowledge
from expert.job.answers.reading import NotAnAnswer
from expert.job.state.job import Job
from expert.job.state.shop import Shop
from expert.language.problems import Problem
from expert.language.worked.cases import Case
from expert.trace.records import Moved, PromptPut, Proved, Record
from expert.workbench.case_runs.came_up import NOTHING, CameUp, came_up_in
from expert.workbench.case_runs.footprint import Footprint, footprint_of
from expert.workbench.case_runs.path import where_it_left
from expert.workbench.sentences import cases as say

CODES: Mapping[str, str] = MappingProxyType(
    {
        "case-unplayable": say.CASE_UNPLAYABLE,
        "case-outcome": say.CASE_OUTCOME,
        "case-faults": say.CASE_FAULTS,
        "case-asks": say.CASE_ASKS,
        "case-order": say.CASE_ORDER,
        "case-caution": say.CASE_CAUTION,
        "case-normal": say.CASE_NORMAL,
        "case-unsafe": say.CASE_UNSAFE,
        "case-proof": say.CASE_PROOF,
        "case-reading": say.CASE_READING,
        "means-otherwise": say.MEANS_OTHERWISE,
        "case-path": say.CASE_PATH,
    }
)


@dataclass(frozen=True, slots=True)
class Result:
    """How a case was played: all that came out other than expected, what was asked, the minutes.

    `footprint`: what it looked at; None when it could not be played.
    """

    problems: tuple[Problem, ...]
    asked: tuple[str, ...]
    minutes: float
    footprint: Footprint | None
    came_up: CameUp = NOTHING


@dataclass(frozen=True, slots=True)
class Verdict:
    """A case with its result; passed when there is no problem."""

    case: Case
    result: Result

    @property
    def problems(self) -> tuple[Problem, ...]:
        return self.result.problems


def run_case(knowledge: Knowledge, shop: Shop, case: Case) -> Result:
    """Play one case. A case that cannot be played has failed, with the dialogue's own words."""
    try:
        job, records = play(knowledge, shop, case.job, "case")
    except (CannotPlay, NotAnAnswer) as problem:
        unplayable = Problem(case.at, say.cannot_be_played(case.id, problem), "case-unplayable")
        return Result((unplayable,), (), 0.0, None)
    problems = tuple(Problem(case.at, f"{case.id}: {message}", code) for message, code in _failures(case, job, records))
    if problems:
        left = where_it_left(knowledge, job, records, case.expect.faults)
        problems += tuple(Problem(case.at, f"{case.id}: {clause}", "case-path") for clause in left)
    footprint = footprint_of(knowledge, job.complaints, records)
    return Result(problems, _questions(records), job.minutes, footprint, came_up_in(records))


def _questions(records: Iterable[Record]) -> tuple[str, ...]:
    """The questions put, in order; those that were answered in a round of looks or readings as well."""
    found: list[str] = []
    put = ""
    for record in records:
        match record:
            case PromptPut(question=question) if record.is_test:
                found.append(put := question)
            case Proved(question=question, answer=answer) if answer and question != put:
                found.append(question)
    return tuple(found)


def _failures(case: Case, job: Job, records: list[Record]) -> Iterable[tuple[str, str]]:
    expect = case.expect
    result = result_of(job, records, "")
    found = sorted({finding["fault"] for finding in result["findings"]})
    if result["outcome"] != expect.outcome:
        yield (
            say.other_outcome(result["outcome"], expect.outcome, ", ".join(found) or "nothing"),
            "case-outcome",
        )
    blamed = sorted({*found, *result["short_list"]}) if expect.outcome == "narrowed" else found
    if blamed != sorted(expect.faults):
        yield say.other_faults(", ".join(blamed) or "none", ", ".join(expect.faults) or "none"), "case-faults"
    asked = _questions(records)
    for question in expect.never_asks:
        if question in asked:
            yield say.asks_what_it_must_not(question), "case-asks"
    if missing := _out_of_order(expect.asks, asked):
        yield say.does_not_ask(missing, ", ".join(asked)), "case-order"
    for caution in expect.cautions:
        if caution not in result["cautions"]:
            yield say.caution_not_shown(caution), "case-caution"
    for complaint in expect.normal:
        if complaint not in result["normal"]:
            yield say.not_seen_as_normal(complaint), "case-normal"
    if not job.qualified and any(_is_live(job, record) for record in records):
        yield say.WORKS_LIVE_UNQUALIFIED, "case-unsafe"
    meant = {
        *(case.job.after_repair or {}),
        *(name for fault in job.repaired for name in case.job.after.get(fault, {})),
    }
    for proof in result["proofs"]:
        # A failing answer that the case itself gives is meant to fail; nothing is proved where nothing was repaired.
        if proof["passed"] is False and job.repaired and proof["question"] not in meant:
            yield say.proof_failed(proof["question"], proof["answer"]), "case-proof"


def _is_live(job: Job, record: Record) -> bool:
    """Whether the bench was brought into a state that is only for those qualified for live work."""
    return isinstance(record, Moved) and any(
        held.items() <= record.state.items() for held in job.base.bench.qualified_only
    )


def _out_of_order(wanted: tuple[str, ...], asked: tuple[str, ...]) -> str:
    """The first wanted question that does not come in its turn, or ''."""
    place = 0
    for question in wanted:
        try:
            place = asked.index(question, place) + 1
        except ValueError:
            return question
    return ""
