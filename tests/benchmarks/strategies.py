"""Other ways to choose the next question, to measure the shipped one against; all ask only what bears on something."""

from __future__ import annotations

import random
import statistics
from collections.abc import Callable, Iterable

from expert.desk.opening import shop_of
from expert.desk.result import result_of
from expert.desk.unattended import play
from expert.engine.candidates import Candidate
from expert.engine.knowledge import Knowledge
from expert.engine.planner import Choice, choose, worth_asking
from expert.engine.ways import Situation
from expert.job.search import stalling
from expert.language.worked.cases import Case
from expert.trace.records import Answered, CannotTell, Moved, Record, SearchEnded
from tests.benchmarks.question_times import Choose, choosing_by

NEVER = 10**9  # questions in vain: the ways are compared without the offer to stop


def by(key: Callable[[Situation, Candidate], float]) -> Choose:
    """The candidate with the least key first."""

    def chosen(situation: Situation) -> Choice | None:
        candidates = [] if situation.picture.settled else worth_asking(situation)
        best = min(candidates, key=lambda candidate: key(situation, candidate), default=None)
        return None if best is None else Choice(best, None, None, ())

    return chosen


def _authors_place(situation: Situation, candidate: Candidate) -> float:
    return list(situation.knowledge.base.questions).index(candidate.question)


def _by_chance(situation: Situation, candidate: Candidate) -> float:
    return random.Random(f"{candidate.question} {sorted(situation.settled_questions)}").random()


def _minutes(situation: Situation, candidate: Candidate) -> float:
    return candidate.minutes + candidate.route.minutes


STRATEGIES: dict[str, Choose] = {
    "shipped": choose,
    "authors_order": by(_authors_place),
    "random": by(_by_chance),
    "cheapest_first": by(_minutes),
}


def compared(knowledge: Knowledge, cases: Iterable[Case]) -> dict[str, dict[str, float]]:
    """For each way over the same cases: found, condemned though sound, questions and minutes of the search."""
    cases = list(cases)
    before, stalling.IN_VAIN = stalling.IN_VAIN, NEVER
    try:
        return {name: _measured(knowledge, cases, chosen) for name, chosen in STRATEGIES.items()}
    finally:
        stalling.IN_VAIN = before


def _measured(knowledge: Knowledge, cases: list[Case], chosen: Choose) -> dict[str, float]:
    shop = shop_of(knowledge)
    asked, minutes, found, condemned = [], [], 0, 0
    with choosing_by(chosen):
        for case in cases:
            job, records = play(knowledge, shop, case.job, "case")
            count, spent = _search_of(knowledge, records)
            asked.append(count)
            minutes.append(spent)
            named = {finding["fault"] for finding in result_of(job, records, "")["findings"]}
            if case.expect.outcome != "narrowed":
                found += named == set(case.expect.faults)
                condemned += len(named - set(case.expect.faults))
    return {
        "jobs": len(cases),
        "found_as_expected": found,
        "condemned": condemned,
        **spread("questions", asked),
        **spread("minutes", minutes),
        "minutes_mean": round(statistics.mean(minutes), 1),
    }


def _search_of(knowledge: Knowledge, records: Iterable[Record]) -> tuple[int, float]:
    """Questions and minutes, bench moves included, until the search ended for the first time."""
    count, minutes = 0, 0.0
    for record in records:
        match record:
            case SearchEnded():
                break
            case Answered(question=question):
                count += 1
                minutes += knowledge.base.questions[question].minutes
            case CannotTell():
                count += 1
            case Moved(minutes=spent):
                minutes += spent
    return count, minutes


def spread(name: str, values: list[float] | list[int]) -> dict[str, float]:
    ranked = sorted(values)
    return {
        f"{name}_median": statistics.median(ranked),
        f"{name}_p90": ranked[len(ranked) * 9 // 10],
        f"{name}_max": ranked[-1],
    }
