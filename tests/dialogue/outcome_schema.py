"""The shape that the outcome of a job must have, as the manual promises it: every key, always, with its type."""

from __future__ import annotations

TEXT, NUMBER, TEXTS = {"type": "string"}, {"type": "number"}, {"type": "array", "items": {"type": "string"}}


def record(**fields: object) -> dict[str, object]:
    """The schema of an object with exactly these fields."""
    return {"type": "object", "properties": fields, "required": list(fields), "additionalProperties": False}


def records(**fields: object) -> dict[str, object]:
    return {"type": "array", "items": record(**fields)}


WHY = record(
    aim=TEXT,
    ahead_by={"type": ["string", "null"]},
    before_move={"type": ["string", "null"]},
    settles=TEXTS,
    bits={"type": ["number", "null"]},
)
OUTCOMES = [
    "found",
    "left_by_elimination",
    "own_judgement",
    "narrowed",
    "normal",
    "stopped",
    "handed_over",
    "unresolved",
]
SCHEMA = record(
    job=TEXT,
    outcome={"enum": OUTCOMES},
    findings=records(fault=TEXT, part=TEXT, name=TEXT, standing={"enum": OUTCOMES[:2]}, because=TEXTS),
    short_list=TEXTS,
    suspects=records(fault=TEXT, weight=NUMBER),
    normal=TEXTS,
    complaints_open=TEXTS,
    not_accounted_for=TEXTS,
    asked=records(
        question=TEXT,
        answer=TEXT,
        reading={"anyOf": [TEXT, {"type": "null"}, {**TEXTS, "minItems": 2}]},
        minutes=NUMBER,
        why=WHY,
    ),
    cautions=TEXTS,
    stops=records(rule=TEXT, text=TEXT),
    moves=TEXTS,
    proofs=records(question=TEXT, answer=TEXT, passed={"type": ["boolean", "null"]}),
    ending=TEXT,
    minutes={**NUMBER, "exclusiveMinimum": 0},
    trace=TEXT,
)
