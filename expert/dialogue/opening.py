"""Where a job meets the outside: its file, its terminal, its answers file."""

from __future__ import annotations

import io
import os
import shlex
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from expert.dialogue.job import Job, Shop
from expert.dialogue.outcome import outcome_of
from expert.dialogue.pinning import files_changed, pin_rules, pinned_folder
from expert.dialogue.plain import talk_plainly
from expert.dialogue.replay import opened_of, rerun
from expert.dialogue.session import Session
from expert.dialogue.unattended import Player, with_machine
from expert.engine.knowledge import Knowledge
from expert.language.printing.rule_base import print_machine
from expert.language.shipped import shipped
from expert.language.worked.job_answers import load_answers
from expert.trace.errors import TraceNotRead, TraceSealed
from expert.trace.places import SUFFIX, job_path, jobs_folder, next_job_number
from expert.trace.reading import Trace, read_trace
from expert.trace.records import Record
from expert.trace.verifying import refuse_damage
from expert.trace.writing import Clock
from expert.trade.counting import counted


def shop_of(knowledge: Knowledge, system: str = "metric") -> Shop:
    """The shop owns the instruments of the rules' instruments file that it has not marked as missing.

    system: metric or us, the units shown.
    """
    owned = (instrument.id for instrument in knowledge.base.instruments.values() if instrument.owned)
    return Shop(frozenset(owned), system)


def open_job(
    knowledge: Knowledge,
    rules: Path,
    jobs: Path | None,
    number: str | None,
    clock: Clock,
    plain: bool,
    system: str = "metric",
) -> None:
    """Open a job and talk it through at this terminal. The rules are kept beside the jobs for a later `resume`."""
    folder = jobs or jobs_folder()
    number = number or next_job_number(folder)
    path = job_path(folder, number)
    pin_rules(rules, folder, knowledge.base.digest)
    session, opening = Session.open(knowledge, shop_of(knowledge, system), path, number, clock)
    session.is_resumed_by(resume_command(rules, path))
    _talk(session, opening, plain)


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
        sys.stdout.write(f"The rules were edited since this job was opened. Files changed: {', '.join(changed)}.\n")
        sys.stdout.write("The job goes on with the rules of that time.\n")
    knowledge = load(kept if changed else rules)
    if not changed and opened.rules_digest != knowledge.base.digest:
        return _show_differences(knowledge, trace)
    session, opening = Session.resume(knowledge, path, clock)
    session.is_resumed_by(resume_command(rules, path))
    _talk(session, opening, plain)
    return 0


def _show_differences(knowledge: Knowledge, trace: Trace) -> int:
    differences = rerun(knowledge, trace).differences
    sys.stderr.write("The rules were edited since this job was opened, and those of that time were not kept.\n")
    sys.stderr.write(f"With the rules at hand the job would {_how_much(len(differences))}\n")
    for difference in differences[:20]:
        sys.stderr.write(f"  {difference}\n")
    sys.stderr.write("Nothing was changed. Name the rules of that time with --rules, or open a new job.\n")
    return 1


def _how_much(differences: int) -> str:
    if not differences:
        return "not differ so far."
    return f"differ in {counted(differences, 'place')}:"


def trace_path(name: str, jobs: Path | None) -> Path:
    """The file meant by a job number or a path. Raises NotAJobNumber."""
    if name.endswith(SUFFIX) or "/" in name:
        return Path(name)
    return job_path(jobs or jobs_folder(), name)


def _talk(session: Session, opening: tuple[Record, ...], plain: bool) -> None:
    try:
        if plain or not (sys.stdin.isatty() and sys.stdout.isatty()):
            _take_any_bytes()
            talk_plainly(session, opening, iter(sys.stdin), sys.stdout)
        else:
            from expert.dialogue.chat import talk_in_terminal

            talk_in_terminal(session, opening)
    finally:
        session.close()


def _take_any_bytes() -> None:
    """Bytes that are no text become a replacement character, and what the output cannot show a question mark."""
    for stream in (sys.stdin, sys.stdout):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


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
    from expert.dialogue.answer_checks import refuse_silly_answers

    answers = load_answers(file, knowledge.base)
    refuse_silly_answers(knowledge, shop_of(knowledge, system), [answers])
    own = "" if answers.machine_type in knowledge.base.machines.values() else print_machine(answers.machine_type)
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

        player = Player(answers, say, list(opening))
        job = player.play(session.job)
    finally:
        session.close()
    return outcome_of(job, player.records, str(path))
