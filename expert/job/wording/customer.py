"""The summary for the customer in plain words: what was wrong, what was done, what to watch. Printable text."""

from __future__ import annotations

import math
import re

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
from expert.language.model import Measure, Question, YesNo
from expert.trade.quantities.reading import NotAQuantity, read_quantity
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
    lines += (tell_danger(_first_sentence(danger)) for danger in job.dangers_met.values())
    lines.append(CLOSING_LINES[ending])
    lines += not_to_be_used(job, ending)
    lines += still_open_in_words(job) if ending in FINE else []
    lines += not_shown_safe_in_words(job, for_customer=True)
    lines += _all_tested(job)
    lines += costs_told(job) if ending != "handed_over" else ()
    lines += WHAT_TO_WATCH
    return tuple(lines)


def _first_sentence(text: str) -> str:
    """What is the matter; what to do about it is said to the bench, in the sentences behind."""
    return re.split(r"(?<=[.!]) ", text, maxsplit=1)[0]


def _all_tested(job: Job) -> list[str]:
    """Every test that counts for the machine as it goes back: the proofs, and what ended a danger on the way."""
    tests = {question: (answer, passed) for question, answer, passed in job.proofs}
    lines = []
    if tests:
        lines.append(say.TESTED if job.repaired else say.OTHER_TESTS)
        lines += [f"  - {_tested(job, question, answer, passed)}" for question, (answer, passed) in tests.items()]
    ended = [name for name in _ended_dangers(job) if name not in tests]
    if ended:
        lines.append(say.SAFETY_DEVICES_TESTED)
        lines += [f"  - {_tested(job, name, given.text, True)}" for name in ended if (given := job.answer_to(name))]
    return lines


def _ended_dangers(job: Job) -> list[str]:
    """The tests that were passed, hold, and belong to what ends a danger that was met."""
    hazards = [job.base.hazards[name] for name in job.hazards.released]
    names = [
        test for hazard in hazards if not hazard.from_the_start for way in hazard.released_by for test in way.tests
    ]
    return [name for name in dict.fromkeys(names) if _passed(job, name)]


def _passed(job: Job, name: str) -> bool:
    given = job.answer_to(name)
    return given is not None and set(given.outcomes) <= set(job.base.questions[name].sound)


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
        *(say.danger_stands(hazard.name) for hazard in dangers),
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
    if question.slip and isinstance(question.form, YesNo):
        # Written as what holds of a sound machine: beside it, the bench's yes or no would say the contrary.
        return question.slip if passed else _NOT_SO[passed](question.slip)
    if not answer or given is None or given.text != answer:
        return f"{called}: {_as_typed(job, question, answer)}{_MARKS[passed]}"
    if given.quantity is not None:
        limits = _limits(job, question, given.quantity)
        read = say.BEYOND_THE_METER if math.isinf(given.quantity.value) else show_limit(job, given.quantity)
        return f"{called} {read}{f', {limits}' if limits else ''}{_MARKS[passed]}"
    if passed and question.slip:
        return question.slip
    told = " or ".join(map(question.label, given.outcomes))
    return f"{called}: {told}{_MARKS[passed]}"


def _as_typed(job: Job, question: Question, answer: str) -> str:
    """An answer that has been given otherwise since: a reading in the shop's units all the same."""
    if not isinstance(question.form, Measure):
        return answer or "not tested"
    try:
        return show_limit(job, read_quantity(answer, question.form.kind, question.form.unit, job.shop.system))
    except NotAQuantity:
        return answer or "not tested"


_NOT_SO = {False: say.did_not_hold, None: say.not_known_whether}
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
