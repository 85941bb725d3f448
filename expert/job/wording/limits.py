"""Limits in words: what they are, and what they rest on, down to plate, readings and assumptions."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping

from expert.job.sentences import limits as say
from expert.job.state.job import Job
from expert.job.state.values import bands_of, value_of
from expert.language.formulas.formula import Formula
from expert.language.model import Question, WorkOut
from expert.trade.limits.electrical import NATIONAL, STRICTEST
from expert.trade.quantities.units import Quantity, show

LIMIT_DIGITS = 3  # more would pretend that a limit of the trade is sharper than it is
MOST_IN_SHORT = 4
_LIMITS = "machine.limits"
_SET = re.compile(rf"\b({'|'.join(NATIONAL)}): ")  # what begins the part of one country in a source
_SHOWN_AS_IT_IS = ("temperature", "temperature_difference", "time")


def show_limit(job: Job, limit: Quantity, unit: str | None = None) -> str:
    """A limit with the digits that it deserves, such as 792 ohm for 791.6 ohm; in `unit` where one is named."""
    value = limit.value
    if limit.kind not in _SHOWN_AS_IT_IS and value and not math.isinf(value):
        value = round(value, LIMIT_DIGITS - 1 - math.floor(math.log10(abs(value))))
    return show(Quantity(value, limit.kind), unit, job.shop.system)


def limits_in_words(job: Job, question: Question, outcome: str) -> str:
    """The band of one reading in words, such as "from 713 ohm to 1.19 kohm", or '' for the rest."""
    for name, low, high in bands_of(job, question):
        if name == outcome:
            return _band_in_words(job, low, high)
    return ""


def reading_to_tell(job: Job, question: Question, outcome: str, read: Quantity) -> str:
    """The reading whose limits say most about a number: its own; for the rest, the one whose limit lies nearest."""
    bands = {name: [limit for limit in (low, high) if limit is not None] for name, low, high in bands_of(job, question)}
    if bands[outcome]:
        return outcome
    distances = {
        name: min(abs(read.value - limit.value) for limit in limits) for name, limits in bands.items() if limits
    }
    return min(distances, key=distances.__getitem__)


def _band_in_words(job: Job, low: Quantity | None, high: Quantity | None) -> str:
    if low is not None and high is not None:
        return say.from_to(show_limit(job, low), show_limit(job, high))
    if low is not None:
        return f"above {show_limit(job, low)}"
    if high is not None:
        return f"below {show_limit(job, high)}"
    return ""


def where_in_short(job: Job, question: Question, outcome: str) -> str:
    """One clause: what a worked-out limit rests on, such as "expected 37.8 ohm from 230 V and 1400 W", or ''."""
    names = dict.fromkeys(name for formula in _formulas(question, outcome) for name in formula.names)
    if not names:
        return ""
    shown = list(dict.fromkeys(leaf for name in names for leaf in _leaves(job, name, {})))[:MOST_IN_SHORT]
    origin = say.from_both(", ".join(shown[:-1]), shown[-1]) if len(shown) > 1 else f"from {shown[0]}"
    if question.nominal:
        value = value_of(job, question.nominal)
        words = value if isinstance(value, str) else show_limit(job, value)
        return f"expected {words}" if shown == [words] else f"expected {words} {origin}"
    return f"limit {origin}"


def _formulas(question: Question, outcome: str = "") -> Iterable[Formula]:
    """The formulas of one reading, or of all."""
    for reading in question.readings:
        if outcome in ("", reading.name):
            yield from (formula for formula in (reading.low, reading.high) if formula is not None)


def _all_names(job: Job, question: Question) -> Iterable[str]:
    """Every worked-out value behind a question's limits, the nearest first."""
    names = [name for formula in _formulas(question) for name in formula.names]
    for name in names:
        if name in job.base.work_outs:
            yield name
            names += job.base.work_outs[name].formula.names


