"""What is shown may be typed; a guess is said back; a digit from a list is no reading."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.job.answers.outcomes_meant import outcome_meant
from expert.language.model import Choice, Measure, Question
from tests.dialogue.conftest import Desk
from tests.dialogue.shipped_desk import shipped_knowledge

FLOW = {"none": "nothing comes", "thin": "a thin stream or drops", "full": "a full stream", "spits": "spits, then none"}
PLUG = {"sound": "sound along its whole length", "bad": "cut or scorched", "no_earth": "plug without an earth contact"}
LEADS = {"on": "connected", "off": "taken off and taped"}


@pytest.mark.parametrize(
    "labels, typed, meant",
    [
        (FLOW, "thin stream", "thin"),
        (FLOW, "THIN  Stream", "thin"),
        (FLOW, "drops", "thin"),
        (FLOW, "thin streem", "thin"),
        (FLOW, "the full stream", "full"),
        (FLOW, "stream", ""),
        (FLOW, "comes", ""),
        (FLOW, "no thin stream", ""),
        (FLOW, "not full", ""),
        (FLOW, "nothing", "none"),
        (FLOW, "spits", "spits"),
        (PLUG, "scorched", "bad"),
        (PLUG, "scorchd", "bad"),
        (PLUG, "not scorched", ""),
        (PLUG, "earth contact", ""),
        (PLUG, "without earth", "no_earth"),
        (PLUG, "plug", "no_earth"),
        (LEADS, "disconnected", ""),
        (LEADS, "conected", "on"),
        (LEADS, "a", ""),
        (LEADS, "", ""),
    ],
)
def test_the_outcome_that_words_mean(labels: dict[str, str], typed: str, meant: str) -> None:
    assert outcome_meant(typed, labels) == meant


CHOICES = [q for q in shipped_knowledge().base.questions.values() if isinstance(q.form, Choice)]


@pytest.mark.parametrize("change", [str, str.upper, lambda text: f" {text} "], ids=["as shown", "capitals", "spaces"])
def test_every_label_shown_is_taken_for_its_outcome(change: Callable[[str], str]) -> None:
    assert len(CHOICES) > 70
    wrong = []
    for question in CHOICES:
        labels = {outcome: question.labels.get(outcome, "") for outcome in question.outcomes}
        for outcome in question.outcomes:
            for shown in filter(None, (outcome, labels[outcome])):
                if outcome_meant(change(shown), labels) != outcome:
                    wrong.append((question.id, shown))
    assert not wrong


@given(st.sampled_from(CHOICES), st.text(max_size=30) | st.sampled_from(["leaks", "hot", "full", "drops", "steam"]))
def test_nothing_is_taken_for_what_the_words_deny(question: Question, text: str) -> None:
    """Where no label shown says not, a line that does means none of them."""
    labels = {outcome: question.labels.get(outcome, "") for outcome in question.outcomes}
    assert outcome_meant(text, labels) in ("", *labels)
    if not any(word.startswith("not") for shown in (*labels, *labels.values()) for word in shown.split()):
        assert outcome_meant(f"not {text}", labels) == ""


def test_a_guess_is_said_back_and_what_is_shown_is_not(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "hisses", "ok", "no", "1")
    while desk.job.prompt.subject != "hiss_ends":
        desk.type("yes")
    question = desk.job
    assert "Taken as: with a click within minutes. If that is wrong: take back" in Desk_at(question).type(
        "click within"
    )
    for shown in ("1", "click", "With a click within minutes"):
        assert not any(line.startswith("Taken as") for line in Desk_at(question).type(shown))


def Desk_at(job: object) -> Desk:
    desk = Desk()
    desk.job = job  # type: ignore[assignment]
    return desk


def test_a_digit_alone_is_no_reading(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "steam jet", "ok", "no", "1", "yes")
    assert desk.job.prompt.subject == "boiler_pressure"
    assert desk.type("2") == [
        "2 alone may be the number of a line in a list. If it was read, type it with its unit: 2 bar"
    ]
    assert "2.0 bar" not in " ".join(desk.said)
    desk.type("0.5")
    assert desk.job.answer_to("boiler_pressure") is not None


def test_every_measured_question_has_a_unit_so_that_no_digit_is_taken() -> None:
    forms = {question.id: question.form for question in shipped_knowledge().base.questions.values()}
    assert [name for name, form in forms.items() if isinstance(form, Measure) and not form.unit] == []
