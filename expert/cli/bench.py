"""For whoever stands at the bench: open a job, go on with one, watch a demo."""

from __future__ import annotations

import shlex
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from expert.cli import sentences
from expert.cli.shared import JOBS, RULES, UNITS_OR_PROFILE, load, now, refuse
from expert.terminal.out import say, say_data
from expert.trade.counting import counted

if TYPE_CHECKING:
    from expert.desk.job_list import JobEntry

MOST_CLOSED = 20
MOST_OPEN = 40  # more than a bench has at a time; a folder of thousands is listed at once all the same


@click.command()
@RULES
@JOBS
@click.option("--job", "number", default=None, help="Job number [the next free one].")
@click.option(
    "--answers", type=click.Path(path_type=Path), default=None, help="Play the job from an answers file (YAML)."
)
@click.option("--json", "as_json", is_flag=True, help="With --answers: print the outcome as one JSON object.")
@click.option("--plain", is_flag=True, help="Plain lines even at a terminal.")
@UNITS_OR_PROFILE
def bench(
    rules: Path | None,
    jobs: Path | None,
    number: str | None,
    answers: Path | None,
    as_json: bool,
    plain: bool,
    units: str | None,
) -> None:
    """Open a job and talk it through, from intake to close.

    Answers are typed at the prompt; help lists what else can be typed. Every answer is on the disk before the next
    question appears.

    What the shop's profile says (expert shop --set-up) is not asked, and holds for a job from an answers file as well.

    What an answers file holds, and each key that --json prints, stands in rules/README.md, under "Worked cases and
    answers files".
    """
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped
    from expert.terminal.talking import open_job
    from expert.trace.errors import TraceError

    if as_json and answers is None:
        refuse(sentences.JSON_GOES_WITH_ANSWERS)
    if answers is not None:
        _play(rules, jobs, number, answers, as_json, units or "")
        return
    try:
        open_job(load(rules), rules or shipped("rules"), jobs, number, now, plain, units or "")
    except RulesRefused as refused:
        refuse(*refused.problems)
    except TraceError as problem:
        refuse(problem)


def _play(rules: Path | None, jobs: Path | None, number: str | None, answers: Path, as_json: bool, units: str) -> None:
    """Play a job from an answers file, and say how it ended."""
    from expert.desk.playing import play_answers
    from expert.desk.result import in_words
    from expert.desk.unattended import CannotPlay
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped
    from expert.trace.errors import TraceError

    try:
        result = play_answers(load(rules), rules or shipped("rules"), answers, jobs, number, now, units)
    except RulesRefused as refused:
        refuse(*refused.problems)
    except (TraceError, CannotPlay) as problem:
        refuse(problem)
    say_data(result) if as_json else say(in_words(result))


@click.command()
@RULES
@JOBS
@click.option("--plain", is_flag=True, help="Plain lines even at a terminal.")
@click.option("--today", is_flag=True, help="With today's rules, and all that they decide otherwise.")
@click.argument("trace", required=False)
def resume(rules: Path | None, jobs: Path | None, plain: bool, today: bool, trace: str | None) -> None:
    """Go on with a job where it stopped or crashed. TRACE is a job number or the path of a trace.

    Without TRACE the open jobs are offered. The job keeps the rules and the units that it was opened with; with --today
    it goes on with the rules as they are now, all answers kept, and says what they decide otherwise.
    """
    from expert.desk.opening import trace_path
    from expert.language.shipped import shipped
    from expert.terminal.resuming import resume_job
    from expert.trace.errors import TraceError

    trace = trace or _chosen(rules, jobs)
    try:
        sys.exit(resume_job(load, rules or shipped("rules"), trace_path(trace, jobs), now, plain, today))
    except TraceError as problem:
        refuse(problem)


def _invent(folder: Path, count: int, seed: int) -> None:
    """Make a season, with a bar where somebody looks, and say what to look at then."""
    from expert.practice.invented import invent
    from expert.shop.review.invented import review_invented
    from expert.shop.sums.working_out import progress_shown

    try:
        with progress_shown("Playing jobs") as progress:
            truths = invent(folder, count, seed, progress)
        review_invented(folder, ((truth.number, truth.verdict, truth.fault) for truth in truths))
    except OSError as problem:
        refuse(problem)
    where = shlex.quote(str(folder))
    say(sentences.invented_jobs(count, folder, where))


