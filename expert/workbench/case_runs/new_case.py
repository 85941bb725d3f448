"""A saved job as a worked case: the answers that were typed, and what came of them."""

from __future__ import annotations

import re
from collections.abc import Mapping

from expert.language.keys.words import ENDS
from expert.language.model import RuleBase
from expert.language.yaml.writing import Data, yaml_text
from expert.trace.reading import Trace
from expert.trace.records import Closed, TakenIn
from expert.workbench.saved import Told, told_by
from expert.workbench.sentences import cases as say


class NoCase(Exception):
    """The job cannot be a case; the text says why."""


def case_from(trace: Trace, base: RuleBase) -> str:
    """The text of a cases file with this job as its one case. Raises NoCase.

    Its `says` and `source` are for the senior to write: a job shows what was done, not that it was right.
    """
    told = told_by(trace)
    if told.taken is None or told.closed is None:
        raise NoCase(say.job_was_not_closed(trace.path))
    if told.taken.machine_key not in base.machines:
        raise NoCase(say.no_such_machine_type(trace.path, told.taken.machine_key))
    unknown = sorted({*told.answers, *told.asks} - base.questions.keys())
    if unknown:
        raise NoCase(say.no_such_question(trace.path, ", ".join(unknown)))
    return yaml_text({"cases": {_id_of(told.number): _case(told, told.taken, told.closed)}})


def _case(told: Told, taken: TakenIn, closed: Closed) -> Mapping[str, Data]:
    case: dict[str, Data] = {
        "says": say.what_this_case_shows(told.number),
        "source": say.where_its_truth_comes_from(told.number),
        "machine": taken.machine_key,
    }
    plate = dict(entry.partition(" ")[::2] for entry in taken.plate)
    case |= {"plate": plate} if plate else {}
    case |= {"complaints": list(taken.complaint_keys), "arrives": told.arrives}
    case |= {"qualified_for_live_work": "yes"} if taken.qualified else {}
    case |= {"answers": told.answers}
    case |= {"after": told.after} if told.after else {}
    outcome = next((word for word in (told.ended, closed.outcome) if word in ENDS), "unresolved")
    faults = told.found if outcome != "narrowed" else list(dict.fromkeys((*told.found, *told.listed)))
    case["expect"] = {"outcome": outcome, "faults": faults} | ({"asks": _once(told.asks)} if told.in_order else {})
    return case


def _once(asked: list[str]) -> list[Data]:
    return list(dict.fromkeys(asked))


def _id_of(number: str) -> str:
    """An id made from a job number.

    >>> _id_of("2026-0007.b")
    'job_2026_0007_b'
    """
    return "job_" + re.sub(r"[^a-z0-9]+", "_", number.lower()).strip("_")
