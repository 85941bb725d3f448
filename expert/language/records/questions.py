"""Questions: yes or no, a choice, or a measurement with its named readings."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from expert.language import keys, model
from expert.language.reading.conditions import read_applies
from expert.language.reading.draft import Draft, merged
from expert.language.reading.formula_fields import Limits, limits_in
from expert.language.reading.quantities import read_kind, read_span, read_unit
from expert.language.reading.reader import Reader, is_snake_case
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.sentences import records as say
from expert.language.yaml.nodes import Node, Pairs, Scalar

_ANSWER_WORDS = ("yes_no", "one_of", "measure")
_NO_LABELS: Mapping[str, str] = MappingProxyType({})


def read_questions(reader: Reader, root: Node | None, circuit: model.Circuit, draft: Draft) -> None:
    """The questions of a circuit file."""
    for name, key, value in draft.own(reader, "question", root):
        before = reader.refusals
        question = _question(Record(reader, value, keys.QUESTION, key), name, key, circuit)
        if reader.refusals == before:
            draft.questions[name] = question


def _question(record: Record, name: str, key: Scalar, circuit: model.Circuit) -> model.Question:
    outcomes, labels, measure = _answer(record)
    if measure is None:
        _only_for_measuring(record)
    return model.Question(
        id=name,
        circuit=circuit.id,
        outcomes=outcomes,
        measure=measure,
        labels=labels,
        applies=applies_within(record, circuit.applies),
        prepare=_preparation(record),
        drawing=_drawing(record),
        at=record.reader.at(key),
        **fields_of(record, name),
    )


def _only_for_measuring(record: Record) -> None:
    for key, why in (
        ("second_test", say.NO_OTHER_NEAR_A_LIMIT),
        ("source", say.NO_OTHER_HAS_LIMITS),
        ("nominal", say.NO_OTHER_HAS_LIMITS),
    ):
        if key in record.written:
            message = say.only_what_is_measured_has(key, why)
            record.reader.refuse(record.key_node(key), "unknown-key", message)


def _preparation(record: Record) -> model.Preparation | None:
    node = record.node_of("prepare")
    return None if node is None else model.Preparation(**fields_of(Record(record.reader, node, keys.PREPARATION)))


def _drawing(record: Record) -> model.Drawing | None:
    node = record.node_of("drawing")
    return None if node is None else model.Drawing(**fields_of(Record(record.reader, node, keys.DRAWING)))


def applies_within(record: Record, outer: Mapping[str, tuple[str, ...]]) -> Mapping[str, tuple[str, ...]]:
    """On which machines a part or question applies: its own condition and its circuit's, both."""
    node = record.node_of("applies")
    both = merged(outer, read_applies(record.reader, node))
    for feature, values in both.items():
        if not values and node is not None:
            message = say.can_never_apply(feature)
            record.reader.refuse(node, "never-applies", message)
    return both


def _answer(record: Record) -> tuple[tuple[str, ...], Mapping[str, str], model.Measure | None]:
    """Outcomes, labels and measurement, by the form of the answer."""
    reader, node = record.reader, record.node_of("answer")
    if node is None:
        return (), _NO_LABELS, None
    if type(node) is Pairs and "measure" in node.entries:
        measure = _measure(record, Record(reader, node, keys.MEASUREMENT))
        return tuple(reading.name for reading in measure.readings), _NO_LABELS, measure
    is_choice = type(node) is Pairs and "one_of" in node.entries
    if not is_choice and not (type(node) is Scalar and node.text == "yes_no"):
        written = [node.text] if type(node) is Scalar else list(node.entries) if type(node) is Pairs else []
        near = (reader.names.did_you_mean(word, _ANSWER_WORDS) for word in written)
        reader.refuse(node, "wrong-shape", say.answer_may_be(say.FORMS_OF_ANSWER, next(filter(None, near), "")))
        return (), _NO_LABELS, None
    if "readings" in record.written:
        reader.refuse(record.key_node("readings"), "unknown-key", say.ONLY_MEASURED_HAS_READINGS)
    if not is_choice:
        return keys.YES_NO, _NO_LABELS, None
    labels = _choices(Record(reader, node, keys.CHOICE))
    return tuple(labels), MappingProxyType(labels), None


def _choices(record: Record) -> dict[str, str]:
    reader, node = record.reader, record.node_of("one_of")
    labels = {}
    for outcome, (key, label) in (reader.pairs(node, "'one_of'") if node is not None else {}).items():
        _check_outcome(reader, key)
        labels[outcome] = reader.text(label, say.the_label_of(outcome))
    if len(labels) == 1:
        reader.refuse(record.key_node("one_of"), "too-few-outcomes", say.CHOICE_OF_ONE)
    return labels


def _measure(question: Record, answer: Record) -> model.Measure:
    reader = question.reader
    kind = read_kind(answer, "measure")
    unit = read_unit(answer, "unit", kind)
    instrument, believable = answer.node_of("with"), answer.node_of("believable")
    readings = question.node_of("readings")
    if readings is None:
        reader.refuse(answer.node, "missing-key", say.MEASURED_NEEDS_READINGS)
    return model.Measure(
        kind=kind,
        instrument="" if instrument is None else reader.name(instrument, "instrument"),
        unit=unit,
        believable=None if believable is None else read_span(reader, believable, kind, unit),
        readings=() if readings is None else _readings(reader, readings, kind),
    )


def _readings(reader: Reader, node: Node, kind: str) -> tuple[model.Reading, ...]:
    """The readings top to bottom. The last takes the rest, so that no value falls between two stools."""
    found: list[model.Reading] = []
    rest: Scalar | None = None
    listed = list(reader.pairs(node, "'readings'").items())
    for name, (key, value) in listed:
        _check_outcome(reader, key)
        if rest is not None:
            message = say.behind_otherwise(name)
            reader.refuse(key, "unreachable-reading", message)
        limits, source = _limits(reader, value, kind, key)
        if limits is None:
            continue
        if limits == (None, None) and rest is None:
            rest = key
        found.append(model.Reading(name, *limits, source, reader.at(key)))
    if listed and rest is None and len(found) == len(listed):
        message = say.last_must_be_otherwise(listed[-1][0])
        reader.refuse(listed[-1][1][1], "no-otherwise", message)
    if len(listed) == 1:
        reader.refuse(node, "too-few-outcomes", say.ONE_READING_ONLY)
    return tuple(found)


def _limits(reader: Reader, value: Node, kind: str, key: Scalar) -> tuple[Limits | None, str]:
    """The limits of a reading and their source; written briefly it is the limits alone."""
    if type(value) is not Pairs:
        return limits_in(reader, value, kind), ""
    record = Record(reader, value, keys.READING, key)
    node = record.node_of("limits")
    return (None if node is None else limits_in(reader, node, kind)), record.text("source")


def _check_outcome(reader: Reader, key: Scalar) -> None:
    if not is_snake_case(key.text):
        message = say.no_outcome_name(key.text[:60])
        reader.refuse(key, "not-snake-case", message)
