"""A job opened at this terminal, and talked through in plain lines or in the chat."""

from __future__ import annotations

import sys
from pathlib import Path

from expert.desk.opening import resume_command, under_a_number
from expert.desk.pinning import pin_rules
from expert.desk.profile.using import calibrations_due, profile_at_hand, shop_from, signing
from expert.desk.session import Session
from expert.engine.knowledge import Knowledge
from expert.terminal.leaving import told_when_ended
from expert.terminal.plain_lines import talk_plainly
from expert.trace.places import check_job_number, jobs_folder
from expert.trace.records import Record
from expert.trace.writing import Clock


def open_job(
    knowledge: Knowledge,
    rules: Path,
    jobs: Path | None,
    number: str | None,
    clock: Clock,
    plain: bool,
    system: str = "",
) -> None:
    """Open a job and talk it through at this terminal. The rules are kept beside the jobs for a later `resume`.

    `system`: units shown, "" as the shop's profile says. Raises RulesRefused when the profile cannot be used.
    """
    profile = profile_at_hand(knowledge.base)
    own, shop = shop_from(knowledge, profile, system)
    folder = jobs or jobs_folder()
    if number is not None:
        check_job_number(number)  # before anything is written
    pin_rules(rules, folder, knowledge.base.digest)

    def begin(path: Path, number: str) -> tuple[Session, tuple[Record, ...]]:
        return Session.open(own, shop, path, number, clock, shop_file=profile.text if profile else "")

    session, opening = under_a_number(folder, number, begin)
    if profile is not None:
        sys.stdout.write("".join(f"{line}\n" for line in calibrations_due(profile, own.base, clock().date())))
    session.is_resumed_by(resume_command(rules, session.writer.path))
    talk_through(session, opening, plain)


def talk_through(session: Session, opening: tuple[Record, ...], plain: bool) -> None:
    """Talk in the chat where there is a terminal, else in plain lines, until the job is over or left.

    Where the shop has a key, it signs the seal. Raises `signing.CannotSign` for one that cannot be used, before a word.
    """
    session.sign = signing()
    try:
        with told_when_ended():
            _talk_here(session, opening, plain)
    finally:
        session.close()


def somebody_is_there(plain: bool) -> bool:
    """Whether there is a terminal with somebody before it."""
    return not plain and sys.stdin.isatty() and sys.stdout.isatty()


def _talk_here(session: Session, opening: tuple[Record, ...], plain: bool) -> None:
    if not somebody_is_there(plain):
        talk_plainly(session, opening, iter(sys.stdin), sys.stdout)
    else:
        from expert.terminal.chat import talk_in_terminal

        talk_in_terminal(session, opening)
