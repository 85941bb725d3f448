"""The command line: parses words and calls the packages. Nothing is decided here.

One module for each group of people: `bench.py`; `checking.py`, `rules.py`; `shop.py`; `figures.py`; what they share
is in `shared.py`.
What all of them say goes out through `out.py`, and what goes wrong in them ends in `edge.py`.
Exit code 0: done; 1: ran, and found something wrong; 2: bad usage or bad input. Problems go to standard error.
Imports stand inside the commands, so that each starts without what it does not need.
"""

from __future__ import annotations

import click

from expert.cli import bench, checking, figures, impact, knowing, practice, rules, shop
from expert.cli.edge import Edge


@click.group(cls=Edge, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 79})
@click.version_option(package_name="bench-expert", prog_name="expert")
def main() -> None:
    """From complaint to sealed trace: the bench expert for espresso machines.

    A machine comes in with a complaint. expert bench makes it safe, finds the part at fault, leads through the repair,
    has it proved, and leaves a record that can be audited.
    """


# In the order of the people who use them: bench, rules, shop, everybody.
for _command in (
    bench.bench,
    bench.resume,
    bench.jobs,
    bench.demo,
    practice.practice,
    checking.check,
    rules.cases,
    impact.impact,
    knowing.explain,
    knowing.map_,
    knowing.schema,
    shop.audit,
    shop.shop,
    shop.report,
    shop.review,
    figures.figure,
):
    main.add_command(_command)
