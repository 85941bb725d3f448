"""A machine that is given away in the middle of a job: brought out of what a danger forbids, as far as it goes."""

from __future__ import annotations

import pytest

from expert.engine.bench import bench_state
from expert.job.prompts import closing
from expert.job.prompts.as_left import take_up_again
from expert.job.state.job import NO_PROMPT, Turn
from expert.job.steps import go_on
from expert.trace.records import CustomerTold, HandedOver
from tests.dialogue.shipped_desk import ShippedDesk, shipped_knowledge
from tests.safety.leading import has_a_way_out

BASE = shipped_knowledge().base
# Unplugged and open while the boiler is still warm, and an open tap would not show its pressure: as somebody left it.
OPEN_AND_WARM = {
    "mains": "isolated",
    "covers": "off",
    "boiler": "warm",
    "pressure": "some",
    "element": "off",
    "altered": "for_test",
}


@pytest.fixture
def desk() -> ShippedDesk:
    desk = ShippedDesk().intake(complaint="weak_wand")
    turn = Turn(desk.job.copy())
    turn.job.bench, turn.job.prompt = bench_state(BASE.bench, OPEN_AND_WARM), NO_PROMPT
    go_on(turn)
    desk.job = turn.job
    assert (desk.job.prompt.kind, desk.job.prompt.subject) == ("move", "vent")
    return desk


def test_it_is_not_handed_over_while_it_can_be_brought_out_of_it(desk: ShippedDesk) -> None:
    said = desk.type("hand over")
    assert said[0] == "It is handed over as soon as the machine is safe."
    assert (desk.job.prompt.kind, desk.job.prompt.subject) == ("move", "vent")
    assert not [record for record in desk.records if isinstance(record, HandedOver)]


def test_without_the_guard_it_would_be(desk: ShippedDesk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(closing, "may_stand", lambda job: True)
    desk.type("hand over")
    assert [record for record in desk.records if isinstance(record, HandedOver)]


def test_one_that_cannot_be_vented_is_left_unplugged_with_the_danger_and_what_could_not_be_done(
    desk: ShippedDesk,
) -> None:
    said = desk.type("can't")
    assert said[-1] == (
        "The machine could not be made safe. Leave it, keep everybody away, switch off at the breaker. "
        "When a responsible person has made it safe, type: dealt with by NAME. Or: hand over"
    )
    desk.type("hand over")
    summary = next(record.summary for record in desk.records if isinstance(record, HandedOver)).splitlines()
    danger = "pressure that an open tap would not show"
    ends = "It ends when: The tip is off or its holes are clear, and nothing comes from the open tap."
    assert f"Danger: {danger}. {ends}" in summary
    assert "Could not be done: Let the pressure out of the boiler." in summary
    slip = next(record.lines for record in desk.records if isinstance(record, CustomerTold))
    assert f"Danger: there may be {danger}." in slip


@pytest.mark.parametrize(("refused", "out"), [((), True), (("vent",), False), (("covers_on",), True)])
def test_what_the_judge_takes_for_a_way_out(refused: tuple[str, ...], out: bool) -> None:
    cold = {"mains": "isolated", "boiler": "cold"}
    assert has_a_way_out(BASE, OPEN_AND_WARM, refused, lambda state: cold.items() <= state.items()) is out


def test_asked_for_twice_a_machine_that_is_on_is_not_handed_over() -> None:
    desk = ShippedDesk().intake(complaint="low_flow")
    desk.go({"lead_looks": "sound"}, until="lamp_lights")
    assert dict(desk.job.bench)["mains"] == "on"
    for _ in range(3):
        assert desk.type("hand over")[0] == "It is handed over as soon as the machine is safe."
        assert desk.job.prompt.kind == "move" and not any(isinstance(record, HandedOver) for record in desk.records)
    desk.type(desk.job.prompt.choices[0])
    assert any(isinstance(record, HandedOver) for record in desk.records)


def test_nobody_hands_over_before_it_is_settled_who_is_there() -> None:
    desk = ShippedDesk().intake(complaint="low_flow")
    desk.go({"lead_looks": "sound"}, until="lamp_lights")
    desk.type("pause")
    desk.job, _ = take_up_again(desk.job)
    for said in ("", "Cy"):  # the name, then the qualification
        if said:
            desk.type(said)
        assert desk.job.prompt.kind == "standing"
        assert desk.type("hand over")[0] == "Who works here is not settled yet. Answer that first."
    assert not any(isinstance(record, HandedOver) for record in desk.records)
