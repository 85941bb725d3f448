"""When a fault counts as still in the machine, and when a circumstance counts as told."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from expert.machine import FAULTS, Build, FillTank, Plug, PrimePump, Switch, brought_in, do
from expert.trace.records import SearchEnded
from expert.witness.verdict import is_answered, is_there

KNOWN = {fault.name: fault for fault in FAULTS}


def test_a_pump_that_a_test_has_primed_is_no_longer_air_locked() -> None:
    fault = KNOWN["pump: air-locked"]
    locked = brought_in(Build(), [fault])
    primed = do(do(do(do(locked, PrimePump()), FillTank()), Plug()), Switch(True))
    assert is_there(fault, SimpleNamespace(machine=locked, mended=set()))
    assert not is_there(fault, SimpleNamespace(machine=primed, mended=set()))


def test_a_part_that_nobody_mended_is_still_there() -> None:
    fault = KNOWN["safety valve: stuck shut"]
    machine = brought_in(Build(), [fault])
    assert is_there(fault, SimpleNamespace(machine=machine, mended=set()))
    assert not is_there(fault, SimpleNamespace(machine=machine, mended={"safety valve"}))


@pytest.mark.parametrize(
    ("name", "beside", "ends", "ending", "told"),
    [
        ("steam tap: left open a little", False, ["normal"], "normal", True),
        ("steam tap: left open a little", True, ["found"], "repaired", True),
        ("steam tap: left open a little", True, ["found"], "unrepaired", False),
        ("supply: voltage low", True, ["normal", "found"], "repaired", True),
        ("supply: voltage low", True, ["found"], "repaired", False),
        ("pump: worn", False, ["normal"], "normal", False),
    ],
)
def test_a_circumstance_is_told_where_the_job_says_that_it_is_no_fault(
    name: str, beside: bool, ends: list[str], ending: str, told: bool
) -> None:
    faults = [KNOWN[name], *([KNOWN["pump: coil open"]] if beside else [])]
    records = [SearchEnded(outcome, ()) for outcome in ends]
    played = SimpleNamespace(records=records, job=SimpleNamespace(closing={"ending": ending}))
    ids = () if name != "pump: worn" else ("vibration_pump.worn",)
    assert is_answered(KNOWN[name], ids, faults, played) is told
