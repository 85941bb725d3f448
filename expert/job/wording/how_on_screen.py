"""How a test is made, as far as it stands on the screen: its beginning, and whatever warns. `how` tells the rest."""

from __future__ import annotations

import re

from expert.job.sentences import records as say
from expert.job.state.job import Job
from expert.language.model import Question

WORDS, LEAST = 10, 5
HINT_IS_KNOWN = 2  # answers; by then the word `how` has been on the screen often enough
SENTENCE_END = re.compile(r"(?<=[.!?]) (?=[A-Z])")
# What warns is never left to be asked for.
WARNS = re.compile(
    r"(?i)\b(never|do not|don't|must not|not while|nobody touch|stop (at|after|it|if)|switch off|pull the plug|at once|"
    r"wait before|keep (clear|away|hands)|stand clear|under pressure|scald|burn|plug stays out)\b"
)


def how_on_screen(job: Job, question: Question) -> str:
    """How the test is made in a line or two; in full where the work is live. Of one made before what warns is left."""
    if any(states.items() <= question.bench.items() for states in job.base.bench.qualified_only):
        return say.how(question.how)
    made = was_made_before(job, question)
    shown = warnings(question.how) if made else beginning_and_warnings(question.how)
    if shown == question.how:
        return say.how(shown)
    if made:
        return say.how_again(shown)
    return say.how_begins(shown) if len(job.given) < HINT_IS_KNOWN else say.how_goes_on(shown)


def was_made_before(job: Job, question: Question) -> bool:
    return any(given.question == question.id for given in job.given.values())


def was_drawn_before(job: Job, question: Question) -> bool:
    """Whether a test was made that has the very same drawing, itself or another."""
    return any(job.base.questions[given.question].drawing == question.drawing for given in job.given.values())


def in_short(instrument: str) -> str:
    """An instrument without the details behind a comma or in brackets.

    >>> in_short("earth bond tester (200 mA or more)"), in_short("the machine's boiler gauge, 0 to 3 bar")
    ('earth bond tester', "the machine's boiler gauge")
    """
    return instrument.partition(",")[0].partition(" (")[0]


def warnings(text: str) -> str:
    """The sentences that warn.

    >>> warnings("Pull one lead off the coil. Never probe under mains. Read when the number stands still.")
    'Never probe under mains.'
    """
    return " ".join(sentence for sentence in SENTENCE_END.split(text) if WARNS.search(sentence))


def beginning_and_warnings(text: str, words: int = WORDS) -> str:
    """The sentences that begin it, so many words together and at least one that says something; then what warns.

    >>> beginning_and_warnings("Pull the plug. Pull one lead off the coil. Read it when still. Never under mains.", 9)
    'Pull the plug. Pull one lead off the coil. Never under mains.'
    """
    first, *rest = SENTENCE_END.split(text)
    taken = 0
    for sentence in rest:
        # "Unplug." alone says nothing of how.
        if len(f"{first} {sentence}".split()) > words and (words < LEAST or len(first.split()) >= LEAST):
            break
        first, taken = f"{first} {sentence}", taken + 1
    return " ".join([first, *(sentence for sentence in rest[taken:] if WARNS.search(sentence))])
