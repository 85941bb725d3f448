"""Formulas where they stand in records: problems in them point into the text."""

from __future__ import annotations

from expert.language.formulas.formula import Formula
from expert.language.formulas.kinds import Known, NotSettled, UnknownInFormula, settle
from expert.language.formulas.syntax import FormulaProblem, Raw, read_formula, read_limits
from expert.language.reading.names import Names
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.yaml.nodes import Node, Scalar

Limits = tuple[Formula | None, Formula | None]  # None: no limit on that side
_SPACES_IN_FORMULAS = frozenset(("question", "worked-out value", "plate value", "feature"))


def known_in_formulas(names: Names) -> Known:
    """What formulas of this rule base may refer to."""
    incomplete = bool(names.incomplete & _SPACES_IN_FORMULAS)
    return Known(names.kinds, names.words, names.places["question"], incomplete)


def formula_in(record: Record, key: str, kind: str) -> Formula | None:
    """The formula under a key, settled to give the kind; None if it is missing or wrong."""
    node = record.node_of(key)
    if node is None:
        return None
    text = record.reader.text(node, f"'{key}'")
    if not text or type(node) is not Scalar:
        return None
    try:
        raw = read_formula(text)
    except FormulaProblem as problem:
        _report(record.reader, node, problem)
        return None
    return _settled(record.reader, node, raw, text, kind)


def limits_in(reader: Reader, node: Node, kind: str) -> Limits | None:
    """The limits of a reading, each settled to the kind of the question; None if they are wrong."""
    text = reader.text(node, "a reading")
    if not text or type(node) is not Scalar:
        return None
    try:
        limits = read_limits(text)
    except FormulaProblem as problem:
        _report(reader, node, problem)
        return None
    before = reader.refusals
    low, high = (None if limit is None else _settled(reader, node, *limit, kind) for limit in limits)
    return (low, high) if reader.refusals == before else None


def _settled(reader: Reader, node: Scalar, raw: Raw, text: str, kind: str) -> Formula | None:
    if not kind:  # The kind itself was wrong and has been reported.
        reader.refusals += 1
        return None
    try:
        return settle(raw, kind, known_in_formulas(reader.names), text)
    except NotSettled:
        reader.refusals += 1
    except FormulaProblem as problem:
        _report(reader, node, problem)
    return None


def _report(reader: Reader, node: Scalar, problem: FormulaProblem) -> None:
    message = problem.message
    if isinstance(problem, UnknownInFormula):
        message += reader.names.instead(problem.name, problem.choices)
    reader.refuse_within(node, problem.offset, problem.code, message)