def _chosen(rules: Path | None, jobs: Path | None) -> str:
    """The job that is picked from the open ones; leaves when there is none, or nobody to pick."""
    from expert.desk.job_list import DAMAGED, in_words, open_jobs
    from expert.language.shipped import shipped
    from expert.trace.places import jobs_folder

    folder = jobs or jobs_folder()
    latest, more = open_jobs(folder, MOST_OPEN)
    entries = _by_now((entry for entry in latest if entry.status != DAMAGED), rules)
    if not entries:
        refuse(sentences.no_job_is_open(folder))
    say("\n".join(in_words(entries, rules or shipped("rules"))))
    if more:
        say(sentences.and_more_open(counted(more, "open job")))
    if not sys.stdin.isatty():
        refuse(sentences.WHICH_ONE_BEHIND_RESUME)
    try:
        answer = input(sentences.WHICH_JOB).strip()
    except (EOFError, KeyboardInterrupt):
        answer = ""
    if not answer:
        sys.exit(0)
    return answer


def _by_now(entries: Iterable[JobEntry], rules: Path | None) -> tuple[JobEntry, ...]:
    """The jobs with what has become of their machines; as they were left, where the rules cannot be read now."""
    from expert.desk.compiled import knowledge_in
    from expert.desk.job_list import by_now
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped

    listed = tuple(entries)
    try:
        return by_now(listed, knowledge_in(rules or shipped("rules")).base.bench) if listed else ()
    except RulesRefused:
        return listed


@click.command()
@RULES
@JOBS
@click.option("--closed", "closed", is_flag=True, help="Also the twenty jobs closed last.")
@click.option("--all", "everything", is_flag=True, help="All open jobs, not only the forty touched last.")
@click.option("--json", "as_json", is_flag=True, help="The same as one JSON object.")
def jobs(rules: Path | None, jobs: Path | None, closed: bool, everything: bool, as_json: bool) -> None:
    """The open jobs: what each waits for, and in what state its machine was left.

    A line that begins with ! is a machine left plugged in.
    """
    from expert.desk.job_list import as_data, closed_jobs, in_words, open_jobs
    from expert.language.shipped import shipped
    from expert.trace.places import jobs_folder

    folder = jobs or jobs_folder()
    latest, more = open_jobs(folder, None if everything else MOST_OPEN)
    still_open = _by_now(latest, rules)
    entries = (*still_open, *(closed_jobs(folder, MOST_CLOSED) if closed else ()))
    if as_json:
        say_data({"folder": str(folder), "jobs": as_data(entries), "open_left_off": more})
        return
    say("\n".join(in_words(still_open, rules or shipped("rules"))) or sentences.no_job_is_open_2(folder))
    if more:
        say(sentences.and_more_open(counted(more, "open job")))
    if entries[len(still_open) :]:
        say("\n".join(in_words(entries[len(still_open) :], rules or shipped("rules"))))


@click.command()
@RULES
@click.option("--fast", is_flag=True, help="Without pauses.")
@click.option("--list", "listed", is_flag=True, help="List the demo jobs.")
@click.option("--season", type=click.Path(path_type=Path), default=None, help="Make a season of invented jobs there.")
@click.option("--count", type=click.IntRange(1, 2000), default=20, show_default=True, help="Jobs of the season.")
@click.option("--seed", type=int, default=1, show_default=True, help="The same seed gives the same season.")
@click.argument("name", required=False)
def demo(
    rules: Path | None, fast: bool, listed: bool, season: Path | None, count: int, seed: int, name: str | None
) -> None:
    """Play a saved demo job through the real dialogue; nothing needs to be typed. NAME: which one [the first].

    With --season FOLDER: invented jobs of simulated machines, for a first look at the sums and the report.
    """
    if season is not None:
        _invent(season, count, seed)
        return
    from expert.language.shipped import shipped
    from expert.terminal.demo import NoSuchDemo, demo_named, listing, play_here
    from expert.trace.errors import TraceError

    knowledge = load(rules)
    try:
        folder = shipped("transcripts_demo")
        if listed:
            say("\n".join(listing(folder, knowledge)))
        else:
            play_here(demo_named(folder, name), knowledge, fast)
    except (TraceError, NoSuchDemo, FileNotFoundError) as problem:
        refuse(problem)
    except KeyboardInterrupt:
        say(sentences.DEMO_STOPPED)
