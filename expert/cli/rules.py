"""For whoever edits the rules: play their worked cases."""

from __future__ import annotations

import sys
from functools import reduce
from operator import or_
from pathlib import Path
from typing import TYPE_CHECKING

import click

from expert.cli import sentences
from expert.cli.shared import load, refuse
from expert.terminal.out import complain, say
from expert.trade.counting import counted

if TYPE_CHECKING:
    from expert.engine.knowledge import Knowledge


@click.command()
@click.argument("rules", type=click.Path(path_type=Path), required=False)
@click.option("--only", default="", help="Only cases whose name contains this.")
@click.option("--changed", is_flag=True, help="Only cases touched by what was edited since they last came out right.")
@click.option("--coverage", "covered", is_flag=True, help="What of the rules came up, and what never did.")
@click.option("--new", "trace", default=None, metavar="TRACE", help="Turn a saved job into a case, and print it.")
@click.option("--verbose", "-v", is_flag=True, help="Show the questions that each case asked.")
def cases(rules: Path | None, only: str, changed: bool, covered: bool, trace: str | None, verbose: bool) -> None:
    """Run the worked cases of a rule base through the real dialogue, on all cores.

    A case that fails says where it left its path: by which rule, after which answer. TRACE of --new is a job number or
    the path of a trace.
    """
    from expert.desk.answer_checks import refuse_silly_answers
    from expert.desk.opening import shop_of
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped
    from expert.language.worked.cases import load_cases
    from expert.language.worked.readings import load_readings
    from expert.workbench.case_runs.came_up import NOTHING, coverage
    from expert.workbench.case_runs.changed import changed_meanings, meanings_in
    from expert.workbench.case_runs.cores import verdicts
    from expert.workbench.case_runs.meant import misread
    from expert.workbench.case_runs.remembered import Remembered, memory_file

    knowledge, folder = load(rules), rules or shipped("rules")
    if trace is not None:
        print_case(knowledge, trace)
        return
    shop = shop_of(knowledge)
    try:
        readings = [one for one in load_readings(folder, knowledge.base) if only in one.question]
        worked = [case for case in load_cases(folder, knowledge.base) if only in case.id]
        refuse_silly_answers(knowledge, shop, [case.job for case in worked])
    except RulesRefused as refused:
        refuse(*refused.problems)
    wrong = tuple(misread(knowledge.base, readings))
    for problem in wrong:
        complain(problem)
    remembered = Remembered(memory_file(folder), knowledge)
    to_run = remembered.touched(worked) if changed else worked
    done = []
    for verdict in verdicts(knowledge, shop, to_run):
        done.append(verdict)
        for problem in verdict.problems:
            complain(problem)
        if verbose:
            say(
                sentences.case_and_its_questions(
                    verdict.case.id, verdict.result.minutes, ", ".join(verdict.result.asked)
                )
            )
    failed = sum(bool(verdict.problems) for verdict in done)
    if changed and remembered.meanings:
        for note in changed_meanings(knowledge.base, remembered.meanings):
            say(str(note) if note.at.path else note.message)
    try:
        remembered.keep(done, None if failed or wrong or only else meanings_in(knowledge.base))
    except OSError as problem:
        complain(sentences.run_is_not_remembered(problem))
    if covered:
        for line in coverage(knowledge.base, reduce(or_, (v.result.came_up for v in done), NOTHING)):
            say(line)
    left = sentences.not_touched(len(worked) - len(done)) if changed else ""
    if readings:
        say(sentences.cases_counted(counted(len(readings), "worked reading"), len(readings) - len(wrong), len(wrong)))
    say(sentences.changed_cases_counted(counted(len(worked), "case"), left, len(done) - failed, failed))
    sys.exit(1 if failed or wrong or not (worked or readings) else 0)


def print_case(knowledge: Knowledge, trace: str) -> None:
    """A saved job as the text of a cases file."""
    from expert.desk.opening import trace_path
    from expert.trace.errors import TraceError
    from expert.trace.reading import read_trace
    from expert.workbench.case_runs.new_case import NoCase, case_from

    try:
        say(case_from(read_trace(trace_path(trace, None)), knowledge.base).rstrip())
    except (TraceError, NoCase) as problem:
        refuse(problem)
