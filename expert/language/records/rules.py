"""Rules: if, then, because; and the conclusions in `then`."""

from __future__ import annotations

from collections.abc import Callable

from expert.language import keys, model
from expert.language.model import Conclusion, Evidence, Narrow, Normal, Say, Suspect
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.sentences import records as say
from expert.language.yaml.nodes import Node, Scalar


def read_rules_of(reader: Reader, root: Node | None, circuit: str, draft: Draft) -> None:
    """The rules of a circuit file."""
    for name, key, value in draft.own(reader, "rule", root):
        before = reader.refusals
        record = Record(reader, value, keys.RULE, key)
        then = record.node_of("then")
        rule = model.Rule(
            id=name,
            circuit=circuit,
            then=() if then is None else _conclusions(reader, then, draft),
            at=reader.at(key),
            **fields_of(record),
        )
        if reader.refusals == before:
            draft.rules[name] = rule


def _conclusions(reader: Reader, node: Node, draft: Draft) -> tuple[Conclusion, ...]:
    """What a rule concludes, in the order written."""
    if type(node) is not Scalar and not getattr(node, "entries", True):
        reader.refuse(node, "no-conclusion", say.THEN_SAYS_NOTHING)
        return ()
    record = Record(reader, node, keys.CONCLUSIONS)
    found: list[Conclusion] = []
    for word in record.written:
        read = _READ.get(word)
        if read is not None:
            found.extend(read(record, word, draft))
    return tuple(found)


def _status(record: Record, word: str, draft: Draft) -> list[Conclusion]:
    """confirm: the fault is present. clear: it is absent; a part stands for all its faults."""
    outcome = ("present",) if word == "confirm" else ("absent",)
    at = record.reader.at(record.key_node(word))
    return [Narrow(fault, outcome, word, at) for fault in _faults(record, word, whole_parts=word == "clear")]


def _conclude(record: Record, word: str, draft: Draft) -> list[Conclusion]:
    reader = record.reader
    found: list[Conclusion] = []
    for finding, (key, value) in _mapping(record, word).items():
        if reader.name(key, "finding"):
            found.append(Narrow(finding, reader.outcomes(value, finding), word, reader.at(value)))
    return found


def _suspect(record: Record, word: str, draft: Draft) -> list[Conclusion]:
    at = record.reader.at(record.key_node(word))
    return [Suspect(tuple(_faults(record, word, whole_parts=True)), word == "check", at)]


def _evidence(record: Record, word: str, draft: Draft) -> list[Conclusion]:
    reader = record.reader
    sign = 1 if word == "points_to" else -1
    found: list[Conclusion] = []
    for fault, (key, value) in _mapping(record, word).items():
        strength = reader.word(value, say.the_weight_of(fault), keys.STRENGTHS)
        if reader.name(key, "fault") and strength:
            found.append(Evidence(fault, sign * keys.STRENGTHS[strength], reader.at(key)))
    return found


def _normal(record: Record, word: str, draft: Draft) -> list[Conclusion]:
    return [Normal(record.names(word, "complaint"), record.reader.at(record.key_node(word)))]


def _caution(record: Record, word: str, draft: Draft) -> list[Conclusion]:
    at = record.reader.at(record.key_node(word))
    names = record.names(word, "caution")
    if any(name not in draft.cautions for name in names):
        record.reader.refusals += 1  # The caution's own record is broken.
    return [Say(word, draft.cautions[name].text, at) for name in names if name in draft.cautions]


def _sentence(record: Record, word: str, draft: Draft) -> list[Conclusion]:
    at = record.reader.at(record.key_node(word))
    return [Say(word, text, at) for text in record.texts(word)]


_READ: dict[str, Callable[[Record, str, Draft], list[Conclusion]]] = {
    "confirm": _status,
    "clear": _status,
    "conclude": _conclude,
    "check": _suspect,
    "suspect": _suspect,
    "points_to": _evidence,
    "points_away": _evidence,
    "normal": _normal,
    "caution": _caution,
    "stop_work": _sentence,
    "advise": _sentence,
}


def _mapping(record: Record, word: str) -> dict[str, tuple[Scalar, Node]]:
    node = record.node_of(word)
    return {} if node is None else record.reader.pairs(node, f"'{word}'")


def _faults(record: Record, word: str, whole_parts: bool) -> list[str]:
    """The faults named under a word, in the author's order, each once; a part stands for all its faults."""
    reader = record.reader
    node = record.node_of(word)
    found: dict[str, None] = {}
    for item in reader.distinct(reader.one_or_more(node, f"'{word}'") if node is not None else []):
        if whole_parts and type(item) is Scalar and "." not in item.text:
            part = reader.name(item, "part")
            found.update((f"{part}.{fault}", None) for fault in reader.names.faults_of.get(part, ()))
        elif fault := reader.name(item, "fault"):
            found[fault] = None
    return list(found)
