"""The command line: parses words and calls the packages. Nothing is decided here.

Exit code 0: done; 1: ran, and found something wrong; 2: bad usage or bad input. Problems go to standard error.
Imports stand inside the commands, so that each starts without what it does not need.
"""

from __future__ import annotations

import json
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from expert.trade.counting import counted

if TYPE_CHECKING:
    from expert.engine.knowledge import Knowledge

RULES = click.option(
    "--rules", type=click.Path(path_type=Path), default=None, help="Folder of rule files [the shipped rules]."
)
JOBS = click.option("--jobs", type=click.Path(path_type=Path), default=None, help="Folder where jobs are kept.")
UNITS = click.option(
    "--units",
    type=click.Choice(["metric", "us"]),
    default="metric",
    show_default=True,
    envvar="EXPERT_UNITS",
    help="Units shown, and those of bare numbers at the prompt (or set EXPERT_UNITS).",
)


def now() -> datetime:
    return datetime.now(UTC)


def refuse(*messages: object) -> NoReturn:
    """Bad input: say why on standard error and leave with 2."""
    for message in messages:
        click.echo(str(message), err=True)
    sys.exit(2)


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 79})
@click.version_option(package_name="bench-expert", prog_name="expert")
def main() -> None:
    """From complaint to sealed trace: the bench expert for espresso machines.

    A machine comes in with a complaint. expert bench makes it safe, finds the part at fault, leads through the repair,
    has it proved, and leaves a record that can be audited.
    """


def load(rules: Path | None) -> Knowledge:
    """The rule base, ready for jobs; leaves with 2 and every problem when it is refused."""
    from expert.engine.knowledge import knowledge_of
    from expert.language.collecting import collector_resting
    from expert.language.load import load_rules
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped

    try:
        with collector_resting(for_good=True):
            return knowledge_of(load_rules(rules or shipped("rules")))
    except RulesRefused as refused:
        refuse(*refused.problems, f"{counted(len(refused.problems), 'problem')}: the rules are not used")
    except OSError as problem:
        refuse(problem)


@main.command()
@RULES
@JOBS
@click.option("--job", "number", default=None, help="Job number [the next free one].")
@click.option(
    "--answers", type=click.Path(path_type=Path), default=None, help="Play the job from an answers file (YAML)."
)
@click.option("--json", "as_json", is_flag=True, help="With --answers: print the outcome as one JSON object.")
@click.option("--plain", is_flag=True, help="Plain lines even at a terminal.")
@UNITS
def bench(
    rules: Path | None,
    jobs: Path | None,
    number: str | None,
    answers: Path | None,
    as_json: bool,
    plain: bool,
    units: str,
) -> None:
    """Open a job and talk it through, from intake to close.

    Answers are typed at the prompt; help lists what else can be typed. Every answer is on the disk before the next
    question appears.

    What an answers file holds, and each key that --json prints, stands in rules/README.md, under "Worked cases and
    answers files".
    """
    from expert.dialogue.opening import open_job, play_answers
    from expert.dialogue.outcome import in_words
    from expert.dialogue.unattended import CannotPlay
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped
    from expert.trace.errors import TraceError

    if as_json and answers is None:
        refuse("--json goes with --answers FILE")
    knowledge = load(rules)
    try:
        if answers is not None:
            result = play_answers(knowledge, rules or shipped("rules"), answers, jobs, number, now, units)
            click.echo(json.dumps(result, indent=2) if as_json else in_words(result))
        else:
            open_job(knowledge, rules or shipped("rules"), jobs, number, now, plain, units)
    except RulesRefused as refused:
        refuse(*refused.problems)
    except (TraceError, CannotPlay) as problem:
        refuse(problem)


@main.command()
@RULES
@JOBS
@click.option("--plain", is_flag=True, help="Plain lines even at a terminal.")
@click.argument("trace")
def resume(rules: Path | None, jobs: Path | None, plain: bool, trace: str) -> None:
    """Go on with a job where it stopped or crashed. TRACE is a job number or the path of a trace.

    The job keeps the units that it was opened with.
    """
    from expert.dialogue.opening import resume_job, trace_path
    from expert.language.shipped import shipped
    from expert.trace.errors import TraceError

    try:
        sys.exit(resume_job(load, rules or shipped("rules"), trace_path(trace, jobs), now, plain))
    except TraceError as problem:
        refuse(problem)


@main.command()
@click.argument("rules", type=click.Path(path_type=Path), required=False)
@click.option("--advice/--no-advice", default=True, help="Also tell what could be better.")
def check(rules: Path | None, advice: bool) -> None:
    """Verify a rule base: every problem with file, line and column.

    Exit code 2 when the rules are refused, else 0: advice is not wrong.
    """
    from expert.workbench.check import advice as advice_on

    base = load(rules).base
    found = advice_on(base) if advice else ()
    for problem in found:
        click.echo(str(problem), err=True)
    click.echo(
        f"{counted(len(base.rules), 'rule')}, {counted(len(base.questions), 'question')}, "
        f"{counted(len(base.faults), 'fault')} of {counted(len(base.parts), 'part')}: no problem, "
        f"{counted(len(found), 'piece of advice', 'pieces of advice')}"
    )


