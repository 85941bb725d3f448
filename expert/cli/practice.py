"""For juniors: a hidden fault on the simulated machine."""

from __future__ import annotations

import click

from expert.cli.shared import refuse
from expert.practice.levels import LEVELS


@click.command()
@click.option(
    "--level", type=click.Choice(list(LEVELS)), default="common", show_default=True, help="Which faults there may be."
)
@click.option("--seed", type=click.IntRange(0), default=1, show_default=True, help="The same for a class: one machine.")
@click.option("--machine", default="", help='Mains and sensor, such as "230/50" or "120/60 pt1000" [as it comes].')
@click.option("--complaint", default="", help='What the customer tells, such as "does not heat" [as it comes].')
@click.option("--qualified", is_flag=True, help="You are qualified for live work.")
@click.option("--plain", is_flag=True, help="Plain lines without a chat prompt, also in a terminal.")
def practice(level: str, seed: int, machine: str, complaint: str, qualified: bool, plain: bool) -> None:
    """Find a hidden fault on a simulated machine, by choosing the tests.

    You type what to test, read what the instrument shows, and name part and failure. Cautions and gates are the real
    ones. At the end your way stands beside the expert's on the same machine.
    """
    from expert.language.problems import RulesRefused
    from expert.practice.at_terminal import talk
    from expert.practice.opening import NoSuchBuild, build_named, opened, shipped_world
    from expert.practice.scenario import NoSuchMachine
    from expert.practice.told import NoSuchComplaint

    try:
        begun = opened(shipped_world(), level, seed, build_named(machine), complaint, qualified)
    except RulesRefused as refused:
        refuse(*refused.problems)
    except (NoSuchBuild, NoSuchComplaint, NoSuchMachine, OSError) as problem:
        refuse(problem)
    talk(begun, plain)
