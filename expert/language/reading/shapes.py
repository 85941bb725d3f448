"""The keys of every kind of record, in one table. What is not here is not in the language."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Shape:
    """The keys a record must have and those it may have. `what` names the record in messages, with its article."""

    what: str
    required: tuple[str, ...]
    optional: tuple[str, ...] = ()

    @property
    def keys(self) -> tuple[str, ...]:
        """All keys, in the order in which the manual gives them."""
        return self.required + self.optional


FEATURES_FILE = Shape("the features file", (), ("features", "plate"))
FEATURE = Shape("a feature", ("name", "values"))
PLATE_VALUE = Shape("a plate value", ("name", "measure", "unit"), ("part_of",))
COMPLAINTS_FILE = Shape("the complaints file", ("complaints",))
COMPLAINT = Shape("a complaint", ("name",), ("words", "seen"))
CAUTIONS_FILE = Shape("the cautions file", ("cautions",))
INSTRUMENTS_FILE = Shape("the instruments file", ("instruments",))
INSTRUMENT = Shape(
    "an instrument", ("name", "measures"), ("ranges", "class", "full_scale", "plus_minus", "percent", "leads", "owned")
)
RANGE = Shape("a range", ("percent", "digits", "step"), ("up_to",))
BENCH_FILE = Shape(
    "the bench file",
    ("states", "arrives", "safe", "moves"),
    ("qualified_only", "passing_only", "service", "after_opening", "in_time"),
)
AFTER_OPENING = Shape("'after_opening'", ("when", "prove"))
IN_TIME = Shape("an entry of 'in_time'", ("while", "becomes"))
ARRIVAL = Shape("an arrival", ("say", "state"))
MOVE = Shape("a move", ("say", "makes", "minutes", "steps", "confirm"), ("needs", "cautions", "first", "unless"))
MACHINE_FILE = Shape("a machine file", ("machine", "title", "layout", "features"), ("plate", "wiring"))
CIRCUIT_FILE = Shape(
    "a circuit file", ("circuit", "title"), ("applies", "feeds", "parts", "questions", "findings", "work_out", "rules")
)
FEED = Shape("a feed", ("name", "through"), ("lacking", "arrives", "explains"))
PART = Shape("a part", ("name", "faults"), ("where", "applies", "needs"))
FAULT = Shape(
    "a fault", ("name", "seen", "explains", "repair", "prove"), ("shows", "cuts", "caused_by", "dangerous", "result")
)
REPAIR = Shape("a repair", ("minutes", "steps"), ("parts", "consumables", "cautions", "bench"))
QUESTION = Shape(
    "a question",
    ("ask", "answer", "how", "minutes"),
    ("readings", "sound", "expect", "bench", "cautions", "only_if", "applies", "prepare", "second_test"),
)
PREPARATION = Shape("a preparation", ("bench", "steps"))
CHOICE = Shape("an answer by choice", ("one_of",))
MEASUREMENT = Shape("an answer by measuring", ("measure", "with"), ("unit", "believable"))
FINDING = Shape("a finding", ("name", "outcomes"))
WORK_OUT = Shape("a worked-out value", ("name", "gives", "unit", "formula", "source"), ("assume",))
RULE = Shape("a rule", ("if", "then", "because"), ("source", "rivals"))
CONCLUSIONS = Shape(
    "a conclusion",
    (),
    (
        "confirm",
        "clear",
        "conclude",
        "check",
        "suspect",
        "points_to",
        "points_away",
        "normal",
        "caution",
        "stop_work",
        "advise",
    ),
)
CASES_FILE = Shape("a cases file", ("cases",))
_JOB_KEYS = ("plate", "qualified_for_live_work", "arrives", "answers", "rest", "after_repair")
ANSWERS_FILE = Shape("an answers file", ("machine", "complaints"), _JOB_KEYS)
CASE = Shape("a case", ("says", "source", "machine", "complaints", "expect"), _JOB_KEYS)
EXPECTATION = Shape("an expectation", ("outcome",), ("faults", "never_asks", "asks", "cautions", "normal"))

YES_NO = ("yes", "no")
SEEN = ("common", "occasional", "rare")
STRENGTHS = {"slightly": 3, "fairly": 6, "strongly": 10}  # decibans
RESERVED = frozenset(
    ("any", "all", "not", "machine", "plate", "complaint", "otherwise", "above", "below", "to", "least", "greatest")
)