@main.command()
@click.argument("rules", type=click.Path(path_type=Path), required=False)
@click.option("--only", default="", help="Only cases whose name contains this.")
@click.option("--verbose", "-v", is_flag=True, help="Show the questions that each case asked.")
def cases(rules: Path | None, only: str, verbose: bool) -> None:
    """Run the worked cases of a rule base through the real dialogue."""
    from expert.dialogue.answer_checks import refuse_silly_answers
    from expert.dialogue.opening import shop_of
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped
    from expert.language.worked.cases import load_cases
    from expert.workbench.cases import run_case

    knowledge = load(rules)
    try:
        worked = [case for case in load_cases(rules or shipped("rules"), knowledge.base) if only in case.id]
        refuse_silly_answers(knowledge, shop_of(knowledge), [case.job for case in worked])
    except RulesRefused as refused:
        refuse(*refused.problems)
    failed = 0
    for case in worked:
        verdict = run_case(knowledge, shop_of(knowledge), case)
        failed += bool(verdict.problems)
        for problem in verdict.problems:
            click.echo(str(problem), err=True)
        if verbose:
            click.echo(f"{case.id}: {verdict.minutes:g} min: {', '.join(verdict.asked)}")
    click.echo(f"{counted(len(worked), 'case')}, {len(worked) - failed} as expected, {failed} not")
    sys.exit(1 if failed or not worked else 0)


@main.command(add_help_option=False, context_settings={"ignore_unknown_options": True})
@click.option("--list", "listed", is_flag=True, help="List the calculations by what they are about.")
@click.option("--json", "as_json", is_flag=True, help="The same as JSON.")
@click.option("--help", "helped", is_flag=True, help="This text; with NAME: formula, units, range and source.")
@UNITS
@click.argument("name", required=False)
@click.argument("values", nargs=-1, type=click.UNPROCESSED)
@click.pass_context
def figure(
    context: click.Context,
    listed: bool,
    as_json: bool,
    helped: bool,
    units: str,
    name: str | None,
    values: tuple[str, ...],
) -> None:
    """One of the trade calculations by itself: NAME and its VALUES, each with its unit.

    A bare number has the unit of the calculation; +- gives an uncertainty.

    \b
    expert figure element_resistance 230 V 1400 W
    expert figure boiler_temperature "1.2 bar +- 0.075" altitude=800m
    """
    from expert.workbench.figure import NOT_POSSIBLE, figure_page

    if helped and name is None:
        click.echo(context.get_help())
        return
    try:
        data, text = figure_page(name, values, listed, helped, units)
    except NOT_POSSIBLE as problem:
        refuse(problem)
    click.echo(json.dumps(data, indent=2, ensure_ascii=False) if as_json else text)


@main.command()
@RULES
@JOBS
@click.option("--rerun", is_flag=True, help="Also run the recorded lines again and compare.")
@click.option("--json", "as_json", is_flag=True, help="The same as one JSON object.")
@click.argument("trace")
def audit(rules: Path | None, jobs: Path | None, rerun: bool, as_json: bool, trace: str) -> None:
    """Verify a trace and tell its reasoning. TRACE is a job number or the path of a trace.

    Exit code 1 when the trace was changed, or when --rerun does not give the same job.
    """
    from expert.dialogue.opening import trace_path
    from expert.shop.audit import audit_as_data, audit_in_words, audit_trace, rules_at_hand, verdict_on
    from expert.trace.errors import TraceDamaged, TraceError

    try:
        path = trace_path(trace, jobs)
        base = load(rules).base if rules else rules_at_hand(path)
        result = audit_trace(path, base, (base or load(None).base) if rerun else None)
    except TraceDamaged as damage:
        click.echo(str(damage), err=True)
        sys.exit(1)
    except TraceError as problem:
        refuse(problem)
    # The story first, then what is wrong with it, then the verdict: in this order also where both go to one terminal.
    click.echo(json.dumps(audit_as_data(result), indent=2) if as_json else "\n".join(audit_in_words(result)))
    sys.stdout.flush()
    for found in result.problems:
        click.echo(str(found), err=True)
    if not as_json:
        click.echo(verdict_on(result))
    sys.exit(0 if result.is_good else 1)


@main.command()
@RULES
@click.option("--fast", is_flag=True, help="Without pauses.")
@click.option("--list", "listed", is_flag=True, help="List the demo jobs.")
@click.argument("name", required=False)
def demo(rules: Path | None, fast: bool, listed: bool, name: str | None) -> None:
    """Play a saved demo job through the real dialogue; nothing needs to be typed. NAME: which one [the first]."""
    from expert.dialogue.demo import NoSuchDemo, demo_named, listing, play_here
    from expert.language.shipped import shipped
    from expert.trace.errors import TraceError

    knowledge = load(rules)
    try:
        folder = shipped("transcripts_demo")
        if listed:
            click.echo("\n".join(listing(folder, knowledge)))
        else:
            play_here(demo_named(folder, name), knowledge, fast)
    except (TraceError, NoSuchDemo, FileNotFoundError) as problem:
        refuse(problem)
    except KeyboardInterrupt:
        click.echo("\nThe demo was stopped.")


if __name__ == "__main__":
    main()
