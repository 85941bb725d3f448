"""A job taken up again at this terminal: with the rules it goes by, or with today's where somebody chooses so."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from expert.desk.opening import resume_command
from expert.desk.pinning import files_changed, pin_rules, pinned_folder
from expert.desk.replay import Rerun, opened_of, rerun, rules_of
from expert.desk.session import Session
from expert.desk.taking_up import RulesDiffer, TraceDiffers, take_up
from expert.engine.knowledge import Knowledge
from expert.terminal import sentences
from expert.terminal.out import complain, say
from expert.terminal.plain_lines import WIDTH, wrapped
from expert.terminal.talking import somebody_is_there, talk_through
from expert.trace.errors import TraceNotRead
from expert.trace.places import SUFFIX
from expert.trace.records import Found, Record
from expert.trace.writing import Clock, TraceWriter
from expert.trade.counting import counted

MOST_SHOWN = 20


def resume_job(
    load: Callable[[Path], Knowledge], rules: Path, path: Path, clock: Clock, plain: bool, today: bool = False
) -> int:
    """Go on with a job. Rules edited meanwhile do not touch it when those it goes by were kept.

    today: go on with the rules at hand and with all that this program decides otherwise. Gives 0, or 1 when something
    would be decided otherwise and nobody was there to choose: then nothing is written, and the differences are shown.
    """
    writer = TraceWriter.go_on(path, clock)
    try:
        if not writer.trace.lines:
            number = path.name.removesuffix(SUFFIX)
            raise TraceNotRead(sentences.holds_no_answer(path, number))
        opened_of(writer.trace)
        taken_up = _take_up(writer, load, rules, somebody_is_there(plain), today)
    except BaseException:
        writer.close()
        raise
    if taken_up is None:
        writer.close()
        return 1
    session, opening = taken_up
    session.is_resumed_by(resume_command(rules, path))
    talk_through(session, opening, plain)
    return 0


def _take_up(
    writer: TraceWriter, load: Callable[[Path], Knowledge], rules: Path, asks: bool, today: bool
) -> tuple[Session, tuple[Record, ...]] | None:
    """The job, waiting again; None when it cannot go on as it is and nobody chose to go on otherwise."""
    digest = rules_of(writer.trace)
    kept = pinned_folder(writer.path.parent, digest)
    changed = files_changed(kept, rules) if kept.is_dir() else ()
    if changed and not today:
        today = _today_is_chosen(changed, resume_command(rules, writer.path), asks)
    # The rules at hand are not even read otherwise: a job on the bench must not wait until an edit of them is right.
    knowledge = load(kept if changed and not today else rules)
    again = rerun(knowledge, writer.trace, choose_anew=False)
    if changed and not today and knowledge.base.digest != digest:
        raise RulesDiffer(digest, knowledge.base.digest)  # somebody edited the kept ones
    same_rules = knowledge.base.digest == digest
    if again.decided or not same_rules:
        if not (today or _accepted(again, same_rules, writer.path, asks)):
            return None
        if today:
            _tell_what_changes(again)
        pin_rules(rules, writer.path.parent, knowledge.base.digest)
    elif again.reworded:
        places = counted(len(again.reworded), "place")
        say(sentences.reads_differently(places))
    return take_up(writer, knowledge, again, accept=bool(again.decided) or not same_rules)


def _today_is_chosen(changed: tuple[str, ...], command: str, asks: bool) -> bool:
    """Whether to go on with today's rules, where those of the job were kept: only if somebody says so."""
    say(sentences.files_changed(sentences.RULES_WERE_EDITED, ", ".join(changed)))
    if asks:
        return _answered(sentences.THAT_TIME_OR_TODAY, "today")
    say(sentences.RULES_OF_THAT_TIME)
    say(sentences.HOW_TO_TODAY.format(command=command.replace("expert resume", "expert resume --today", 1)))
    return False


def _accepted(again: Rerun, same_rules: bool, path: Path, asks: bool) -> bool:
    """Whether to go on although this program, or the only rules there are, decide otherwise. Raises TraceDiffers."""
    if not again.decided:
        say(sentences.not_kept_and_goes_on(sentences.RULES_WERE_EDITED))
        return True
    if same_rules and not asks:
        raise TraceDiffers(path, again.decided[0])
    if not same_rules:
        complain(sentences.not_kept(sentences.RULES_WERE_EDITED))
    else:
        complain(sentences.ANOTHER_PROGRAM)
    _list(again, complain)
    if asks:
        return _answered(sentences.go_on_all_the_same(sentences.ANSWERS_ARE_KEPT), "yes")
    complain(sentences.NOTHING_WAS_CHANGED)
    return False


def _tell_what_changes(again: Rerun) -> None:
    if again.decided:
        _list(again, say)
    else:
        say(sentences.NOTHING_OTHERWISE_SO_FAR)
    say(sentences.goes_on_with_todays_rules(sentences.ANSWERS_ARE_KEPT))


def _list(again: Rerun, tell: Callable[[str], None]) -> None:
    for fault in faults_gone(again):
        tell(sentences.no_longer_found(fault))
    tell(sentences.decided_otherwise(counted(len(again.decided), "place")))
    for difference in again.decided[:MOST_SHOWN]:
        for line in wrapped(f"  {difference}", WIDTH):
            tell(line)
    if len(again.decided) > MOST_SHOWN:
        tell(f"  and {len(again.decided) - MOST_SHOWN} more")


def faults_gone(again: Rerun) -> list[str]:
    """Faults that the record says were found and that do not hold any more, by name where these rules have one."""
    job = again.job
    found = dict.fromkeys(
        one.recorded.fault
        for one in again.decided
        if isinstance(one.recorded, Found) and one.recorded.standing == "found"
    )
    known = job.base.faults
    gone = [fault for fault in found if fault not in known or job.state.possible(fault) != ("present",)]
    return [job.fault_name(fault) if fault in known else fault for fault in gone]


def _answered(question: str, word: str) -> bool:
    try:
        return input(question).strip().casefold() == word
    except (EOFError, KeyboardInterrupt):
        return False
