"""A job at this terminal: opened or taken up again, and talked through in plain lines or in the chat."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path

from expert.desk.opening import resume_command
from expert.desk.pinning import files_changed, pin_rules, pinned_folder
from expert.desk.profile.using import calibrations_due, profile_at_hand, shop_from
from expert.desk.replay import opened_of, rerun
from expert.desk.session import Session
from expert.engine.knowledge import Knowledge
from expert.terminal.leaving import told_when_ended
from expert.terminal.out import complain, say
from expert.terminal.plain import talk_plainly
from expert.trace.errors import TraceNotRead, TraceSealed
from expert.trace.places import SUFFIX, job_path, jobs_folder, next_job_number
from expert.trace.reading import Trace, read_trace
from expert.trace.records import Record
from expert.trace.verifying import refuse_damage
from expert.trace.writing import Clock
from expert.trade.counting import counted


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
    number = number or next_job_number(folder)
    path = job_path(folder, number)
    pin_rules(rules, folder, knowledge.base.digest)
    session, opening = Session.open(own, shop, path, number, clock, shop_file=profile.text if profile else "")
    if profile is not None:
        sys.stdout.write("".join(f"{line}\n" for line in calibrations_due(profile, own.base, clock().date())))
    session.is_resumed_by(resume_command(rules, path))
    _talk(session, opening, plain)


def resume_job(load: Callable[[Path], Knowledge], rules: Path, path: Path, clock: Clock, plain: bool) -> int:
    """Go on with a job. Rules edited meanwhile do not touch it when those of its opening were kept.

    Gives 0, or 1 when they were not kept and the rules at hand would have led elsewhere: then nothing is written, and
    the differences are shown.
    """
    if not os.path.isfile(path):
        raise TraceNotRead(f"{path} is not there: there is no such job to go on with")
    trace = read_trace(path)
    refuse_damage(trace)
    if trace.is_sealed:
        raise TraceSealed(f"{path} is sealed: the job is closed, and nothing can be added to it")
    if not trace.lines:
        number = path.name.removesuffix(SUFFIX)
        raise TraceNotRead(f"{path} holds no answer yet. Open the job again with: expert bench --job {number}")
    opened = opened_of(trace)
    kept = pinned_folder(path.parent, opened.rules_digest)
    changed = files_changed(kept, rules) if kept.is_dir() else ()
    if changed:
        # The rules at hand are not even read: a job on the bench must not wait until an edit of them is right.
        say(f"The rules were edited since this job was opened. Files changed: {', '.join(changed)}.")
        say("The job goes on with the rules of that time.")
    knowledge = load(kept if changed else rules)
    if not changed and opened.rules_digest != knowledge.base.digest:
        return _show_differences(knowledge, trace)
    session, opening = Session.resume(knowledge, path, clock)
    session.is_resumed_by(resume_command(rules, path))
    _talk(session, opening, plain)
    return 0


def _show_differences(knowledge: Knowledge, trace: Trace) -> int:
    differences = rerun(knowledge, trace).differences
    complain("The rules were edited since this job was opened, and those of that time were not kept.")
    complain(f"With the rules at hand the job would {_how_much(len(differences))}")
    for difference in differences[:20]:
        complain(f"  {difference}")
    complain("Nothing was changed. Name the rules of that time with --rules, or open a new job.")
    return 1


def _how_much(differences: int) -> str:
    if not differences:
        return "not differ so far."
    return f"differ in {counted(differences, 'place')}:"


def _talk(session: Session, opening: tuple[Record, ...], plain: bool) -> None:
    try:
        with told_when_ended():
            _talk_here(session, opening, plain)
    finally:
        session.close()


def _talk_here(session: Session, opening: tuple[Record, ...], plain: bool) -> None:
    if plain or not (sys.stdin.isatty() and sys.stdout.isatty()):
        talk_plainly(session, opening, iter(sys.stdin), sys.stdout)
    else:
        from expert.terminal.chat import talk_in_terminal

        talk_in_terminal(session, opening)
