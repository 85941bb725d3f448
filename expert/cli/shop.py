"""For the shop: the audit of a trace, sums over many, and pages of both."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from expert.cli import sentences
from expert.cli.shared import JOBS, RULES, load, now, refuse
from expert.terminal.out import complain, say, say_data
from expert.trade.counting import counted

if TYPE_CHECKING:
    from expert.shop.sums.words import ShopSums


@click.command()
@RULES
@JOBS
@click.option("--rerun", is_flag=True, help="Also run the recorded lines again and compare.")
@click.option("--json", "as_json", is_flag=True, help="The same as one JSON object.")
@click.option("--of", "conclusion", default="", help="Only the tree of one conclusion: a fault, a finding or a rule.")
@click.option("--short", is_flag=True, help="The job on one screen.")
@click.argument("trace")
def audit(
    rules: Path | None, jobs: Path | None, rerun: bool, as_json: bool, conclusion: str, short: bool, trace: str
) -> None:
    """Verify a trace and tell its reasoning. TRACE is a job number or the path of a trace.

    Exit code 1 when the trace was changed, or when --rerun does not give the same job.
    """
    from expert.desk.opening import trace_path
    from expert.shop.audit import audit_as_data, audit_in_words, audit_trace, rules_at_hand, verdict_on
    from expert.trace.errors import TraceDamaged, TraceError

    try:
        path = trace_path(trace, jobs)
        base = load(rules).base if rules else rules_at_hand(path)
        result = audit_trace(path, base, (base or load(None).base) if rerun else None)
        if conclusion or short:
            from expert.shop.audit_views import one_in_words, short_in_words

            say("\n".join(one_in_words(result, conclusion) if conclusion else short_in_words(result)))
            sys.exit(0 if result.is_good else 1)
    except TraceDamaged as damage:
        complain(damage)
        sys.exit(1)
    except TraceError as problem:
        refuse(problem)
    # The story first, then what is wrong with it, then the verdict: in this order also where both go to one terminal.
    say_data(audit_as_data(result)) if as_json else say("\n".join(audit_in_words(result)))
    sys.stdout.flush()
    for found in result.problems:
        complain(found)
    if not as_json:
        say(verdict_on(result))
    sys.exit(0 if result.is_good else 1)


DAY = click.DateTime(["%Y-%m-%d"])


@click.command()
@RULES
@click.option("--since", type=DAY, default=None, help="Only jobs opened on this day (such as 2026-01-31) or later.")
@click.option("--until", type=DAY, default=None, help="Only jobs opened on this day or earlier.")
@click.option("--machine", default="", help="Only machine types whose name contains this.")
@click.option("--technician", default="", help="Only technicians whose name contains this.")
@click.option("--of", "purpose", type=click.Choice(["real", "invented", "practice"]), default=None, help="Which jobs.")
@click.option("--all", "everything", is_flag=True, help="Whole lists, not only their beginnings.")
@click.option("--json", "as_json", is_flag=True, help="The same as one JSON object.")
@click.option("--csv", "csv_folder", type=click.Path(path_type=Path), default=None, help="Write CSV files there.")
@click.option("--frequencies", is_flag=True, help="Propose how often each fault is seen, as an edit of the rules.")
@click.option(
    "--redact", type=click.Path(path_type=Path), default=None, help="Copy the traces there without free text."
)
@click.option("--set-up", is_flag=True, help="Say the shop's profile: country, people, machines, instruments.")
@click.argument("folder", type=click.Path(path_type=Path), required=False)
def shop(
    rules: Path | None,
    since: datetime | None,
    until: datetime | None,
    machine: str,
    technician: str,
    purpose: str | None,
    everything: bool,
    as_json: bool,
    csv_folder: Path | None,
    frequencies: bool,
    redact: Path | None,
    set_up: bool,
    folder: Path | None,
) -> None:
    """Sums over many jobs: the traces in FOLDER [the folder where jobs are kept].

    Jobs by outcome, faults by frequency, questions that make trouble, stops, live work, parts, come-backs. The first
    reading takes a while; afterwards only new and changed traces are read.
    """
    from expert.shop.sums.filters import Filters
    from expert.shop.sums.words import as_data, in_words, write_csv
    from expert.shop.sums.working_out import sums_of

    if set_up:
        _set_up(rules)
        return
    if redact is not None:
        _redact(folder, redact)
        return
    filters = Filters(since.date() if since else None, until.date() if until else None, machine, technician)
    try:
        sums = sums_of(folder, rules, replace(filters, purpose=purpose or ""), lambda place: load(place).base)
        if frequencies:
            _propose(sums, rules)
            return
        if csv_folder is not None:
            written = write_csv(sums, csv_folder)
            say(f"{counted(len(written), 'file')} in {csv_folder}")
            return
    except OSError as problem:
        refuse(problem)
    if as_json:
        say_data(as_data(sums))
    else:
        say("\n".join(in_words(sums, everything)))


@click.command()
@RULES
@JOBS
@click.option("--out", type=click.Path(path_type=Path), default=None, help="The file to write [report-NAME.html here].")
@click.option("--slip", is_flag=True, help="The customer's slip alone: plain text here, or a page with --out.")
@click.argument("path", required=False)
def report(rules: Path | None, jobs: Path | None, out: Path | None, slip: bool, path: str | None) -> None:
    """A page to look at or print. PATH: a job number, a trace, or a folder of traces [where jobs are kept].

    One file with nothing fetched and no script: for a job its story, circuits, readings and safety confirmations, for
    a folder the sums as charts.
    """
    from expert.desk.opening import trace_path
    from expert.shop.report.making import job_page, shop_page, slip_page, slip_text
    from expert.shop.sums.filters import Filters
    from expert.trace.errors import TraceError

    try:
        if path is None or Path(path).is_dir():
            if slip:
                refuse(sentences.SLIP_GOES_WITH_A_JOB)
            folder = Path(path) if path else jobs
            made, name = shop_page(folder, rules, Filters(), lambda place: load(place).base), "shop"
        else:
            trace = trace_path(path, jobs)
            if slip and out is None:
                say(slip_text(trace).rstrip("\n"))
                return
            made, name = (slip_page if slip else job_page)(trace), trace.stem
        target = out or Path(f"report-{name}.html")
        target.write_text(made, encoding="utf-8")
    except (OSError, TraceError) as problem:
        refuse(problem)
    say(f"Written: {target}")


def _set_up(rules: Path | None) -> None:
    """Ask for the profile and write it; a profile that cannot be read is not overwritten unseen."""
    from expert.desk.profile.setting_up import set_up
    from expert.desk.profile.using import profile_at_hand, profile_path
    from expert.desk.profile.writing import write_profile
    from expert.language.problems import RulesRefused
    from expert.trace.cleaning import clean

    base = load(rules).base
    try:
        before = profile_at_hand(base)
        text = set_up(lambda question: clean(input(question)), say, base, before)
        write_profile(profile_path(), text)
    except RulesRefused as refused:
        refuse(*refused.problems, sentences.mend_or_move_away(profile_path()))
    except EOFError:
        refuse(sentences.NOTHING_WAS_WRITTEN)
    except OSError as problem:
        refuse(problem)
    say(f"Written: {profile_path()}")


@click.command()
@RULES
@JOBS
@click.option("--by", default="", help="Who reviews.")
@click.option("--verdict", type=click.Choice(["right", "lucky", "wrong", "unsafe"]), default=None, help="The verdict.")
@click.option("--true-fault", default="", help="The fault that it really was, by its id, where that is known.")
@click.option("--remark", "remarks", multiple=True, help="QUESTION-OR-RULE: TEXT; may be given several times.")
@click.option("--make-key", is_flag=True, help="Make the shop's key, which signs reviews and seals from then on.")
@click.argument("trace", required=False)
def review(
    rules: Path | None,
    jobs: Path | None,
    by: str,
    verdict: str | None,
    true_fault: str,
    remarks: tuple[str, ...],
    make_key: bool,
    trace: str | None,
) -> None:
    """A senior's word on a closed job. TRACE is a job number or the path of a trace.

    With --verdict a review is added beside the sealed trace, which stays as it is; without, the reviews are shown.
    Exit code 1 when a review cannot be relied on.
    """
    from expert.shop.review.command import NotAReview, key_made, review_added, reviews_in_words
    from expert.trace.errors import TraceError
    from expert.trace.signing import CannotSign

    try:
        if make_key:
            say(key_made())
            return
        if trace is None:
            refuse(sentences.WHICH_JOB_BEHIND_REVIEW)
        from expert.desk.opening import trace_path

        path = trace_path(trace, jobs)
        if verdict is not None:
            say(review_added(path, now(), by, verdict, true_fault, remarks, load(rules).base))
            return
        lines, good = reviews_in_words(path)
    except (TraceError, CannotSign, NotAReview, OSError) as problem:
        refuse(problem)
    say("\n".join(lines))
    sys.exit(0 if good else 1)


def _redact(folder: Path | None, out: Path) -> None:
    """Copy the traces of a folder for sharing."""
    from expert.shop.redacting import redact_folder
    from expert.trace.errors import TraceError
    from expert.trace.places import jobs_folder

    try:
        written = redact_folder(folder or jobs_folder(), out)
    except (OSError, TraceError) as problem:
        refuse(problem)
    say(sentences.copied_without_names(counted(len(written), "trace"), out))


def _propose(sums: ShopSums, rules: Path | None) -> None:
    """Print the edit that the jobs speak for; nothing is written."""
    from expert.language.shipped import shipped
    from expert.shop.sums.frequencies import as_edit, proposals

    base = load(rules).base
    times = next({row[0]: row[2] for row in total.rows} for total in sums.totals if total.of.key == "faults")
    found = proposals(base, times)
    if not found:
        complain(sentences.nothing_speaks_against(counted(sum(times.values()), "fault")))
        return
    for one in found:
        complain(sentences.seen_how_often(one.fault, one.now, counted(one.times, "time"), one.proposed))
    say(as_edit(base, rules or shipped("rules"), found).rstrip("\n"))
