"""The word danger: at any prompt, what just happened is recorded, and the machine made safe before anything else."""

from __future__ import annotations

import pytest

from expert.job.state.job import Prompt
from expert.trace.records import Answered, PromptPut
from tests.dialogue.shipped_desk import ShippedDesk

ARE_SEEN = {"boiler_heats": "yes", "lamp_lights": "yes", "controller_calls": "yes"}
OPENS = {
    "tripped": "something_tripped",
    "shock": "somebody_felt_mains",
    "burnt": "something_burnt",
    "too_hot": "heat_ran_away_here",
    "steam": "boiler_leaks",
    "wet": "wet_where_mains_is",
}


def heating_up() -> ShippedDesk:
    """At "Is the boiler hot?"."""
    desk = ShippedDesk().intake(complaint="slow_heat")
    for _ in range(60):
        if desk.job.prompt.subject == "heat_up":
            return desk
        prompt = desk.job.prompt
        known = ARE_SEEN | {"lead_looks": "sound", "told_of_danger": "nothing"}
        desk.type(known.get(prompt.subject, "can't tell") if prompt.kind == "question" else prompt.choices[0])
    raise AssertionError("it was never to heat up")


@pytest.mark.parametrize("word", OPENS)
def test_it_is_recorded_and_the_plug_comes_out_first(word: str) -> None:
    desk = heating_up()
    desk.type(f"danger {word}")
    assert desk.job.prompt.at == ("move", "isolate")
    assert OPENS[word] in desk.job.hazards.open
    last = [record for record in desk.records if isinstance(record, Answered)][-1]
    assert (last.question, last.outcomes) == ("danger_here", (word,))


@pytest.mark.parametrize(
    ("said", "word"),
    [
        ("smoke at the inlet", "burnt"),
        ("the breaker went", "tripped"),
        ("a tingle", "shock"),
        ("safety valve", "too_hot"),
    ],
)
def test_it_is_known_by_the_words_of_the_trade(said: str, word: str) -> None:
    desk = heating_up()
    desk.type(f"danger {said}")
    assert OPENS[word] in desk.job.hazards.open


def test_alone_it_offers_the_dangers_and_a_no_goes_back() -> None:
    desk = heating_up()
    said = desk.type("danger")
    assert said[0].startswith("! Plug out now, or the breaker off")
    assert [line[:10] for line in said if line.startswith("  ")][:3] == ["  1  the b", "  2  a tin", "  3  smell"]
    desk.type("no")
    assert desk.job.prompt.at == ("move", "heat_up")
    desk.type("danger", "4")
    assert "heat_ran_away_here" in desk.job.hazards.open


def test_a_line_that_speaks_of_a_danger_is_refused_with_the_word() -> None:
    said = heating_up().type("it tripped")
    assert said[0].startswith("If that has just happened: plug out, and type danger tripped.")


def test_several_happen_one_after_the_other() -> None:
    desk = heating_up()
    desk.type("danger tripped", "danger burnt")
    assert {"something_tripped", "something_burnt"} <= desk.job.hazards.open.keys()


def test_at_every_prompt_of_a_job_it_is_heard() -> None:
    desk = ShippedDesk().intake(complaint="leaks_at_rim")
    heard = set[str]()
    signs = {"rim_on_blind": "leaks", "handle_position": "past_centre", "gasket_feel": "hard"}
    for _ in range(80):
        prompt: Prompt = desk.job.prompt
        if prompt.kind == "done":
            break
        before = len(desk.records)
        aside = ShippedDesk()
        aside.job = desk.job
        aside.type("danger tripped")
        if any(isinstance(record, Answered) and record.question == "danger_here" for record in aside.records):
            heard.add(prompt.kind)
        elif prompt.kind not in ("close", "standing"):
            raise AssertionError(f"not heard at {prompt}")
        assert len(desk.records) == before
        line = {"question": signs.get(prompt.subject, "can't tell"), "proof": "can't tell", "repair": "done"}
        desk.type(line.get(prompt.kind, "1" if prompt.kind == "close" else (*prompt.choices, "ok")[0]))
    assert {"question", "move"} <= heard


def test_during_the_intake_it_says_what_comes_first() -> None:
    desk = ShippedDesk()
    desk.type("Ann")
    said = desk.type("danger")
    assert said == [
        "Plug out, or the breaker off, and keep away. How the machine stands is not settled yet: answer that first, "
        "then type danger."
    ]
    assert [r for r in desk.records if isinstance(r, PromptPut)][-1].prompt == "intake"


def test_what_happens_while_a_danger_stands_asks_for_tests_made_after_it() -> None:
    desk = ShippedDesk().intake(complaint="tingles")
    desk.type("sound", "nothing")  # lead and customer
    assert "somebody_felt_mains" in desk.job.hazards.open
    desk.type("danger shock")
    assert desk.job.hazards.open["somebody_felt_mains"].since == desk.job.next_number
