"""Where a job meets the outside: its file, its answers file, its shop."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import Any

from expert.desk.pinning import pin_rules
from expert.desk.result import result_of
from expert.desk.session import Session
from expert.desk.unattended import Player, with_machine
from expert.engine.knowledge import Knowledge
from expert.job.prompts.owner import Unattended
from expert.job.state.job import Job
from expert.job.state.shop import Shop
from expert.language.shipped import shipped
from expert.language.worked.job_answers import load_answers
from expert.language.worked.machine_text import machine_text
from expert.trace.places import SUFFIX, job_meant, job_path, jobs_folder, next_job_number
from expert.trace.records import Record
from expert.trace.writing import Clock


def shop_of(knowledge: Knowledge, system: str = "metric") -> Shop:
    """The shop owns the instruments of the rules' instruments file that it has not marked as missing.

    system: metric or us, the units shown.
    """
    owned = (instrument.id for instrument in knowledge.base.instruments.values() if instrument.owned)
    return Shop(frozenset(owned), system)


def resume_command(rules: Path, path: Path) -> str:
    """The command that goes on with a job, from wherever it is typed: folders of one's own are named in it."""
    words = ["expert", "resume"]
    if rules.resolve() not in _shipped_rules():
        words += ["--rules", str(rules.resolve())]
    if path.parent.resolve() != jobs_folder().resolve():
        words += ["--jobs", str(path.parent.resolve())]
    return shlex.join([*words, path.name.removesuffix(SUFFIX)])


def _shipped_rules() -> tuple[Path, ...]:
    try:
        return (shipped("rules").resolve(),)
    except FileNotFoundError:
        return ()


def trace_path(name: str, jobs: Path | None) -> Path:
    """The file meant by a job number, with or without its leading zeros, or a path. Raises NotAJobNumber."""
    if name.endswith(SUFFIX) or "/" in name:
        return Path(name)
    return job_meant(jobs or jobs_folder(), name)


def play_answers(
    knowledge: Knowledge,
    rules: Path,
    file: Path,
    jobs: Path | None,
    number: str | None,
    clock: Clock,
    system: str = "metric",
) -> dict[str, Any]:
    """Play a job from an answers file. Raises CannotPlay, RulesRefused for the file, and what a trace raises.

    Nothing is played, and no trace begun, when the file holds anything that the prompt would refuse.
    """
    # Here and not above: the first question of a talk does not wait for it.
    from expert.desk.answer_checks import refuse_silly_answers

    answers = load_answers(file, knowledge.base)
    refuse_silly_answers(knowledge, shop_of(knowledge, system), [answers])
    own = "" if answers.machine_type in knowledge.base.machines.values() else machine_text(answers.machine_type)
    knowledge = with_machine(knowledge, answers.machine_type)
    folder = jobs or jobs_folder()
    number = number or next_job_number(folder)
    path = job_path(folder, number)
    pin_rules(rules, folder, knowledge.base.digest)
    session, opening = Session.open(knowledge, shop_of(knowledge, system), path, number, clock, own)
    try:

        def say(line: str) -> tuple[Job, tuple[Record, ...]]:
            records = session.say(line)
            return session.job, records

        player = Player(Unattended(answers), say, list(opening))
        job = player.play(session.job)
    finally:
        session.close()
    return result_of(job, player.records, str(path))
