"""For everybody: the calculations of the trade."""

from __future__ import annotations

import click

from expert.cli.shared import UNITS, refuse
from expert.terminal.out import say, say_data


@click.command(add_help_option=False, context_settings={"ignore_unknown_options": True})
@click.option("--list", "listed", is_flag=True, help="List the calculations by what they are about.")
@click.option("--json", "as_json", is_flag=True, help="The same as JSON.")
@click.option("-h", "--help", "helped", is_flag=True, help="This text; with NAME: formula, units, range and source.")
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

    A bare number has the unit of the calculation; +- gives an uncertainty, and
    a range draws the curve.

    \b
    expert figure element_resistance 230 V 1400 W
    expert figure boiler_temperature "1.2 bar +- 0.075" altitude=800m
    expert figure boiler_temperature "0 to 2 bar"
    """
    from expert.workbench.figure import NOT_POSSIBLE, figure_page

    if helped and name is None:
        say(context.get_help())
        return
    try:
        data, text = figure_page(name, values, listed, helped, units)
    except NOT_POSSIBLE as problem:
        refuse(problem)
    say_data(data) if as_json else say(text)
