"""Jobs in which a third of the tests cannot be made: how long the search goes on, and what it has at its end."""

from __future__ import annotations

import random
import statistics
from collections.abc import Iterable, Sequence
from dataclasses import replace

from expert.desk.opening import shop_of
from expert.desk.result import result_of
from expert.desk.unattended import play
from expert.engine.knowledge import Knowledge
from expert.language.worked.cases import Case
from expert.trace.records import Answered, CannotTell, Record, SearchEnded

SHARE = 1 / 3
LONGEST_LIST = 8


def sparse(case: Case, questions: Sequence[str], seed: int) -> Case:
    """The case with a third of all questions impossible to answer, the others as the case has them."""
    chance = random.Random(f"{seed} {case.id}")
    left = dict.fromkeys((name for name in questions if chance.random() < SHARE), "can't tell")
    return replace(case, job=replace(case.job, answers={**case.job.answers, **left}))


def questions_until_the_end(records: Iterable[Record]) -> int:
    """Questions answered or left before the search ended for the first time."""
    count = 0
    for record in records:
        if isinstance(record, SearchEnded):
            break
        count += isinstance(record, Answered | CannotTell)
    return count


def sparse_jobs(knowledge: Knowledge, cases: Iterable[Case], seed: int = 1) -> dict[str, float]:
    """Questions (median, 90th percentile, most), and how often the fault of the case is found, listed, missed."""
    shop, names = shop_of(knowledge), list(knowledge.base.questions)
    asked: list[int] = []
    ends = {"found": 0, "listed": 0, "missed": 0, "empty_lists": 0}
    for case in cases:
        job, records = play(knowledge, shop, sparse(case, names, seed).job, "case")
        asked.append(questions_until_the_end(records))
        if not case.expect.faults:
            continue
        result = result_of(job, records, "")
        blamed = {finding["fault"] for finding in result["findings"]}
        if blamed & set(case.expect.faults):
            ends["found"] += 1
        elif set(result["short_list"][:LONGEST_LIST]) & set(case.expect.faults):
            ends["listed"] += 1
        else:
            ends["missed"] += 1
        ends["empty_lists"] += not blamed and not result["short_list"] and bool(result["suspects"])
    asked.sort()
    return {
        "jobs": len(asked),
        "questions_median": statistics.median(asked),
        "questions_p90": asked[len(asked) * 9 // 10],
        "questions_max": asked[-1],
        **ends,
    }
