"""What a record says, statement by statement, in the words of its file: two of them can be held side by side.

Only what decides something is a statement: wording, names and sources are left out, and a limit is told as the number
that it comes to on each shipped machine, whichever formula of whichever file it rests on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass

from expert.language.formulas.formula import Formula
from expert.language.model import (
    All,
    Any,
    Condition,
    Evidence,
    Is,
    Measure,
    Narrow,
    Normal,
    Not,
    Question,
    RuleBase,
    Say,
    Suspect,
)
from expert.trade.quantities.units import Quantity, show
from expert.workbench.plates import Span, spans_on
from expert.workbench.sentences import cases as say

KINDS: Mapping[str, str] = {
    "rule": "rules",
    "question": "questions",
    "fault": "faults",
    "part": "parts",
    "finding": "findings",
    "feed": "feeds",
    "worked-out value": "work_outs",
    "complaint": "complaints",
    "caution": "cautions",
    "machine": "machines",
    "instrument": "instruments",
    "hazard": "hazards",
    "act": "acts",
    "feature": "features",
    "rating": "plate_values",
}
"""The kinds of records that are told one by one, and where the rule base keeps them."""
_WORDING = frozenset(
    {"id", "circuit", "part", "name", "title", "ask", "how", "expect", "because", "where", "source", "words", "slip"}
    | {"say", "confirm", "steps"}
)
_MAY_BE_LEFT_OUT = frozenset({"expect", "how", "slip", "where", "source", "steps"})  # that it is there is told
_ELSEWHERE = frozenset({"moves"})  # told as records of their own; the faults of a part are, too


def records_of(base: RuleBase) -> dict[str, object]:
    """Every record that says something, by kind and id: `rule pump_is_dead`."""
    found: dict[str, object] = {
        f"{kind} {name}": record for kind, kept in KINDS.items() for name, record in getattr(base, kept).items()
    }
    return found | {f"move {move.id}": move for move in base.bench.moves} | {"the bench": base.bench}


def statements(base: RuleBase, record: object) -> tuple[str, ...]:
    """All that a record says, in the order in which it says it."""
    limits = _limits(base, record) if isinstance(record, Question) else ()
    return (*_said(record, ""), *limits)


def _said(value: object, name: str) -> Iterator[str]:
    match value:
        case None | "" | False:
            return
        case Narrow() | Suspect() | Evidence() | Normal() | Say():
            yield _concluded(value)
        case Is() | All() | Any() | Not():
            yield f"{name}: {_in_words(value)}"
        case Quantity() | Formula():
            yield f"{name}: {show(value) if isinstance(value, Quantity) else value.text}"
        case Mapping():
            for key, kept in value.items():
                yield from _said(kept, f"{name} {key}" if name else str(key))
        case tuple():
            for kept in value:
                yield from _said(kept, name)
        case _ if is_dataclass(value) and not isinstance(value, type):
            yield from _of_record(value, name)
        case _:
            yield f"{name}: {'yes' if value is True else value}"


def _of_record(record: object, name: str) -> Iterator[str]:
    left_out = _WORDING | _ELSEWHERE | ({"faults"} if hasattr(record, "needs") else set())
    left_out |= {"readings"} if isinstance(record, Measure) else set()
    for field in fields(record):  # type: ignore[arg-type]
        value, called = getattr(record, field.name), f"{name} {field.name}" if name else field.name
        if field.compare and field.name not in left_out:
            yield from _said(value, called)
        elif field.name in _MAY_BE_LEFT_OUT and value:
            yield say.in_words(called)


def _concluded(said: Narrow | Suspect | Evidence | Normal | Say) -> str:
    match said:
        case Narrow(fact, outcomes, word):
            return f"{word} {fact}" + (f": {'/'.join(outcomes)}" if word == "conclude" else "")
        case Suspect(faults, in_order):
            return f"{'check' if in_order else 'suspect'}: {', '.join(faults)}"
        case Evidence(fault, decibans):
            return say.weight("points_to" if decibans > 0 else "points_away", fault, abs(decibans))
        case Normal(complaints):
            return f"normal: {', '.join(complaints)}"
        case Say(word, text):
            return f"{word}: {text}"


def _in_words(condition: Condition) -> str:
    match condition:
        case Is(fact, outcomes):
            return f"{fact} {'/'.join(outcomes)}"
        case Not(part):
            return f"not ({_in_words(part)})"
        case All(parts):
            return " and ".join(f"({_in_words(p)})" if isinstance(p, Any) else _in_words(p) for p in parts) or "always"
        case Any(parts):
            return " or ".join(f"({_in_words(p)})" if isinstance(p, All) else _in_words(p) for p in parts) or "never"


def _limits(base: RuleBase, question: Question) -> Iterator[str]:
    """The readings as numbers, machine by machine; as they are written where a number must be read first."""
    told = False
    for machine in base.machines.values():
        for span in spans_on(base, machine, question) or ():
            told = True
            yield say.statement_on(span.reading.name, machine.id, _told(question, span))
    for reading in () if told else question.readings:
        yield f"{reading.name}: {_between(*(end.text if end else '' for end in (reading.low, reading.high)))}"


def _told(question: Question, span: Span) -> str:
    assert isinstance(question.form, Measure)
    kind = question.form.kind
    ends = ((span.reading.low, span.low), (span.reading.high, span.high))
    return _between(*("" if end is None else show(Quantity(value, kind)) for end, value in ends))


def _between(low: str, high: str) -> str:
    if low and high:
        return f"{low} to {high}"
    return f"above {low}" if low else f"below {high}" if high else "otherwise"
