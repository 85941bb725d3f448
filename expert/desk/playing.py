"""A job played from an answers file, with its trace."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from expert.desk.answer_checks import refuse_silly_answers
from expert.desk.opening import under_a_number
from expert.desk.pinning import pin_rules
from expert.desk.profile.using import profile_at_hand, shop_from
from expert.desk.result import result_of
from expert.desk.sentences import jobs as words
from expert.desk.session import Session
from expert.desk.unattended import CannotPlay, Player, with_machine
from expert.engine.knowledge import Knowledge
from expert.job.prompts.owner import Unattended
from expert.job.state.job import Job
from expert.language.worked.job_answers import load_answers
from expert.language.worked.machine_text import machine_text
from expert.trace.places import jobs_folder
from expert.trace.records import Record
from expert.trace.writing import Clock


def play_answers(
    knowledge: Knowledge,
    rules: Path,
    file: Path,
    jobs: Path | None,
    number: str | None,
    clock: Clock,
    system: str = "",
) -> dict[str, Any]:
    """Play a job from an answers file, in the shop of the profile where there is one.

    `system`: units shown, "" as the profile says. Raises CannotPlay, RulesRefused for the file or the profile, and what
    a trace raises. Nothing is played, and no trace begun, when the file holds anything that the prompt would refuse.
    """
    answers = load_answers(file, knowledge.base)
    profile = profile_at_hand(knowledge.base)
    own = "" if answers.machine_type in knowledge.base.machines.values() else machine_text(answers.machine_type)
    knowledge, shop = shop_from(with_machine(knowledge, answers.machine_type), profile, system)
    if shop.machines and answers.machine_type.id not in shop.machines:
        raise CannotPlay(words.machine_not_in_profile(answers.machine_type.id))
    refuse_silly_answers(knowledge, shop, [answers])
    folder = jobs or jobs_folder()
    pin_rules(rules, folder, knowledge.base.digest)

    def begin(path: Path, number: str) -> tuple[Session, tuple[Record, ...]]:
        return Session.open(knowledge, shop, path, number, clock, own, shop_file=profile.text if profile else "")

    session, opening = under_a_number(folder, number, begin)
    try:

        def say(line: str) -> tuple[Job, tuple[Record, ...]]:
            records = session.say(line)
            return session.job, records

        player = Player(Unattended(answers), say, list(opening))
        job = player.play(session.job)
    finally:
        session.close()
    return result_of(job, player.records, str(session.writer.path))