def rests_on(job: Job, question: Question, reading: str) -> bool:
    """Whether the limits of a measured question rest on the number read for another one."""
    names = {name for formula in _formulas(question) for name in formula.names}
    records = [job.base.work_outs[name] for name in _all_names(job, question)]
    return reading in names or any(reading in record.formula.names for record in records)


def _leaves(job: Job, name: str, assume: Mapping[str, Quantity | str]) -> Iterable[str]:
    """What a value rests on in the end, in words: plate, feature, reading, or what is assumed in its place."""
    record = job.base.work_outs.get(name)
    if record is not None:
        for inner in record.formula.names:
            yield from _leaves(job, inner, record.assume)
        return
    if _left_out(job, name, assume):
        return
    value = value_of(job, name, assume)
    shown = _feature(name, value) if isinstance(value, str) else show(value, system=job.shop.system)
    # A rating in place of a reading is no guess: it is what the limits would rest on anyway.
    guessed = isinstance(assume.get(name), Quantity) and job.answer_to(name) is None
    yield f"{shown} (assumed)" if guessed else shown


def _feature(name: str, value: str) -> str:
    """A feature as people say it: whose limits, which class."""
    if value == STRICTEST:
        return say.THE_STRICTEST_LIMITS
    if name == _LIMITS:
        return say.limits_of(value.upper() if len(value) == 2 else value.replace("_", " ").title())
    return value.replace("_", " ")


def _left_out(job: Job, name: str, assume: Mapping[str, Quantity | str]) -> bool:
    """Whether a reading was not taken and the formula does without it: then it is assumed to be nothing."""
    assumed = assume.get(name)
    return isinstance(assumed, Quantity) and job.answer_to(name) is None and assumed.value == 0


def where_limits_come_from(job: Job, question: Question) -> tuple[str, ...]:
    """One sentence for each value that the limits rest on: its value, formula, what goes into it, and its source."""
    names = dict.fromkeys(name for formula in _formulas(question) for name in formula.names)
    names |= dict.fromkeys(_all_names(job, question))
    return tuple(_origin(job, name) for name in names)


def _origin(job: Job, name: str) -> str:
    value = value_of(job, name)
    shown = value if isinstance(value, str) else show(value, system=job.shop.system)
    if name.startswith("plate."):
        return f"{job.base.plate_values[name.removeprefix('plate.')].name}: {shown} (plate)"
    record = job.base.work_outs.get(name)
    if record is None:
        return f"{name}: {shown}"
    inputs = [words for inner in record.formula.names if (words := _input(job, record, inner))]
    tail = f"; {', '.join(inputs)}" if inputs else ""
    return say.worked_out(record.name, shown, record.formula.text, tail, _source_here(job, record))


def _source_here(job: Job, record: WorkOut) -> str:
    """The source; where it names one for each country, that of the shop's, once the shop has said where it is."""
    home = job.shop.home
    if home is None or _LIMITS not in record.formula.names:
        return record.source
    named = _SET.split(record.source)
    sets = dict(zip(named[1::2], named[2::2], strict=True))
    return sets[home.limits].removesuffix("; ") if home.limits in sets else record.source


def _input(job: Job, record: WorkOut, name: str) -> str:
    """One thing that goes into a worked-out value, in words; worked-out values have a sentence of their own."""
    if name in job.base.work_outs:
        return ""
    short = name.rpartition(".")[2]
    if name in record.assume and job.answer_to(name) is None:
        return _assumed(job, short, record.assume[name])
    value = value_of(job, name)
    return f"{short} {value if isinstance(value, str) else show(value, system=job.shop.system)}"


def _assumed(job: Job, short: str, assumed: Quantity | str) -> str:
    """What stands in for a reading that was not taken, in words."""
    if isinstance(assumed, str):
        value = value_of(job, assumed)
        assert isinstance(value, Quantity)
        rating = job.base.plate_values[assumed.removeprefix("plate.")].name
        return say.not_measured_taken_as(short, rating, show(value, system=job.shop.system))
    if not assumed.value:
        return f"{short} not measured"
    return say.not_known_taken_as(short, show(assumed, system=job.shop.system))
