"""Questions: yes or no, a choice, or a measurement with its named readings."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from expert.language import model
from expert.language.model import ALWAYS
from expert.language.reading import shapes
from expert.language.reading.conditions import read_applies, read_condition
from expert.language.reading.draft import Draft, merged
from expert.language.reading.formula_fields import limits_in
from expert.language.reading.quantities import read_kind, read_span, read_unit
from expert.language.reading.reader import Reader, is_snake_case
from expert.language.reading.record import Record
from expert.language.yaml.nodes import Node, Pairs, Scalar

_ANSWERS = "yes_no, {one_of: {outcome: label}} or {measure: kind, with: instrument}"
_ANSWER_WORDS = ("yes_no", "one_of", "measure")
_NO_LABELS: Mapping[str, str] = MappingProxyType({})


def read_questions(reader: Reader, root: Node | None, circuit: model.Circuit, draft: Draft) -> None:
    """The questions of a circuit file."""
    for name, key, value in draft.own(reader, "question", root):
        before = reader.refusals
        question = _question(Record(reader, value, shapes.QUESTION, key), name, key, circuit)
        if reader.refusals == before:
            draft.questions[name] = question


def _question(record: Record, name: str, key: Scalar, circuit: model.Circuit) -> model.Question:
    reader = record.reader
    outcomes, labels, measure = _answer(record)
    sound, only_if = record.node_of("sound"), record.node_of("only_if")
    return model.Question(
        id=name,
        circuit=circuit.id,
        ask=record.text("ask"),
        outcomes=outcomes,
        measure=measure,
        labels=labels,
        sound=() if sound is None else reader.outcomes(sound, name),
        expect=record.text("expect"),
        how=record.text("how"),
        bench=record.state("bench"),
        minutes=record.number("minutes") or 0.0,
        cautions=record.names("cautions", "caution"),
        only_if=ALWAYS if only_if is None else read_condition(reader, only_if),
        applies=applies_within(record, circuit.applies),
        prepare=_preparation(record),
        second_tests=_second_tests(record, measure),
        at=reader.at(key),
    )


def _second_tests(record: Record, measure: model.Measure | None) -> tuple[str, ...]:
    if measure is None and "second_test" in record.written:
        message = "only a question that is measured has a 'second_test': no other answer lies close to a limit"
        record.reader.refuse(record.key_node("second_test"), "unknown-key", message)
    return record.names("second_test", "question")


def _preparation(record: Record) -> model.Preparation | None:
    node = record.node_of("prepare")
    if node is None:
        return None
    inner = Record(record.reader, node, shapes.PREPARATION)
    return model.Preparation(inner.state("bench"), inner.texts("steps"))


def applies_within(record: Record, outer: Mapping[str, tuple[str, ...]]) -> Mapping[str, tuple[str, ...]]:
    """On which machines a part or question applies: its own condition and its circuit's, both."""
    node = record.node_of("applies")
    both = merged(outer, read_applies(record.reader, node))
    for feature, values in both.items():
        if not values and node is not None:
            message = f"this can never apply: its circuit asks for another {feature}"
            record.reader.refuse(node, "never-applies", message)
    return both


def _answer(record: Record) -> tuple[tuple[str, ...], Mapping[str, str], model.Measure | None]:
    """Outcomes, labels and measurement, by the form of the answer."""
    reader, node = record.reader, record.node_of("answer")
    if node is None:
        return (), _NO_LABELS, None
    if type(node) is Pairs and "measure" in node.entries:
        measure = _measure(record, Record(reader, node, shapes.MEASUREMENT))
        return tuple(reading.name for reading in measure.readings), _NO_LABELS, measure
    is_choice = type(node) is Pairs and "one_of" in node.entries
    if not is_choice and not (type(node) is Scalar and node.text == "yes_no"):
        written = [node.text] if type(node) is Scalar else list(node.entries) if type(node) is Pairs else []
        near = (reader.names.did_you_mean(word, _ANSWER_WORDS) for word in written)
        reader.refuse(node, "wrong-shape", f"'answer' may be {_ANSWERS}{next(filter(None, near), '')}")
        return (), _NO_LABELS, None
    if "readings" in record.written:
        reader.refuse(record.key_node("readings"), "unknown-key", "only a question that is measured has 'readings'")
    if not is_choice:
        return shapes.YES_NO, _NO_LABELS, None
    labels = _choices(Record(reader, node, shapes.CHOICE))
    return tuple(labels), MappingProxyType(labels), None


def _choices(record: Record) -> dict[str, str]:
    reader, node = record.reader, record.node_of("one_of")
    labels = {}
    for outcome, (key, label) in (reader.pairs(node, "'one_of'") if node is not None else {}).items():
        _check_outcome(reader, key)
        labels[outcome] = reader.text(label, f"the label of '{outcome}'")
    if len(labels) == 1:
        reader.refuse(record.key_node("one_of"), "too-few-outcomes", "a choice of one is no question; give two")
    return labels


def _measure(question: Record, answer: Record) -> model.Measure:
    reader = question.reader
    kind = read_kind(answer, "measure")
    unit = read_unit(answer, "unit", kind)
    instrument, believable = answer.node_of("with"), answer.node_of("believable")
    readings = question.node_of("readings")
    if readings is None:
        reader.refuse(answer.node, "missing-key", "a question that is measured must have 'readings'")
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
            message = f"'{name}' can never come out: 'otherwise' above it takes the rest; put it before"
            reader.refuse(key, "unreachable-reading", message)
        limits = limits_in(reader, value, kind)
        if limits is None:
            continue
        if limits == (None, None) and rest is None:
            rest = key
        found.append(model.Reading(name, *limits, reader.at(key)))
    if listed and rest is None and len(found) == len(listed):
        message = f"the last reading must be 'otherwise', so that every value has a name; '{listed[-1][0]}' is not"
        reader.refuse(listed[-1][1][1], "no-otherwise", message)
    if len(listed) == 1:
        reader.refuse(node, "too-few-outcomes", "one reading only; two are needed")
    return tuple(found)


def _check_outcome(reader: Reader, key: Scalar) -> None:
    if not is_snake_case(key.text):
        message = f"'{key.text[:60]}' is no outcome; small letters, digits and single underscores, as in too_high"
        reader.refuse(key, "not-snake-case", message)
