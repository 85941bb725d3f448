"""Why a question is asked, what an answer would mean, who is under suspicion: in plain words."""

from __future__ import annotations

from expert.engine.gain import beliefs
from expert.engine.suspicion import Picture
from expert.job.sentences import why as say
from expert.job.state.job import Given, Job, Phase
from expert.job.state.values import unit_at_prompt
from expert.language.model import Measure

BAR = 20  # characters for a share of 1
ROOM = 52  # characters for a name beside the bar, in 80 columns
SHOWN = 8


def suspects_in_words(job: Job, picture: Picture) -> tuple[str, ...]:
    """Confirmed faults, then the open suspects as a small bar list."""
    if job.phase is Phase.INTAKE:
        return (say.NO_SUSPECTS_YET,)
    lines = repairs_in_words(job)
    lines += [f"Found: {job.fault_name(fault)}" for fault in picture.confirmed]
    belief = beliefs(job.knowledge, picture)
    shown = [suspect.fault for suspect in picture.suspects[:SHOWN]]
    for fault, name in zip(shown, _on_one_line([job.fault_name(fault) for fault in shown]), strict=True):
        bar = "#" * max(1, round(belief[fault] * BAR))
        lines.append(f"{belief[fault]:>5.0%} {bar:<{BAR}} {name}")
    if len(picture.suspects) > SHOWN:
        lines.append(say.more_suspects(len(picture.suspects) - SHOWN))
    return tuple(lines or [say.NO_SUSPECT])


def _on_one_line(names: list[str]) -> list[str]:
    """The names, without the details after a second colon where they are too long beside the bar.

    >>> _on_one_line(["probe: scaled over: it sees the water late or not at all, so it fills on", "pump: dead"])
    ['probe: scaled over', 'pump: dead']
    >>> _on_one_line(["resettable high limit: tripped (it did its job: find out why)"])
    ['resettable high limit: tripped']
    """
    short = [name if len(name) <= ROOM else _brief(name) for name in names]
    # Two that would read alike keep their details.
    return [brief if short.count(brief) == 1 else name for brief, name in zip(short, names, strict=True)]


def _brief(name: str) -> str:
    """The name up to its second colon, and without a bracket that this would leave open."""
    brief = ": ".join(name.split(": ")[:2])
    return brief if brief.count("(") == brief.count(")") else brief.rsplit(" (", 1)[0]


def repairs_in_words(job: Job) -> list[str]:
    """What was repaired, and whether it is proved."""
    return [f"Repaired{_PROVED[proved]}: {job.fault_name(fault)}" for fault, proved in job.repaired.items()]


_PROVED = {True: " and proved", None: say.NOT_PROVED_YET, False: say.PROOF_FAILED}


def answer_in_words(job: Job, given: Given) -> str:
    """An answer as it reads by itself: a choice by its label, a reading as typed with its name."""
    question = job.base.questions[given.question]
    if given.quantity is not None:
        return f"{reading_in_words(job, given)} ({' or '.join(given.outcomes)})"
    return " or ".join(map(question.label, given.outcomes))


def reading_in_words(job: Job, given: Given) -> str:
    """A reading as it was typed. A bare number gets the unit that it was taken in: 0.02 could be ohm or Mohm."""
    measure = job.base.questions[given.question].form
    if not isinstance(measure, Measure) or not all(letter in "0123456789., +-" for letter in given.text):
        return given.text
    return f"{given.text.strip()} {unit_at_prompt(measure, job.shop.system)}".rstrip()


def last_answer(job: Job, question: str) -> Given | None:
    """The latest answer to a question, also one that no longer holds."""
    return next((given for given in reversed(job.given.values()) if given.question == question), None)


def consequences(job: Job, given: Given) -> tuple[str, ...]:
    """What an answer would mean, found without giving it."""
    change = job.state.what_if(given.question, given.outcomes)
    lines = [say.if_it_is(" or ".join(given.outcomes))]
    if any(not left for _, left in change.narrowed.values()):
        return (*lines, say.WOULD_CONTRADICT)
    for fact, (_, left) in change.narrowed.items():
        if fact in job.base.faults and len(left) == 1:
            lines.append(f"  {'found' if left == ('present',) else 'cleared'}: {job.fault_name(fact)}")
    lines += [f"  {job.base.rules[rule].because}" for rule in change.fired[:4]]
    return tuple(lines) if len(lines) > 1 else (*lines, say.NOTHING_CONCLUDED)
