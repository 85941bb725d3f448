"""A round of tests in words: what is looked at and what a sound machine shows, what is read with what, and how."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from expert.job.sentences import repair as say
from expert.job.state.job import Job
from expert.job.state.values import unit_at_prompt
from expert.job.wording.how_on_screen import in_short, warnings
from expert.job.wording.readings import how_to
from expert.language.model import Measure, Question


def looks_listed(looks: Sequence[Question]) -> Iterable[str]:
    """Each look with its number, its sound outcome, and whatever of how it is made warns."""
    for number, look in enumerate(looks, 1):
        sound = " / ".join(look.label(outcome) for outcome in look.sound)
        yield say.look_of_round(number, look.ask, sound, warnings(look.how))


def readings_listed(job: Job, readings: Sequence[Question]) -> Iterable[str]:
    """Each reading with its number, its unit and instrument, and whatever of how it is taken warns."""
    for number, reading in enumerate(readings, 1):
        assert isinstance(reading.form, Measure)
        unit = unit_at_prompt(reading.form, job.shop.system)
        instrument = in_short(job.base.instruments[reading.form.instrument].name)
        yield say.reading_of_round(number, reading.ask, unit, instrument, warnings(reading.how))


def how_of_round(job: Job) -> tuple[str, ...]:
    """Cautions, then how each test of the round is made."""
    tests = [job.base.questions[name] for name in job.round_put]
    cautions = dict.fromkeys(caution for test in tests for caution in test.cautions)
    hows = (line for number, test in enumerate(tests, 1) for line in (f"{number}. {test.ask}", *how_to(job, test)))
    return (*(f"! {job.base.cautions[caution].text}" for caution in cautions), *hows)
