"""What an alarm, an open limit or a blown fuse comes of, on the simulated machine and in the rules.

A result whose cause the rules do not count among its causes ends the search with a list on which the truth is missing.
The machine's physics and programme are checked in `tests/machine`; here they say what the rules must know of.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from expert.machine import FAULTS, Build, FillTank, Lamp, Machine, Plug, Sight, Switch, Wait, brought_in, do, observe
from expert.witness.table import load_table
from tests.dialogue.shipped_desk import shipped_knowledge

TABLE = load_table(Path(__file__).parents[2] / "rules" / "simulated" / "heat_exchanger_lever_tank.yaml")
MINUTES = 20
Seen = Callable[[Machine], bool]
RESULTS: dict[str, Seen] = {
    "control_board.locked": lambda machine: observe(machine, Lamp("alarm"))[1] == Sight("on"),
    "high_limit.tripped": lambda machine: machine.state.limit_1_open or machine.state.limit_2_open,
    "mains_fuse.blown_by_short": lambda machine: machine.state.fuse_blown,
}
# Of these the result is another state of the same part, which excludes it, or the way to it leads over another result.
NOT_BY_ITSELF = {
    "high_limit.will_not_reset",
    "mains_fuse.blown_by_age",
    "level_probe.false_full",  # over boiler_water.ran_low
    "control_board.probe_input_dead",  # likewise
}


@pytest.fixture(scope="module")
def results() -> dict[str, set[str]]:
    """By result, the machine's faults that bring it about in the time in which it heats up."""
    found: dict[str, set[str]] = {result: set() for result in RESULTS}
    for fault in FAULTS:
        machine = do(do(do(brought_in(Build(), [fault], 1), FillTank()), Plug()), Switch(True))
        machine = do(machine, Wait(60.0 * MINUTES))
        for result, seen in RESULTS.items():
            if seen(machine):
                found[result].add(fault.name)
    return found


@pytest.mark.parametrize("result", RESULTS)
def test_every_cause_of_a_result_is_counted_among_its_causes(result: str, results: dict[str, set[str]]) -> None:
    known = {result, *shipped_knowledge().base.faults[result].caused_by} | NOT_BY_ITSELF
    assert results[result], "a result that nothing brings about proves nothing"
    # A machine's fault without a name in the rules is a circumstance (the supply, a tap left open), and no part's.
    missing = {name for name in results[result] if TABLE.faults.get(name) and not known & set(TABLE.faults[name])}
    assert not missing
