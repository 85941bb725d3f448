"""Who, what and how it ended: the head of a job, from the records of its intake and its close."""

from __future__ import annotations

from dataclasses import dataclass

from expert.desk.intake_lines import intake_of
from expert.desk.replay import opened_of, rules_of
from expert.job.state.costs import money
from expert.shop.sentences import audit as say
from expert.trace.lines import TIME_FORMAT
from expert.trace.reading import Trace
from expert.trace.records import Closed, HandedOver, Paused, SearchEnded, Stopped, Worker


@dataclass(frozen=True, slots=True)
class Head:
    """The job in short. A text is '' where the trace does not come so far; `ending` is then
    'open', 'paused' or 'handed_over'.

    `machine`: as it was listed to the technician. `plate`: values typed at the plate prompt that were taken.
    `search`: how the last search ended. `minutes_by_the_clock`: pauses left out.
    """

    job: str
    program: str
    rules_digest: str
    instruments: tuple[str, ...]
    opened: str
    last: str
    sealed: bool
    technician: str
    machine: str
    plate: tuple[str, ...]
    complaints: tuple[str, ...]
    qualified: bool | None
    search: str
    ending: str
    minutes: float | None
    minutes_by_the_clock: float
    parts: tuple[str, ...]
    note: str
    stops: int
    costs: str


def head_of(trace: Trace) -> Head:
    """The head of a job. Raises TraceDamaged when the trace does not begin with the opening of a job."""
    opened = opened_of(trace)
    records = trace.records
    intake = intake_of(trace)
    closed = next((r for r in reversed(records) if isinstance(r, Closed)), None)
    search = next((r.outcome for r in reversed(records) if isinstance(r, SearchEnded)), "")
    return Head(
        job=opened.job,
        program=opened.program,
        rules_digest=rules_of(trace),
        instruments=opened.instruments,
        opened=trace.lines[0].at.strftime(TIME_FORMAT),
        last=trace.lines[-1].at.strftime(TIME_FORMAT),
        sealed=trace.is_sealed,
        technician=intake.technician,
        machine=intake.machine,
        plate=intake.plate,
        complaints=intake.complaints,
        qualified=intake.qualified,
        search=search,
        ending=closed.outcome if closed else _stands(trace),
        minutes=closed.minutes if closed else None,
        minutes_by_the_clock=round(trace.minutes_by_the_clock, 1),
        parts=closed.parts if closed else (),
        note=closed.note if closed else "",
        stops=sum(isinstance(record, Stopped) for record in records),
        costs=costs_in_words(closed) if closed else "",
    )


def costs_in_words(closed: Closed) -> str:
    """What the job costs by the shop's rates, '' where the shop wants no costs.

    >>> costs_in_words(Closed("repaired", 45.0, ("coil",), "", "EUR", 60.0, 35.0))
    'work 60.00 EUR, parts 35.00 EUR, together 95.00 EUR'
    """
    if not closed.currency:
        return ""
    work, parts, both = (
        money(amount, closed.currency)
        for amount in (closed.work_cost, closed.parts_cost, closed.work_cost + closed.parts_cost)
    )
    beside = say.without_a_price(", ".join(closed.without_price)) if closed.without_price else ""
    return say.costs(work, parts, both, beside)


def _stands(trace: Trace) -> str:
    """How a job that is not closed stands."""
    handed = next((r for r in reversed(trace.records) if isinstance(r, HandedOver | Worker)), None)
    if isinstance(handed, HandedOver):
        return "handed_over"
    return "paused" if isinstance(trace.records[-1], Paused) else "open"
