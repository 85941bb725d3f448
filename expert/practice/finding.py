"""From a few typed words to the tests, bench moves and faults that they may mean, likeliest first."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from math import log

from expert.engine.bench import in_time, satisfies
from expert.job.answers.complaint_search import Rows, meaning_words
from expert.job.state.applying import applies
from expert.job.state.job import Job
from expert.language.model import Question
from expert.practice.practice import Offer, Practice
from expert.witness.playing import plate_lines

MOST = 9
NEAR_BEST = 0.6
LIKE_ENOUGH = 0.8
LENGTHY = 4.0  # words


def tests_here(practice: Practice) -> tuple[Question, ...]:
    """The tests that this machine can answer, in the order of the rules."""
    job, lines = practice.job, practice.world.table.lines
    known = lines.keys() | plate_lines(practice.scenario.build).keys()
    return tuple(
        question
        for question in job.base.questions.values()
        if question.id in known and job.concerns_machine(question) and question.possible_with(job.instruments)
    )


def needs_of(job: Job, question: Question) -> dict[str, str]:
    """The bench state that comes first: that of setting the test up, or that of the test itself."""
    if question.prepare is not None and question.id not in job.prepared:
        return dict(question.prepare.bench)
    return dict(question.bench)


def stands_for(job: Job, wanted: Mapping[str, str]) -> bool:
    """Whether the bench stands as wanted, or will by itself in a while."""
    return satisfies(job.bench, wanted) or satisfies(in_time(job.base.bench, job.bench), wanted)


def is_live_work(job: Job, question: Question) -> bool:
    """Whether a test is only for those who are qualified for live work."""
    return any(states.items() <= question.bench.items() for states in job.base.bench.qualified_only)


def meant(practice: Practice, words: str) -> tuple[Offer, ...]:
    """The tests and bench moves that these words may mean; of equals, first what the bench stands for."""
    job = practice.job
    tests = {question.id: question for question in tests_here(practice)}
    texts = {Offer("test", id_): f"{question.ask} {id_} {question.slip}" for id_, question in tests.items()}
    texts |= {Offer("move", move.id): f"{move.say} {move.id}" for move in job.base.bench.moves}
    key = words.strip().casefold().replace(" ", "_")
    exact = [offer for offer in texts if offer.id == key]
    if exact:
        return tuple(exact)

    def further(offer: Offer) -> bool:
        return offer.kind == "test" and not stands_for(job, needs_of(job, tests[offer.id]))

    return tuple(sorted(likeliest(words, texts, job.base.same_words), key=further))


def faults_meant_by(job: Job, words: str) -> tuple[Offer, ...]:
    """The faults of this machine whose part and failure have these words."""
    features = job.machine.features if job.machine else {}
    here = {
        Offer("fault", id_): f"{job.fault_name(id_)} {id_}"
        for id_, fault in job.base.faults.items()
        if applies(job.base, features, (job.base.parts[fault.part].applies,))
    }
    wanted = words.strip().casefold()
    exact = [offer for offer in here if wanted in (offer.id, job.fault_name(offer.id).casefold())]
    return tuple(exact) or likeliest(words, here, job.base.same_words)


def likeliest(words: str, texts: Mapping[Offer, str], same: Rows) -> tuple[Offer, ...]:
    """The offers whose texts have most of these words; a rare word counts more than a frequent one.

    `same`: words that are used for one another.
    """
    of_offer = {offer: set(meaning_words(text.replace("_", " "), same)) for offer, text in texts.items()}
    known = set().union(*of_offer.values())
    worth = {word: log(1 + len(of_offer) / sum(word in own for own in of_offer.values())) for word in known}
    said: set[str] = set()
    for word in meaning_words(words[:200], same)[:20]:
        said.update([word] if word in known else get_close_matches(word, sorted(known), 1, LIKE_ENOUGH))
    # Of two texts that have the words, the shorter one is more about them.
    scores = {
        offer: sum(worth[word] for word in sorted(said & own)) / (LENGTHY + len(own)) ** 0.5
        for offer, own in of_offer.items()
    }
    best = max(scores.values(), default=0.0)
    fitting = [offer for offer, score in scores.items() if score > 0.0 and score >= NEAR_BEST * best]
    return tuple(sorted(fitting, key=lambda offer: -scores[offer])[:MOST])
