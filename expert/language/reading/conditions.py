"""Conditions: a mapping is all of these, a list of outcomes is any of these; `any`, `all` and `not` nest.

`holds` names a condition that stands elsewhere under its name; it is read in its place.
"""

from __future__ import annotations

from expert.language.model import ALWAYS, All, Any, Condition, Is, Not
from expert.language.reading.reader import Reader
from expert.language.sentences import reading as say
from expert.language.yaml.nodes import Node, Scalar


def read_condition(reader: Reader, node: Node) -> Condition:
    """The condition that a mapping states. On a problem, one that is always true."""
    parts: list[Condition] = []
    for key, (key_node, value) in reader.pairs(node, "a condition").items():
        if key == "not":
            parts.append(Not(read_condition(reader, value)))
        elif key == "any" or key == "all":
            listed = tuple(read_condition(reader, item) for item in reader.items(value, f"'{key}'"))
            parts.append(_joined(key, listed))
        elif key == "holds":
            parts.extend(meant_by(reader, item) for item in reader.distinct(reader.one_or_more(value, "'holds'")))
        elif known_fact(reader, key_node):
            outcomes = reader.outcomes(value, key)
            parts.append(Is(key, outcomes, reader.at(value)))
    if not parts:
        return ALWAYS
    return parts[0] if len(parts) == 1 else All(tuple(parts))


def meant_by(reader: Reader, node: Node) -> Condition:
    """The condition of this name. On a problem, one that is always true."""
    name = reader.name(node, "condition")
    if not name:
        return ALWAYS
    names, at = reader.names, reader.at(node)
    names.mentions["condition", name].append(at)
    if name in reader.within:
        way = " <- ".join((*reader.within[reader.within.index(name) :], name))
        reader.refuse(node, "cycle", say.condition_rests_on_itself(name, way))
        return ALWAYS
    path, body = names.conditions[name]
    inner = Reader(path, names, reader.problems, (*reader.within, name))
    found = read_condition(inner, body)
    reader.refusals += inner.refusals
    return found


def _joined(key: str, parts: tuple[Condition, ...]) -> Condition:
    if len(parts) == 1:
        return parts[0]
    return Any(parts) if key == "any" else All(parts)


def known_fact(reader: Reader, node: Scalar) -> bool:
    """Whether a key names something that has outcomes; reports it if not."""
    names = reader.names
    fact = node.text
    if fact in names.outcomes:
        return True
    space, what, prefix = _space_of(fact)
    if space in names.incomplete:
        reader.refusals += 1
        return False
    if fact in names.places["worked-out value"]:
        message = say.worked_out_in_condition(fact)
        reader.refuse(node, "unknown-name", message)
        return False
    if (fact in names.kinds and fact.startswith("plate.")) or fact in names.places["plate value"]:
        message = say.rating_in_condition(fact)
        reader.refuse(node, "unknown-name", message)
        return False
    if fact in names.faults_of:
        faults = names.faults_of[fact]
        instead = say.did_you_mean_one_of(fact, faults[0]) if len(faults) == 1 else _one_of(fact, faults)
        reader.refuse(node, "unknown-name", say.part_in_condition(fact, instead))
        return False
    alike = (known for known in names.outcomes if known.startswith(prefix) and ("." in known) == ("." in fact))
    reader.refuse(node, "unknown-name", say.there_is_no(what, fact[:60], names.instead(fact, alike)))
    if not names.places[space] and space != "question":  # Their file is missing or empty: saying so once is enough.
        names.incomplete.add(space)
    return False


def _one_of(part: str, faults: tuple[str, ...]) -> str:
    return f": {', '.join(f'{part}.{fault}' for fault in faults)}" if faults else ""


def _space_of(fact: str) -> tuple[str, str, str]:
    """Where a fact of this form would have been given, what a message calls it, and how its likes begin."""
    head, dot, _ = fact.partition(".")
    if not dot:
        return "question", "question or finding", ""
    if head == "machine":
        return "feature", "machine feature", "machine."
    if head == "complaint":
        return "complaint", "complaint", "complaint."
    return "fault", "fault", ""


def read_applies(reader: Reader, node: Node | None) -> dict[str, tuple[str, ...]]:
    """The machine features on which something applies, each with the values that will do."""
    applies: dict[str, tuple[str, ...]] = {}
    if node is None:
        return applies
    for key, (key_node, value) in reader.pairs(node, "'applies'").items():
        if not key.startswith("machine."):
            message = say.no_machine_feature(key[:60])
            reader.refuse(key_node, "unknown-name", message)
        elif known_fact(reader, key_node):
            applies[key] = reader.outcomes(value, key)
    return applies
