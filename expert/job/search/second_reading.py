"""What is read a second time: what decides, before a fault is named; what cleared by one look, before an open end.

One reading of one junior is evidence. Two that agree decide, and so do two independent ones that point to one fault.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable

from expert.engine.bench import Route
from expert.engine.candidates import Candidate
from expert.engine.planner import Choice
from expert.engine.suspicion import START, Picture
from expert.job.search.elimination import speaking_for
from expert.job.search.ending import ELIMINATED, FOUND, ending_of
from expert.job.sentences import search as say
from expert.job.sentences.records import DECIDING_READING
from expert.job.state.bench import bench_map
from expert.job.state.complaints_now import since_repair
from expert.job.state.hazards import answer_anew
from expert.job.state.job import Given, Job, Turn
from expert.trace.records import TakenBack

MOST_READINGS = 4  # of the same thing; if they never agree, the last one counts


def ask_again(turn: Turn, picture: Picture, *, at_the_end: bool) -> bool:
    """Choose a question to be put a second time, and say why. Whether there is one.

    `at_the_end`: the search would end now. Else only what differs between two readings is asked.
    """
    job = turn.job
    doubtful = [name for name in job.again if _differ(job, name) and _way_there(job, name)]
    if doubtful:
        return _choose(turn, doubtful[0], say.READINGS_DIFFER)
    if not at_the_end or job.base.bench.read_twice is None:
        return False
    ending = ending_of(job, picture)
    named = [fault for fault, standing in ending.standings.items() if standing in (FOUND, ELIMINATED)]
    for fault in named:
        if question := rests_on_one_reading(job, fault, ending.standings[fault]):
            return _choose(turn, question, DECIDING_READING)
        if question := _what_cleared_its_like(job, fault, ending.standings[fault]):
            return _choose(turn, question, say.LOOK_THAT_CLEARED_ITS_LIKE)
    if named:
        return False
    if picture.complaints_open:
        question, why = _look_that_cleared(job, _explaining(job, picture.complaints_open)), say.LOOK_THAT_CLEARED
    else:
        question, why = _look_behind_normal(job, picture.normal), say.LOOK_BEFORE_NORMAL
    return bool(question) and _choose(turn, question, why)


def one_safe_look(job: Job, fault: str) -> str:
    """The reading that decides on a fault, taken once, where it can be repeated with the machine safe; else ""."""
    name = rests_on_one_reading(job, fault, FOUND)
    wanted, safe = job.base.questions[name].bench if name else {}, job.base.bench.safe
    return name if all(wanted.get(dimension, state) == state for dimension, state in safe.items()) else ""


def rests_on_one_reading(job: Job, fault: str, standing: str) -> str:
    """The reading that decides on a fault, where it was taken once and can be repeated; else ""."""
    question = deciding_reading(job, fault, standing)
    return "" if not question or _agrees(job, question) else question


def was_a_mistake(job: Job, question: str) -> bool:
    """Whether two readings in a row now speak against an earlier one."""
    return question in job.again and len(_read(job, question)) > 2 and _agrees(job, question)


def _choose(turn: Turn, question: str, why: str) -> bool:
    """Say why it is read again, and choose it. Of two readings that differ the earlier is taken back: what stood on it
    alone, as a danger, ends when the next one says so too, and not before."""
    job = turn.job
    turn.tell(why)
    job.again = tuple(dict.fromkeys((*job.again, question)))
    if _differ(job, question):
        earlier = _read(job, question)[-2]
        answer_anew(job, question, earlier.source)
        turn.add(TakenBack(earlier.number, question))
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
    """Whether it was read twice in a row alike since the last repair, or cannot be read as it was."""
    read = _read(job, question)
    if question in job.cannot or not read or len(read) >= MOST_READINGS:
        return True
    return len(read) > 1 and read[-1].outcomes == read[-2].outcomes


def _differ(job: Job, question: str) -> bool:
    """Whether it was read twice since the last repair, and not alike."""
    return len(_read(job, question)) > 1 and not _agrees(job, question)


def _read(job: Job, question: str) -> list[Given]:
    """What was read since the last repair, or since a test that mends what shows in it, as drying does: one reading
    made before and one made after may well differ."""
    since = max(since_repair(job), _mended_by_a_test(job, question))
    return [given for given in job.given.values() if given.question == question and given.number >= since]


def _mended_by_a_test(job: Job, question: str) -> int:
    """The number of the last answer to a test that mends a fault which shows in this question; 0 where none did."""
    return max((given.number for given in job.given.values() if _mends(job, given.question, question)), default=0)


def _mends(job: Job, test: str, question: str) -> bool:
    return test != question and any(question in job.base.faults[f].shows for f in job.base.questions[test].mends)


def _can_be_repeated(job: Job, name: str) -> bool:
    question, twice = job.base.questions[name], job.base.bench.read_twice
    return (
        twice is not None
        and bool(question.bench)
        and question.minutes <= twice.longest
        and question.possible_with(job.instruments)
        and _way_there(job, name)
    )


def _way_there(job: Job, name: str) -> bool:
    """Whether the bench can be brought to where it is asked: a move that cannot be made spares the second reading."""
    wanted = job.base.questions[name].bench
    return not wanted or bench_map(job).route(job.bench, wanted) is not None


def _explaining(job: Job, complaints: Iterable[str]) -> set[str]:
    return {fault for complaint in complaints for fault in job.knowledge.explainers[complaint]}


def _what_cleared_its_like(job: Job, fault: str, standing: str) -> str:
    """The one answer that alone cleared a fault which shows the same deciding reading; "" where there is none.

    Were that answer a slip, the other one would be named.
    """
    deciding = deciding_reading(job, fault, standing)
    given = job.answer_to(deciding) if deciding else None
    if given is None:
        return ""
    read = set(given.outcomes)
    faults = job.base.faults.values()
    return _look_that_cleared(job, {o.id for o in faults if o.id != fault and set(o.shows.get(deciding, ())) & read})


def _look_behind_normal(job: Job, complaints: Iterable[str]) -> str:
    """A look on which it rests that a complaint is how a sound machine behaves, and that was taken once; or ""."""
    twice, questions = job.base.bench.read_twice, job.base.questions
    fired = (r for c in complaints for r in job.knowledge.normal_rules.get(c, ()) if r in job.state.fired)
    looks = [
        name
        for rule in fired
        for name in sorted(job.knowledge.rule_questions[rule])
        if not questions[name].instrument and job.answer_to(name) is not None and not _agrees(job, name)
    ]
    if twice is None or len(job.again) >= twice.looks:
        return ""
    return min((n for n in looks if _can_be_repeated(job, n)), key=lambda n: (questions[n].minutes, n), default="")


def _look_that_cleared(job: Job, faults: Collection[str]) -> str:
    """The answer that alone clears the likeliest of these faults, and was given once; "" where none does."""
    twice = job.base.bench.read_twice
    if twice is None or len(job.again) >= twice.looks:
        return ""
    cleared = {f for f in faults if job.state.possible(f) == ("absent",) and f not in job.repaired}
    behind = {source for fault in cleared for source in job.state.sources_behind(fault, "present")}
    once = [g for g in job.given.values() if g.holds and g.source in behind and not _agrees(job, g.question)]
    weights = {
        given.question: sum(10 ** (START[job.base.faults[fault].seen] / 10) for fault in revived)
        for given in once
        if (revived := _possible_without(job, given, cleared)) and _can_be_repeated(job, given.question)
    }
    # A slip makes a sound look out of anything; a wrong number seldom comes out sound.
    return max(weights, key=lambda name: (not job.base.questions[name].instrument, weights[name], name), default="")


def _possible_without(job: Job, given: Given, cleared: set[str]) -> list[str]:
    """Those of the cleared faults that would be possible again if this answer were not there."""
    without = job.state.copy()
    without.take_back(given.source)
    return [fault for fault in sorted(cleared) if "present" in without.possible(fault)]
