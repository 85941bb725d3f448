"""The hazards file: what it says, and what is refused."""
# ruff: noqa: E501  (the messages stand whole beside their cause)

from __future__ import annotations

import pytest

from expert.language.load import read_rules
from expert.language.model import Any, Is, Release
from tests.language.small_base import HAZARDS, SMALL, expected_problems, problems_of, with_files

TANK = SMALL["circuits/tank.yaml"].replace("name: leaking\n", "name: leaking\n        dangerous: yes\n")


def test_what_is_written_is_what_is_read() -> None:
    base = read_rules(with_files(hazards=HAZARDS, tank=TANK))
    hazard = base.hazards["water_above_the_mains"]
    assert hazard.holds == Is("level", ("high",)) and hazard.suspected == ("valve.leaking",)
    assert hazard.forbids == ("energise",)
    assert hazard.released_by == (
        Release(("valve.leaking",), {"level": ("normal",)}),
        Release((), {"runs": ("no",), "level": ("low", "normal")}),
    )
    assert base.hazards["not_looked_at"].from_the_start and not hazard.from_the_start
    assert base.acts["leave_alone"].left and base.acts["energise"].states == ({"mains": "on"},)


def test_any_of_several() -> None:
    hazards = HAZARDS.replace("while: {level: high}", "while: {any: [{level: high}, {coil: open}]}")
    files = with_files(hazards=hazards, tank=TANK)
    assert isinstance(read_rules(files).hazards["water_above_the_mains"].holds, Any)


ROWS = {
    "unknown names": """
        acts:
          energise: {say: plug it in, states: [{mains: onn}]}  # 48: 'onn' is not a state of mains; it has isolated, on; did you mean on? [unknown-outcome]
          heat: {say: heat it, states: {mains: on}}  # 32: 'states' is a mapping; a list of states ([{mains: on, covers: off}]) is wanted [wrong-shape]
        hazards:
          water:
            name: water
            while: {levl: high}  # 13: there is no question or finding 'levl'; did you mean level? [unknown-name]
            suspected: [valve.stuk]  # 17: there is no fault 'valve.stuk'; did you mean valve.stuck? [unknown-name]
            forbids: [energize]  # 15: there is no act 'energize'; did you mean energise? [unknown-name]
            until: It is dry.
            released_by: [{tests: {level: hi}}]  # 35: 'hi' is not an outcome of level; it has low, normal, high; did you mean high? [unknown-outcome]
        """,
    "missing keys": """
        acts: {energise: {say: plug it in, states: [{mains: on}]}}
        hazards:
          water: {name: water, forbids: [energise], released_by: []}  # 3: a hazard must have 'until' [missing-key]
        """,
}


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in ROWS.items()])
def test_refused(text: str) -> None:
    files = with_files(hazards=text)
    assert problems_of(files) == expected_problems(files) != []
