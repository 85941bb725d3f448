"""What to type on the small rule base to come to each phase of a job."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from tests.dialogue.conftest import INTAKE, Desk

TO_THE_COIL = (*INTAKE, "yes", "yes", "yes", "yes")
TO_THE_PROOF = (*TO_THE_COIL, "OL", "done", "yes", "yes")
TO_THE_CLOSE = (*TO_THE_PROOF, "yes", "yes")

PHASES: Mapping[str, tuple[str, ...]] = {
    "name": (),
    "machine": ("Ann",),
    "plate": ("Ann", "1"),
    "complaints": ("Ann", "1", "ok"),
    "qualified": ("Ann", "1", "ok", "no fill", "ok"),
    "arrives": ("Ann", "1", "ok", "no fill", "ok", "no"),
    "make safe": (*INTAKE[:-1], "2"),
    "move": INTAKE,
    "yes or no": (*INTAKE, "yes"),
    "choice": ("Ann", "1", "ok", "hisses", "ok", "no", "1", "yes"),
    "find": TO_THE_COIL,
    "not safe": ("Ann", "1", "ok", "steam jet", "ok", "no", "1", "yes", "2 bar"),
    "stop": ("Ann", "1", "ok", "steam jet", "ok", "no", "1", "yes", "2 bar", "yes"),
    "repair": (*TO_THE_COIL, "OL"),
    "prove": TO_THE_PROOF,
    "close": TO_THE_CLOSE,
    "parts": (*TO_THE_CLOSE, "1"),
    "minutes": (*TO_THE_CLOSE, "1", "ok"),
    "note": (*TO_THE_CLOSE, "1", "ok", "ok"),
}


def at(phase: str) -> Desk:
    """A job that waits in this phase."""
    desk = Desk()
    desk.type(*PHASES[phase])
    return desk


def each(rows: list[tuple[str, str, list[str]]]) -> pytest.MarkDecorator:
    """One test for each command in each of its phases; phases that answer alike stand in one row."""
    return pytest.mark.parametrize(
        ("command", "phase", "reply"),
        [
            pytest.param(command, phase, reply, id=f"{command} at {phase}")
            for command, phases, reply in rows
            for phase in phases.split(", ")
        ],
    )
