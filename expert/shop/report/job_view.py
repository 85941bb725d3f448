"""What the page of one job shows, from its audit and, where its rules are at hand, from the job run again."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from expert.desk.replay import opened_of, rerun
from expert.engine.knowledge import knowledge_of
from expert.job.state.job import Job
from expert.job.wording.home_words import in_words_of
from expert.job.wording.prose_units import in_us_units
from expert.shop.audit import Audit, audit_trace, rules_at_hand
from expert.shop.audit_happened import happened_in_words
from expert.shop.audit_head import Head
from expert.shop.audit_reasons import Reason, given
from expert.shop.audit_story import Asked, FaultFound, Happened
from expert.shop.audit_words import STANDINGS
from expert.shop.report.circuit_view import CircuitPicture, circuits_of
from expert.shop.report.evidence import Evidence, evidence_of
from expert.shop.report.reading_view import ReadingPicture, readings_of
from expert.shop.sentences import reports as say
from expert.trace.records import CustomerTold, Moved, Opened, PromptPut, Record, Said
from expert.trade.counting import counted


@dataclass(frozen=True, slots=True)
class Chapter:
    """One step of the story. `kind`: asked, found or happened; `because`: reasons, each with its depth."""

    kind: str
    title: str
    lines: tuple[str, ...]
    because: tuple[tuple[int, str], ...] = ()
    number: int = 0


@dataclass(frozen=True, slots=True)
class Confirmation:
    """A bench move that was confirmed: what was asked, how the bench stood afterwards, when."""

    at: str
    asked: str
    state: str


@dataclass(frozen=True, slots=True)
class JobView:
    """Everything the page needs. `purpose`: '' for real work. `shop`: its name and telephone, for the slip.
    `why_not_drawn`: '' when pictures were made."""

    head: Head
    purpose: str
    verdict: str
    is_damaged: bool
    faults: tuple[tuple[str, str], ...]
    chapters: tuple[Chapter, ...]
    confirmations: tuple[Confirmation, ...]
    slip: tuple[str, ...]
    shop: tuple[str, str]
    circuits: tuple[CircuitPicture, ...]
    readings: tuple[ReadingPicture, ...]
    why_not_drawn: str


def job_view(path: Path) -> JobView:
    """The view of the job at `path`. Raises what `audit_trace` raises."""
    from expert.shop.audit import verdict_on

    base = rules_at_hand(path)
    audit = audit_trace(path, base)
    evidence = evidence_of(audit.trace)
    job, why_not = _run_again(audit)
    told = [record for record in audit.trace.records if isinstance(record, CustomerTold)]
    opened = opened_of(audit.trace)
    return JobView(
        head=audit.story.head,
        purpose=opened.purpose,
        verdict=verdict_on(audit),
        is_damaged=audit.is_damaged,
        faults=_faults(audit, evidence),
        chapters=tuple(_chapters(audit)),
        confirmations=tuple(_confirmations(audit)),
        slip=tuple(_at_home(opened, line) for line in told[-1].lines) if told else (),
        shop=_named_shop(opened),
        circuits=circuits_of(job, evidence) if job else (),
        readings=readings_of(job) if job else (),
        why_not_drawn=why_not,
    )


def _at_home(opened: Opened, line: str) -> str:
    """A line of the slip as it was shown at the bench: in the words and units of the shop."""
    country = _entry(opened, "country")
    line = in_words_of(country, line)
    return in_us_units(line) if opened.system == "us" else line


def _named_shop(opened: Opened) -> tuple[str, str]:
    """Name and telephone of the shop, as its profile had them when the job was opened."""
    return _entry(opened, "name"), _entry(opened, "phone")


def _entry(opened: Opened, key: str) -> str:
    """One entry of the profile in the trace. It was read before, so its form is known to be right."""
    found = re.search(rf"^{key}: *(.*?) *$", opened.shop_file, re.MULTILINE)
    return found[1].strip("'\"") if found else ""


def _run_again(audit: Audit) -> tuple[Job | None, str]:
    if audit.names.base is None:
        return None, say.RULES_MISSING
    if audit.is_damaged:
        return None, say.TRACE_CHANGED
    again = rerun(knowledge_of(audit.names.base), audit.trace)
    return (None, say.RULES_DIFFER) if again.decided else (again.job, "")


def _faults(audit: Audit, evidence: Evidence) -> tuple[tuple[str, str], ...]:
    return tuple(
        (STANDINGS.get(standing, standing), audit.names.fault(f)) for f, standing in evidence.standings.items()
    )


def _chapters(audit: Audit) -> Iterator[Chapter]:
    names = audit.names
    for event in audit.story.events:
        match event:
            case Asked():
                yield _asked(event)
            case FaultFound(found=found, tree=tree):
                title = f"{STANDINGS.get(found.standing, found.standing)}: {names.fault(found.fault)}"
                yield Chapter("found", title, (), tuple(_reasons(tree.because, 0)))
            case Happened(record=record, told=told, concluded=concluded):
                lines = [
                    line.strip() for line in happened_in_words(record, names.fault, names.question) if line.strip()
                ]
                if lines:
                    so = [f"So: {reason.says}" for reason in concluded.fired if reason.says]
                    yield Chapter("happened", lines[0], (*lines[1:], *told, *so))


def _asked(event: Asked) -> Chapter:
    taken = event.answered or event.cannot
    if event.answered is not None:
        answer = [f"Answer: {given(event.answered)}", *filter(None, [event.understood])]
    elif event.cannot is not None:
        answer = [say.answer_cannot_tell(event.cannot.reason).rstrip()]
    else:
        answer = [say.NO_ANSWER]
    so = [f"So: {reason.says}" for reason in event.concluded.fired if reason.says]
    proof = "Proof: " if event.prompt == "proof" else ""
    return Chapter("asked", f"{proof}{event.text}", (*answer, *so), number=taken.number if taken else 0)


def _reasons(reasons: tuple[Reason, ...], depth: int) -> Iterator[tuple[int, str]]:
    for reason in reasons:
        label = f"answer {reason.id}: " if reason.kind == "answer" else ""
        yield depth, f"{label}{reason.says}"
        yield from _reasons(reason.because, depth + 1)


def _confirmations(audit: Audit) -> Iterator[Confirmation]:
    """Moves with the question that was on the screen when the technician confirmed them."""
    asked = ""
    all_recorded = audit.trace.recorded
    for recorded, before in zip(all_recorded, (None, *all_recorded), strict=False):
        record: Record = recorded.record
        if isinstance(record, PromptPut) and (record.prompt != "intake" or record.question == "arrives"):
            asked = record.text.partition("\n")[0]
        if isinstance(record, Moved):
            state = ", ".join(f"{dimension} {value}" for dimension, value in record.state.items())
            was_said = before is not None and isinstance(before.record, Said)
            yield Confirmation(
                recorded.at.strftime("%H:%M:%S"), asked if was_said else record.move.replace("_", " "), state
            )


def at_a_glance(view: JobView) -> Mapping[str, str]:
    """The head of the page: what whoever looks for ten seconds wants to know."""
    head = view.head
    asked = sum(chapter.kind == "asked" for chapter in view.chapters)
    live = {None: "not asked", True: "yes", False: "no"}[head.qualified]
    return {
        "Complaint": "; ".join(head.complaints) or "none",
        "Machine": head.machine or "not named",
        "Technician": say.qualified_for_live_work(head.technician or "not named", live),
        "Opened": head.opened.replace("T", " ").removesuffix("Z") + " UTC",
        "Effort": f"{counted(asked, 'question')}, {'-' if head.minutes is None else f'{head.minutes:g} min'}",
        "By the clock": f"{head.minutes_by_the_clock:.0f} min",
        "Parts used": ", ".join(head.parts) or "none",
    } | {name: text for name, text in (("Costs", head.costs), ("Note", head.note)) if text}
