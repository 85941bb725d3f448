"""Where a job meets the outside: its file, its terminal, its answers file."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from expert.dialogue.job import Job, Shop
from expert.dialogue.outcome import outcome_of
from expert.dialogue.plain import talk_plainly
from expert.dialogue.session import Session
from expert.dialogue.unattended import Player, with_machine
from expert.engine.knowledge import Knowledge
from expert.language.job_answers import load_answers
from expert.trace.places import SUFFIX, job_path, jobs_folder, next_job_number
from expert.trace.records import Record
from expert.trace.writing import Clock


def shop_of(knowledge: Knowledge) -> Shop:
    """The shop owns the instruments that the rules' instruments file lists."""
    return Shop(frozenset(knowledge.base.instruments))


def open_job(knowledge: Knowledge, jobs: Path | None, number: str | None, clock: Clock, plain: bool) -> None:
    """Open a job and talk it through at this terminal."""
    folder = jobs or jobs_folder()
    number = number or next_job_number(folder)
    session, opening = Session.open(knowledge, shop_of(knowledge), job_path(folder, number), number, clock)
    _talk(session, opening, plain)


def resume_job(
    load: Callable[[Path | None], Knowledge], trace: str, jobs: Path | None, clock: Clock, plain: bool
) -> None:
    """Go on with a job, named by its number or by the path of its trace."""
    path = trace_path(trace, jobs)
    session, opening = Session.resume(load(None), path, clock)
    _talk(session, opening, plain)


def trace_path(name: str, jobs: Path | None) -> Path:
    """The file meant by a job number or a path. Raises NotAJobNumber."""
    if name.endswith(SUFFIX) or "/" in name:
        return Path(name)
    return job_path(jobs or jobs_folder(), name)


def _talk(session: Session, opening: tuple[Record, ...], plain: bool) -> None:
    try:
        if plain or not (sys.stdin.isatty() and sys.stdout.isatty()):
            talk_plainly(session, opening, iter(sys.stdin), sys.stdout)
        else:
            from expert.dialogue.chat import talk_in_terminal

            talk_in_terminal(session, opening)
    finally:
        session.close()


def play_answers(
    knowledge: Knowledge, file: Path, jobs: Path | None, number: str | None, clock: Clock
) -> dict[str, Any]:
    """Play a job from an answers file. Raises CannotPlay, RulesRefused for the file, and what a trace raises."""
    answers = load_answers(file, knowledge.base)
    knowledge = with_machine(knowledge, answers.machine_type)
    folder = jobs or jobs_folder()
    number = number or next_job_number(folder)
    path = job_path(folder, number)
    session, opening = Session.open(knowledge, shop_of(knowledge), path, number, clock)
    try:

        def say(line: str) -> tuple[Job, tuple[Record, ...]]:
            records = session.say(line)
            return session.job, records

        player = Player(answers, say, list(opening))
        job = player.play(session.job)
    finally:
        session.close()
    return outcome_of(job, player.records, str(path))
