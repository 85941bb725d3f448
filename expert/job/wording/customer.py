"""The summary for the customer in plain words: what was wrong, what was done, what to watch. Printable text."""

from __future__ import annotations

from expert.job.sentences import customer as say
from expert.job.state.after_opening import not_shown_safe_in_words
from expert.job.state.complaints_now import still_open_in_words
from expert.job.state.costs import costs_of, money
from expert.job.state.hazards import open_hazards
from expert.job.state.job import Job
from expert.job.state.situation import picture_of
from expert.job.wording.limits import show_limit
from expert.job.wording.sound_limits import sound_limits_in_words
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Question
from expert.trade.quantities.units import Quantity

CLOSING_LINES = {
    "repaired": say.REPAIRED,
    "repaired_unproved": say.REPAIRED_UNPROVED,
    "normal": say.NORMAL,
    "normal_untested": say.NORMAL,
    "unrepaired": say.UNREPAIRED,
    "beyond_repair": say.BEYOND_REPAIR,
    "handed_over": say.HANDED_OVER,
    "stopped": say.STOPPED,
}

FINE = ("repaired", "normal")
MOST_SUSPECTS = 5


def customer_summary(job: Job, ending: str) -> tuple[str, ...]:
    """The lines of the slip: what was reported, wrong and done, and what was measured, each with its limit."""
    base = job.base
    title = job.machine.title if job.machine else "not recorded"
    lines = [say.job(job.number, title)]
    lines.append(say.reported("; ".join(base.complaints[complaint].name for complaint in job.complaints)))
    lines += _wrong_and_done(job)
    tell_danger = say.danger_was_found if ending in FINE else say.danger_found
    lines += map(tell_danger, job.dangers_met.values())
    lines.append(CLOSING_LINES[ending])
    lines += not_to_be_used(job, ending)
    lines += still_open_in_words(job)
    lines += not_shown_safe_in_words(job)
    tests = {question: (answer, passed) for question, answer, passed in job.proofs}
    if tests:
        lines.append(say.TESTED if job.repaired else "Safety tests:")
        lines += [f"  - {_tested(job, question, answer, passed)}" for question, (answer, passed) in tests.items()]
    lines += costs_told(job) if ending != "handed_over" else ()
    lines += WHAT_TO_WATCH
    return tuple(lines)


def costs_told(job: Job) -> list[str]:
    """What it costs, line by line; nothing where the shop wants no costs, or none on its slips."""
    rates = job.shop.rates
    if rates is None or not rates.on_slip:
        return []
    minutes = round(job.minutes, 1)
    costs = costs_of(rates, minutes, job.parts_used)
    worth = money(costs.work, rates.currency)
    return [
        say.COSTS,
        say.cost_of_work(f"{minutes:g}", money(rates.hourly_rate, rates.currency), worth),
        *(
            say.part_without_price(part) if price is None else say.cost_of_part(part, money(price, rates.currency))
            for part, price in costs.parts
        ),
        say.costs_together(money(costs.together, rates.currency), say.AND_WITHOUT_PRICE if costs.without_price else ""),
    ]


def not_to_be_used(job: Job, ending: str) -> list[str]:
    """That a machine which does not go back as fine is not used, what danger stands, and what is open and suspected."""
    if ending in FINE:
        return []
    picture = picture_of(job)
    dangers = [hazard for hazard in open_hazards(job) if not hazard.in_every_job]
    unexplained = [job.base.complaints[complaint].name for complaint in picture.complaints_open]
    suspects = [job.fault_name(suspect.fault) for suspect in picture.suspects[:MOST_SUSPECTS]]
    return [
        say.DO_NOT_USE,
        *(say.danger_stands(hazard.name, hazard.until) for hazard in dangers),
        *([say.not_explained("; ".join(unexplained))] if unexplained else []),
        *([say.suspected("; ".join(suspects))] if unexplained and suspects else []),
    ]


def _wrong_and_done(job: Job) -> list[str]:
    """What was wrong and what was done about it, in two sentences."""
    wrong = [fault for fault, standing in job.found.items() if standing != "narrowed"]
    wrong += [fault for fault in job.mended() if fault not in wrong]
    lines = [say.wrong("; ".join(_wrong(job, fault) for fault in wrong))] if wrong else []
    if job.mended():
        others = [fault for fault in wrong if fault not in job.mended()]
        what = "; ".join(map(job.fault_name, job.mended())) if others else "it was repaired"
        parts = f", with {', '.join(job.parts_used)}" if job.parts_used else ""
        lines.append(say.done(f"repaired: {what}" if others else what, parts))
    return lines


def _wrong(job: Job, fault: str) -> str:
    judged = job.found.get(fault) == "own_judgement" and not job.repaired.get(fault)
    return say.wrong_by_judgement(job.fault_name(fault)) if judged else job.fault_name(fault)


def _tested(job: Job, question_id: str, answer: str, passed: bool | None) -> str:
    """One test as a plain statement, a reading with its limit beside it: not as it was asked at the bench."""
    question = job.base.questions[question_id]
    given = job.answer_to(question_id)
    called = question.slip or question.ask.rstrip("?")
    if not answer or given is None or given.text != answer:
        return f"{called}: {answer or 'not tested'}{_MARKS[passed]}"
    if given.quantity is not None:
        limits = _limits(job, question, given.quantity)
        return f"{called} {show_limit(job, given.quantity)}{f', {limits}' if limits else ''}{_MARKS[passed]}"
    if passed and question.slip:
        return question.slip
    told = " or ".join(map(question.label, given.outcomes))
    return f"{called}: {told}{_MARKS[passed]}"


_MARKS = {True: "", False: say.NOT_IN_ORDER, None: say.NOT_SHOWN_IN_ORDER}


def _limits(job: Job, question: Question, read: Quantity) -> str:
    try:
        return sound_limits_in_words(job, question, read)
    except (NotKnown, CannotWorkOut):
        return ""


WHAT_TO_WATCH = (
    say.WATCH,
    say.WATCH_TRIPS,
    say.WATCH_WATER,
    say.WATCH_COMPLAINT,
)  # Advice for the owner that holds for every machine of the trade (common practice, no source)
