"""What is read a second time: what decides, before a fault is named; what cleared by one look, before an open end.

One reading of one junior is evidence. Two that agree decide, and so do two independent ones that point to one fault.
"""

from __future__ import annotations

from expert.engine.bench import Route
from expert.engine.candidates import Candidate
from expert.engine.planner import Choice
from expert.engine.suspicion import START, Picture
from expert.job.search.elimination import speaking_for
from expert.job.search.ending import ELIMINATED, FOUND, ending_of
from expert.job.sentences import search as say
from expert.job.state.bench import bench_map
from expert.job.state.complaints_now import since_repair
from expert.job.state.hazards import open_hazards
from expert.job.state.job import Given, Job, Turn

MOST_READINGS = 4  # of the same thing; if they never agree, the last one counts


def ask_again(turn: Turn, picture: Picture, *, at_the_end: bool) -> bool:
    """Choose a question to be put a second time, and say why. Whether there is one.

    `at_the_end`: the search would end now. Else only what differs between two readings is asked.
    """
    job = turn.job
    doubtful = [n for n in job.again if _differ(job, n) and not _ends_a_danger(job, n) and _way_there(job, n)]
    if doubtful:
        return _choose(turn, doubtful[0], say.READINGS_DIFFER)
    if not at_the_end or job.base.bench.read_twice is None:
        return False
    ending = ending_of(job, picture)
    named = [fault for fault, standing in ending.standings.items() if standing in (FOUND, ELIMINATED)]
    for fault in named:
        question = deciding_reading(job, fault, ending.standings[fault])
        if question and not _agrees(job, question):
            return _choose(turn, question, say.DECIDING_READING)
    looks = "" if named or picture.settled else _look_that_cleared(job, picture)
    return bool(looks) and _choose(turn, looks, say.LOOK_THAT_CLEARED)


def _choose(turn: Turn, question: str, why: str) -> bool:
    turn.tell(why)
    turn.job.again = tuple(dict.fromkeys((*turn.job.again, question)))
    again = Candidate(question, question, 0.0, 0.0, Route((), 0.0), ())
    turn.job.choice = Choice(again, None, None, (), second_reading=True)
    return True


def deciding_reading(job: Job, fault: str, standing: str) -> str:
    """The one unsound answer on which a verdict rests, the one that the fewest faults show; "" where there are two."""
    if job.base.faults[fault].result or fault in job.repaired:
        return ""
    rules = speaking_for(job, fault) if standing == ELIMINATED else _confirming(job, fault)
    pivots = {pivot for rule in rules if (pivot := _most_telling(job, rule))}
    one = pivots.pop() if len(pivots) == 1 else ""
    return one if one and _can_be_repeated(job, one) else ""


def _confirming(job: Job, fault: str) -> tuple[str, ...]:
    return tuple(rule for rule in job.knowledge.confirming.get(fault, ()) if rule in job.state.fired)


def _most_telling(job: Job, rule: str) -> str:
    """Of the unsound answers behind a rule the one that the fewest faults show, the latest of equal ones."""
    behind = job.knowledge.rule_questions[rule]
    unsound = [
        given
        for given in job.given.values()
        if given.holds and given.question in behind and not set(given.outcomes) & _sound(job, given)
    ]
    return min(unsound, key=lambda given: (_shown_by(job, given), -given.number)).question if unsound else ""


def _sound(job: Job, given: Given) -> set[str]:
    return set(job.base.questions[given.question].sound)


def _shown_by(job: Job, given: Given) -> int:
    shows = (fault.shows.get(given.question, ()) for fault in job.base.faults.values())
    return sum(bool(set(outcomes) & set(given.outcomes)) for outcomes in shows)


def _agrees(job: Job, question: str) -> bool:
    """Whether it was read twice in a row alike since the last repair, or cannot be told again."""
    read = _read(job, question)
    if question in job.cannot or not read or len(read) >= MOST_READINGS:
        return True
    return len(read) > 1 and read[-1].outcomes == read[-2].outcomes


def _differ(job: Job, question: str) -> bool:
    """Whether it was read twice since the last repair, and not alike."""
    return len(_read(job, question)) > 1 and not _agrees(job, question)


def _read(job: Job, question: str) -> list[Given]:
    """What was read since the last repair: one made before and one made after may well differ."""
    since = since_repair(job)
    return [given for given in job.given.values() if given.question == question and given.number >= since]


def _can_be_repeated(job: Job, name: str) -> bool:
    question, twice = job.base.questions[name], job.base.bench.read_twice
    return (
        twice is not None
        and bool(question.bench)
        and question.minutes <= twice.longest
        and question.possible_with(job.instruments)
        and not _ends_a_danger(job, name)
        and _way_there(job, name)
    )


def _way_there(job: Job, name: str) -> bool:
    """Whether the bench can be brought to where it is asked: a move that cannot be made spares the second reading."""
    wanted = job.base.questions[name].bench
    return not wanted or bench_map(job).route(job.bench, wanted) is not None


def _ends_a_danger(job: Job, name: str) -> bool:
    """Whether it is a test that a danger waits for: that is put in its own turn, after what comes before it."""
    return any(name in release.tests for hazard in open_hazards(job) for release in hazard.released_by)


def _look_that_cleared(job: Job, picture: Picture) -> str:
    """The answer that alone clears the likeliest faults behind what is open, and was given once; "" where none does."""
    twice = job.base.bench.read_twice
    if twice is None or len(job.again) >= twice.looks:
        return ""
    weights: dict[str, float] = {}
    by_source = {given.source: given for given in job.given.values() if given.holds}
    explainers = {fault for c in picture.complaints_open for fault in job.knowledge.explainers[c]}
    for fault in sorted(explainers):
        if job.state.possible(fault) != ("absent",) or fault in job.repaired:
            continue
        behind = [source for source in job.state.sources_behind(fault, "present") if source in by_source]
        if len(behind) == 1:
            question = by_source[behind[0]].question
            weights[question] = weights.get(question, 0.0) + 10 ** (START[job.base.faults[fault].seen] / 10)
    left = [name for name in weights if not _agrees(job, name) and _can_be_repeated(job, name)]
    return max(left, key=lambda name: (weights[name], name), default="")
