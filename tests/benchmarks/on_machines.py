"""The search on simulated machines: where its questions go, and the shipped way against others.

The jobs are single faults drawn from the witness (`tests.benchmarks.witness`); the machine answers, and no rule.
"""

from __future__ import annotations

import statistics
from collections import Counter
from collections.abc import Iterable, Sequence

from expert.job.search import stalling
from expert.language.model import Bench
from expert.machine import PLATES, Build, brought_in, sound_machine
from expert.trace.records import Answered, CannotTell, PromptPut, Record, Repaired, Said, SearchEnded
from expert.witness.playing import Played, play_on
from tests.benchmarks.question_times import Choose, choosing_by
from tests.benchmarks.strategies import NEVER, STRATEGIES, spread
from tests.benchmarks.witness import Play, plays, spoiler, world

JOBS = 60
SEED = 7
KINDS = ("single", "pairs", "sparse")
PURPOSES = (
    "safety looks and releases",
    "before a bench move",
    "search",
    "search after a repair or a failed proof",
    "proof of the repair and re-test",
    "earth, insulation, leakage",
    "check-out",
    "looks of every machine",
)


def played(play: Play) -> Played:
    here = world()
    faults = [here.known[name] for name in play.faults]
    build = Build(PLATES[play.plate], play.sensor, altitude=play.altitude)
    machine = brought_in(build, faults, play.seed) if faults else sound_machine(build, play.seed)
    return play_on(here.knowledge, here.table, machine, (play.complaint,), play.qualified, spoiler(play))


def by_purpose(bench: Bench, records: Iterable[Record]) -> Counter[str]:
    """Answers, can't tell included, by what they were wanted for."""
    found: Counter[str] = Counter()
    put, repaired, ended = PromptPut("intake", "", ""), False, False
    for record in records:
        match record:
            case PromptPut():
                put = record
            case Repaired():
                repaired = True
            case SearchEnded():
                ended = True
            case Answered(question=question) | CannotTell(question=question):
                found[_purpose(bench, put, question, repaired or ended)] += 1
    return found


def _purpose(bench: Bench, put: PromptPut, question: str, again: bool) -> str:
    if put.why.hazard:
        return PURPOSES[0]
    if put.why.before_move:
        return PURPOSES[1]
    if put.prompt != "proof":
        return PURPOSES[3] if again else PURPOSES[2]
    if question in bench.check_out:
        return PURPOSES[6]
    if question in (*bench.service, *bench.after_opening):
        return PURPOSES[5]
    return PURPOSES[7] if question in bench.before_return else PURPOSES[4]


def answering_prompts(records: Iterable[Record]) -> int:
    """Lines typed that answered at least one question: a round of looks is one."""
    count, pending = 0, False
    for record in records:
        if isinstance(record, Said):
            pending = True
        elif pending and isinstance(record, Answered | CannotTell):
            count, pending = count + 1, False
    return count


def where_questions_go(jobs: int = JOBS) -> dict[str, dict[str, object]]:
    """For each kind of job: mean questions for each purpose; questions, prompts and minutes of the whole job."""
    bench = world().knowledge.base.bench
    table: dict[str, dict[str, object]] = {}
    for kind in KINDS:
        ended = [played(play) for play in plays(kind, jobs, SEED)]
        counts = [by_purpose(bench, one.records) for one in ended]
        means = {name: round(statistics.mean(count[name] for count in counts), 1) for name in PURPOSES}
        table[kind] = {
            **means,
            **spread("questions", [sum(count.values()) for count in counts]),
            **spread("prompts", [answering_prompts(one.records) for one in ended]),
            **spread("job_minutes", [one.job.minutes for one in ended]),
        }
    return table


def compared_on_machines(jobs: int = JOBS) -> dict[str, dict[str, float]]:
    """For each way over the same machines: faults named, questions and minutes of the search, bench moves included."""
    drawn = plays("single", jobs, SEED)
    before, stalling.IN_VAIN = stalling.IN_VAIN, NEVER
    try:
        return {name: _measured(drawn, chosen) for name, chosen in STRATEGIES.items()}
    finally:
        stalling.IN_VAIN = before


def _measured(drawn: Sequence[Play], chosen: Choose) -> dict[str, float]:
    with choosing_by(chosen):
        ended = [played(play) for play in drawn]
    faults = world().table.faults
    named = sum(
        bool(set(one.named) & set(faults.get(play.faults[0], ()))) for play, one in zip(drawn, ended, strict=True)
    )
    return {
        "jobs": len(drawn),
        "named": named,
        **spread("questions", [len(one.searched) for one in ended]),
        **spread("minutes", [one.minutes for one in ended]),
        "minutes_mean": round(statistics.mean(one.minutes for one in ended), 1),
    }
