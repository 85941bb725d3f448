"""The command line: parses words and calls the packages. Nothing is decided here.

One module for each group of people: `bench.py`; `checking.py`, `rules.py`; `shop.py`; `figures.py`; what they share
is in `shared.py`.
What all of them say goes out through `out.py`, and what goes wrong in them ends in `edge.py`.
Exit code 0: done; 1: ran, and found something wrong; 2: bad usage or bad input. Problems go to standard error.
A command's module is imported when the command is called, and what it works with inside the command, so that each
starts without what it does not need.
"""

from __future__ import annotations

import click

from expert import __version__
from expert.cli.edge import Edge

# In the order of the people who use them: bench, rules, shop, everybody. Command: module and name within `expert.cli`.
COMMANDS = {
    "bench": "bench.bench",
    "resume": "bench.resume",
    "jobs": "bench.jobs",
    "demo": "bench.demo",
    "practice": "practice.practice",
    "check": "checking.check",
    "cases": "rules.cases",
    "impact": "impact.impact",
    "explain": "knowing.explain",
    "map": "knowing.map_",
    "schema": "knowing.schema",
    "audit": "shop.audit",
    "shop": "shop.shop",
    "report": "shop.report",
    "review": "shop.review",
    "figure": "figures.figure",
}


@click.group(
    cls=Edge,
    commands_in=COMMANDS,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 79},
)
@click.version_option(__version__, prog_name="expert")
def main() -> None:
    """From complaint to sealed trace: the bench expert for espresso machines.

    A machine comes in with a complaint. expert bench makes it safe, finds the part at fault, leads through the repair,
    has it proved, and leaves a record that can be audited.
    """
