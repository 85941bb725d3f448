"""What several commands share: their options, the clock, how they refuse, and loading the rules."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from expert.cli import sentences as say
from expert.terminal.out import complain
from expert.trade.counting import counted

if TYPE_CHECKING:
    from expert.engine.knowledge import Knowledge

RULES = click.option(
    "--rules", type=click.Path(path_type=Path), default=None, help="Folder of rule files [the shipped rules]."
)
JOBS = click.option("--jobs", type=click.Path(path_type=Path), default=None, help="Folder where jobs are kept.")
UNITS_OR_PROFILE = click.option(
    "--units",
    type=click.Choice(["metric", "us"]),
    default=None,
    envvar="EXPERT_UNITS",
    help="Units shown, and those of bare numbers at the prompt (or set EXPERT_UNITS) [as the shop's profile says].",
)
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
        complain(message)
    sys.exit(2)


def load(rules: Path | None) -> Knowledge:
    """The rule base, ready for jobs; leaves with 2 and every problem when it is refused."""
    from expert.desk.compiled import knowledge_in
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped

    try:
        return knowledge_in(rules or shipped("rules"))
    except RulesRefused as refused:
        refuse(*refused.problems, say.rules_are_not_used(counted(len(refused.problems), "problem")))
    except OSError as problem:
        refuse(problem)
