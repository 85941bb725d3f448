"""The key table against the records' models, the manual and what is read: a key stands in one place."""

from __future__ import annotations

import typing
from collections.abc import Mapping

import pytest

from expert.language import keys, model
from expert.language.keys import Shape, kinds
from expert.language.load import read_rules
from expert.language.problems import RulesRefused
from expert.language.worked.cases import Expectation
from tests.language.small_base import with_files

# Each shape with the model that its values go into.
MODELS = {
    keys.ARRIVAL: model.Arrival,
    keys.IN_TIME: model.InTime,
    keys.MOVE: model.Move,
    keys.BENCH_FILE: model.Bench,
    keys.REPAIR: model.Repair,
    keys.FEED: model.Feed,
    keys.FAULT: model.Fault,
    keys.PART: model.Part,
    keys.MACHINE_FILE: model.Machine,
    keys.PREPARATION: model.Preparation,
    keys.DRAWING: model.Drawing,
    keys.QUESTION: model.Question,
    keys.RULE: model.Rule,
    keys.COMPLAINT: model.Complaint,
    keys.WORK_OUT: model.WorkOut,
    keys.EXPECTATION: Expectation,
}
TYPES: dict[type, object] = {
    kinds.Text: str,
    kinds.Texts: tuple[str, ...],
    kinds.Number: float,
    kinds.YesNo: bool,
    kinds.Word: str,
    kinds.Id: str,
    kinds.Ids: tuple[str, ...],
    kinds.States: tuple[Mapping[str, str], ...],
    kinds.Holds: model.Condition,
}


def type_of(kind: kinds.Kind) -> object:
    """The Python type that reading gives for a kind; None where the record's own module reads it."""
    match kind:
        case kinds.State(any_of):
            return Mapping[str, tuple[str, ...]] if any_of else Mapping[str, str]
        case kinds.Outcomes(of):
            return Mapping[str, tuple[str, ...]] if of else tuple[str, ...]
        case kinds.Id(own=True):
            return None
        case kinds.IdsOf():
            return Mapping[str, tuple[str, ...]]
        case _:
            return TYPES.get(type(kind))


@pytest.mark.parametrize("shape", MODELS, ids=lambda shape: shape.what)
def test_each_key_has_a_field_of_its_type(shape: Shape) -> None:
    known = {**vars(model), "Mapping": Mapping, "Quantity": object, "Formula": object, "JobAnswers": object}
    fields = typing.get_type_hints(MODELS[shape], known)
    for key in shape.keys:
        wanted = type_of(key.kind)
        if wanted is not None:
            assert fields.get(key.field) == wanted, f"{shape.what}: {key.name}"


def test_each_sentence_is_one() -> None:
    shapes = [value for value in vars(keys).values() if isinstance(value, Shape)]
    assert len(shapes) > 25
    for shape in shapes:
        for key in shape.keys:
            assert key.says.endswith(".") and 8 < len(key.says) <= 120, f"{shape.what}: {key.name}"


MEASURED = """
    questions:
      leads:
        ask: What is it?
        answer: {measure: resistance, with: ohmmeter}
        readings:
          low: {limits: below 10 ohm, source: a data sheet}
          high: otherwise
        source: a handbook
        how: Measure.
        minutes: 1
    """


def test_limits_carry_their_source() -> None:
    base = read_rules(with_files(row=MEASURED))
    question = base.questions["leads"]
    assert question.measure is not None
    assert [reading.source for reading in question.measure.readings] == ["a data sheet", ""]
    assert question.source == "a handbook"


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "{measure: resistance, with: ohmmeter}",
            "yes_no",
            "circuits/your_row.yaml:10:5: only a question that is measured has a 'source': no other answer has limits "
            "[unknown-key]",
        ),
        (
            "source: a data sheet}",
            "sorce: a data sheet}",
            "circuits/your_row.yaml:8:35: 'sorce' is not a key of a reading; did you mean source? [unknown-key]",
        ),
        (
            "limits: below 10 ohm, ",
            "",
            "circuits/your_row.yaml:8:7: a reading must have 'limits' [missing-key]",
        ),
    ],
    ids=["not measured", "misspelt", "without limits"],
)
def test_a_source_in_the_wrong_place(old: str, new: str, message: str) -> None:
    with pytest.raises(RulesRefused) as refused:
        read_rules(with_files(row=MEASURED.replace(old, new)))
    assert message in [str(problem) for problem in refused.value.problems]
