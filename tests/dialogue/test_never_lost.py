"""The program is killed at any moment, also inside a write: every answer that was acknowledged is there on resume."""

from __future__ import annotations

import random
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import pytest

from expert.desk.opening import resume_command
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.job import Job
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.trace.reading import read_trace
from expert.trace.records import Opened, PromptPut, Record, Resumed, Said, Sealed
from expert.trace.verifying import refuse_damage
from tests.dialogue.bench_process import Bench, Uninterrupted, killed_around_the_disk, killed_at, opened, resumed
from tests.dialogue.small_folder import small_folder
from tests.dialogue.small_rules import small_knowledge

NUMBER = "7"
MOST_LINES = 45
COMMANDS = ("why", "suspects", "answers", "take back 1", "take back 2", "note lime", "help", "nonsense", "how", "")


@pytest.fixture(scope="module")
def rules(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return small_folder(tmp_path_factory.mktemp("rules"))


@pytest.fixture(scope="module")
def shipped_knowledge() -> Knowledge:
    return knowledge_of(load_rules(shipped("rules")))


@pytest.mark.parametrize("seed", range(200))
def test_a_killed_job_goes_on_as_if_nothing_had_happened(seed: int, tmp_path: Path, rules: Path) -> None:
    chance = random.Random(seed)
    be_killed_and_go_on(chance, small_knowledge(), rules, tmp_path, kills=chance.randrange(1, 4))


@pytest.mark.parametrize("seed", range(12))
def test_a_killed_job_on_the_shipped_rules(seed: int, tmp_path: Path, shipped_knowledge: Knowledge) -> None:
    be_killed_and_go_on(random.Random(seed), shipped_knowledge, shipped("rules"), tmp_path, kills=2)


def be_killed_and_go_on(chance: random.Random, knowledge: Knowledge, rules: Path, jobs: Path, kills: int) -> None:
    """Play one job with so many violent deaths on the way, and compare it with the job that had none."""
    command = resume_command(rules, jobs / f"{NUMBER}.jsonl")
    job = Uninterrupted.play(knowledge, NUMBER, lambda job: typed(chance, job), MOST_LINES, (), command)
    wanted = job.lines
    path = jobs / f"{NUMBER}.jsonl"
    acknowledged = 0
    taken_up: set[int] = set()
    for life in range(kills + 1):
        on_disk = said_in(path)
        assert list(wanted[: len(on_disk)]) == on_disk
        assert len(on_disk) >= acknowledged, "an acknowledged answer was lost"
        if path.exists() and read_trace(path).is_sealed:
            break  # Closed before it could be killed: there is nothing to go on with.
        begun = path.exists() and b"\n" in path.read_bytes()
        if begun:
            taken_up.add(len(on_disk))
            job = Uninterrupted.play(knowledge, NUMBER, following(wanted), len(wanted), taken_up, command)

        def work(begun: bool = begun) -> None:
            (resumed if begun else opened)(knowledge, rules, jobs, NUMBER)

        bench = Bench(dying(chance, work) if life < kills else work)
        fatal = chance if life < kills else None
        # A job that was closed and only lacks its seal asks nothing more.
        asked = job.again.get(len(on_disk), (("", ""),)) if begun else ((job.shown[0], ""),)
        if is_taken_up(bench, asked, fatal):
            acknowledged = max(acknowledged, talk(bench, job, len(on_disk), fatal))
        bench.end()
    trace = read_trace(path)
    refuse_damage(trace)
    assert said_in(path) == list(job.lines)
    assert tuple(apart_from_taking_up(trace.records)) == job.records


def following(lines: tuple[str, ...]) -> Callable[[Job], str]:
    """Types these lines, whatever is asked."""
    left = iter(lines)
    return lambda job: next(left)


def apart_from_taking_up(records: Iterable[Record]) -> Iterator[Record]:
    """The records of the job itself, without those of whoever took it up saying who is there and how it stands."""
    asked = answering = False
    for record in records:
        if isinstance(record, Resumed):
            asked = answering = False
        if isinstance(record, Said):
            asked, answering = False, asked
        asked = asked or (isinstance(record, PromptPut) and record.prompt == "standing")
        if not (asked or answering or isinstance(record, (Said, Opened, Resumed, Sealed))):
            yield record


def said_in(path: Path) -> list[str]:
    """The lines that a trace holds, but for those of whoever took the job up."""
    said: list[str] = []
    asked = False
    for record in read_trace(path).records if path.exists() else ():
        if isinstance(record, Said):
            said += [] if asked else [record.text]
            asked = False
        asked = asked or (isinstance(record, PromptPut) and record.prompt == "standing")
    return said


def is_taken_up(bench: Bench, texts: tuple[tuple[str, str], ...], chance: random.Random | None) -> bool:
    """Answer what is asked of whoever takes the job up; False when the bench died before or over it."""
    for text, line in texts:
        heard = bench.hear(text)
        assert text.startswith(heard)
        if heard != text or (line and not bench.send(line)):
            return False
        if line and chance and chance.random() < 0.2:
            bench.kill()
            return False
    return True


def talk(bench: Bench, job: Uninterrupted, start: int, chance: random.Random | None) -> int:
    """Type the rest of the job; how many lines were answered in full. With `chance`, kill the bench at some moment."""
    fatal = chance.randrange(start, len(job.lines) + 1) if chance else -1
    for number in range(start, len(job.lines)):
        alive = bench.send(job.lines[number])
        if number == fatal:
            bench.kill()
        reply = bench.hear(job.shown[number + 1]) if alive else ""
        assert job.shown[number + 1].startswith(reply), "the job said something else than the uninterrupted one"
        if reply != job.shown[number + 1]:
            assert chance, f"the bench stopped at line {number} without being killed"
            return number
    if chance:
        bench.kill()
    return len(job.lines)


def dying(chance: random.Random, work: Callable[[], object]) -> Callable[[], object]:
    """The same work with one of several deaths in wait. Some never come: then the bench is killed from here."""
    match chance.randrange(4):
        case 0:
            return killed_at(chance.randrange(60_000), work)
        case 1:
            return killed_at(chance.randrange(2_500), work)
        case 2:
            return killed_around_the_disk(chance.randrange(1, 40), before=bool(chance.randrange(2)), work=work)
        case _:
            return work


def typed(chance: random.Random, job: Job) -> str:
    """What somebody might type, mostly to the point."""
    if chance.random() < 0.2:
        return chance.choice(COMMANDS)
    prompt = job.prompt
    match prompt.kind:
        case "intake" if prompt.subject == "complaints":
            return "ok" if job.complaints else chance.choice(list(job.base.complaints))
        case "intake":
            return {"technician": "Ann", "plate": "ok", "qualified": "no"}.get(prompt.subject, "1")
        case "question" | "proof" if job.base.questions[prompt.subject].measure:
            return chance.choice(("OL", "950", "1190", "2.4 bar", "0.5 bar", "20", "can't tell"))
        case "question" | "proof":
            return chance.choice((*prompt.choices, "can't tell"))
        case "danger":
            return chance.choice(("go on", "dealt with by Bo", "hand over"))
        case "close":
            return "1" if prompt.subject == "ending" else "ok"
        case "conflict":
            return chance.choice((*prompt.choices, "can't tell"))
        case _:
            return "no" if chance.random() < 0.1 else "yes"


# ---------------------------------------------------------------- the program itself, started as a technician starts it


@pytest.mark.parametrize("seed", range(3))
def test_the_program_killed_and_resumed_at_the_command_line(
    seed: int, tmp_path: Path, shipped_knowledge: Knowledge
) -> None:
    chance = random.Random(seed)
    job = Uninterrupted.play(shipped_knowledge, NUMBER, lambda job: typed(chance, job), 20)
    killed_after = chance.randrange(1, len(job.lines))
    program = started("bench", "--plain", "--jobs", str(tmp_path), "--job", NUMBER)
    assert program.stdin and program.stdout
    for number in range(killed_after):
        program.stdin.write(job.lines[number] + "\n")
        program.stdin.flush()
        shown = job.shown[number + 1] if number else job.shown[0] + job.shown[1]
        assert program.stdout.read(len(shown)) == shown
    program.kill()
    program.communicate()
    job = Uninterrupted.play(shipped_knowledge, NUMBER, following(job.lines), len(job.lines), {killed_after})
    again = job.again[killed_after]
    rest = "".join(line + "\n" for line in (*(line for _, line in again if line), *job.lines[killed_after:]))
    output, _ = started("resume", "--plain", "--jobs", str(tmp_path), NUMBER).communicate(rest)
    assert output.startswith("".join(text for text, _ in again) + "".join(job.shown[killed_after + 1 :]))


def started(*words: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "expert.cli", *words],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        encoding="utf-8",
    )
