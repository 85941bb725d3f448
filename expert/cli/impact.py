"""For whoever edits the rules: what the edit would have changed in saved jobs."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from expert.cli.shared import RULES, refuse
from expert.terminal.out import say

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from expert.workbench.impact.running import Outcome, Task


@click.command()
@RULES
@click.option("--against", default=None, metavar="DIR|GIT-REV", help="The rules of before [those pinned in each job].")
@click.option("--dask", "address", default=None, metavar="ADDRESS", help="Run on a dask.distributed cluster.")
@click.option("--cores", type=click.IntRange(1), default=None, help="Processes on this computer [all].")
@click.option("--most", type=click.IntRange(0), default=20, show_default=True, help="Jobs that are told one by one.")
@click.option("--json", "as_json", is_flag=True, help="All of it as one JSON object.")
@click.argument("traces", nargs=-1, required=True, type=click.Path(path_type=Path, exists=True))
def impact(
    rules: Path | None,
    against: str | None,
    address: str | None,
    cores: int | None,
    most: int,
    as_json: bool,
    traces: tuple[Path, ...],
) -> None:
    """What edited rules would have changed in saved jobs: ends, faults, questions, minutes, cautions.

    TRACES are traces or folders of them. Each job is played again from its answers, with the rules of before and with
    the edited ones; what matters most comes first. Exit code 1 when a job comes out otherwise.

    \b
    expert impact ~/jobs --rules my_rules
    expert impact ~/jobs --against HEAD~1
    """
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped
    from expert.trace.places import SUFFIX
    from expert.workbench.impact.rules_of import Library, NoRules, texts_before, texts_in
    from expert.workbench.impact.running import NoCluster, Outcome, Task, tasks_for
    from expert.workbench.impact.telling import as_data, in_words

    folder, library = rules or shipped("rules"), Library()
    files = [file for path in traces for file in (sorted(path.glob(f"*{SUFFIX}")) if path.is_dir() else [path])]
    try:
        after = library.add(texts_in(folder))
        before = None if against is None else library.add(texts_before(folder, against))
        found = list(tasks_for(files, library, after, before))
        done = [entry for entry in found if isinstance(entry, Outcome)]
        tasks = [entry for entry in found if isinstance(entry, Task)]
        done += with_progress(tasks, library.texts, address, cores)
    except RulesRefused as refused:
        refuse(*refused.problems)
    except (NoRules, NoCluster) as problem:
        refuse(problem)
    if as_json:
        say(json.dumps(as_data(done), indent=2, ensure_ascii=False))
    else:
        for line in in_words(done, most):
            say(line)
    sys.exit(1 if any(outcome.differences for outcome in done) else 0)


def with_progress(
    tasks: list[Task], rules: Mapping[str, Mapping[str, str]], address: str | None, cores: int | None
) -> Iterator[Outcome]:
    """The outcomes as they come, with a bar on a terminal."""
    from expert.workbench.impact.running import outcomes, outcomes_on

    coming = outcomes_on(address, tasks, rules) if address else outcomes(tasks, rules, cores)
    hidden = not sys.stderr.isatty()
    with click.progressbar(coming, length=len(tasks), label="Jobs", file=sys.stderr, hidden=hidden) as bar:
        yield from bar
