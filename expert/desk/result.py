"""The outcome of a job as plain data: what was found, asked, shown, moved, proved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from expert.desk.sentences import jobs as say
from expert.job.search.ending import because_of
from expert.job.state.job import Job
from expert.job.state.situation import picture_of
from expert.job.wording.records import OUTCOMES
from expert.trace.records import Answered, CannotTell, CautionShown, Found, Moved, PromptPut, Proved, Record, Stopped
from expert.trade.counting import counted


def result_of(job: Job, records: Sequence[Record], trace: str) -> dict[str, Any]:
    """One JSON object for a job; `records` are all its records in order, `trace` is the path of its file."""
    picture = picture_of(job)
    standings = {record.fault: record for record in records if isinstance(record, Found)}
    for fault in picture.confirmed:
        standings.setdefault(fault, Found(fault, "found", because_of(job, fault)))
    listed = {fault: standing for fault, standing in job.found.items() if standing == "narrowed"}
    return {
        "job": job.number,
        "outcome": job.outcome or "unresolved",
        "findings": [
            {
                "fault": fault,
                "part": job.base.faults[fault].part,
                "name": job.fault_name(fault),
                "standing": found.standing,
                "because": list(found.because),
            }
            for fault, found in standings.items()
        ],
        "short_list": [fault for fault in listed if fault not in standings],
        "suspects": [{"fault": suspect.fault, "weight": suspect.decibans} for suspect in picture.suspects],
        "normal": list(picture.normal),
        "complaints_open": list(picture.complaints_open),
        "not_accounted_for": list(picture.observations_open),
        "asked": asked(job, records),
        "cautions": list(dict.fromkeys(r.caution for r in records if isinstance(r, CautionShown))),
        "stops": [{"rule": r.rule, "text": r.text} for r in records if isinstance(r, Stopped)],
        "moves": [r.move for r in records if isinstance(r, Moved)],
        "proofs": [
            {"question": r.question, "answer": r.answer, "passed": r.passed} for r in records if isinstance(r, Proved)
        ],
        "ending": job.closing.get("ending", ""),
        "minutes": round(float(job.minutes), 1),
        "trace": trace,
    }


def asked(job: Job, records: Sequence[Record]) -> list[dict[str, Any]]:
    """Every question put, in order, with its answer, reading, minutes and the reason for asking it."""
    found: list[dict[str, Any]] = []
    why: dict[str, Any] = {}
    for record in records:
        match record:
            case PromptPut(prompt="question" | "proof", why=reason):
                why = {
                    "aim": reason.aim,
                    "ahead_by": reason.rule or None,
                    "before_move": reason.before_move or None,
                    "settles": list(reason.settles),
                    "bits": reason.candidates[0].bits if reason.candidates else None,
                }
            case Answered(question=question, text=text, outcomes=outcomes):
                minutes = job.base.questions[question].minutes
                reading = list(outcomes) if len(outcomes) > 1 else outcomes[0]
                found.append({"question": question, "answer": text, "reading": reading, "minutes": minutes, "why": why})
            case CannotTell(question=question):
                found.append(
                    {"question": question, "answer": "can't tell", "reading": None, "minutes": 0.0, "why": why}
                )
    return found


def in_words(result: Mapping[str, Any]) -> str:
    """The outcome as a few plain lines."""
    lines = [f"Job {result['job']}: {OUTCOMES[result['outcome']]}"]
    lines += [f"  {found['standing'].replace('_', ' ')}: {found['name']}" for found in result["findings"]]
    lines += [f"  may be: {fault}" for fault in result["short_list"]]
    lines += [f"  STOP: {stop['text']}" for stop in result["stops"]]
    lines.append(say.ended(counted(len(result["asked"]), "question"), result["minutes"], result["trace"]))
    return "\n".join(lines)
