"""A round of looks in words: what is looked at and what a sound machine shows, and how each is made."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from expert.job.sentences import repair as say
from expert.job.state.job import Job
from expert.job.wording.how_on_screen import warnings
from expert.job.wording.readings import how_to
from expert.language.model import Question


def looks_listed(looks: Sequence[Question]) -> Iterable[str]:
    """Each look with its number, its sound outcome, and whatever of how it is made warns."""
    for number, look in enumerate(looks, 1):
        sound = " / ".join(look.label(outcome) for outcome in look.sound)
        yield say.look_of_round(number, look.ask, sound, warnings(look.how))


def how_of_round(job: Job) -> tuple[str, ...]:
    """Cautions, then how each test of the round is made."""
    tests = [job.base.questions[name] for name in job.round_put]
    cautions = dict.fromkeys(caution for test in tests for caution in test.cautions)
    hows = (line for number, test in enumerate(tests, 1) for line in (f"{number}. {test.ask}", *how_to(job, test)))
    return (*(f"! {job.base.cautions[caution].text}" for caution in cautions), *hows)
