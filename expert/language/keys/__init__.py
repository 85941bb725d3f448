"""Every key of the rule language, in one place: what stands under it, and one sentence on what it means.

Reading, the message about an unknown key, the manual's tables and the JSON Schemas all follow from the shapes here.
A new key is one line in one of these tables and a field of the record's model. What is not here is not in the language.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from expert.language.keys import kinds
from expert.language.keys.bench import AFTER_OPENING, ARRIVAL, BENCH_FILE, HAND_BACK, IN_TIME, MOVE, READ_TWICE
from expert.language.keys.circuits import (
    CHOICE,
    CIRCUIT_FILE,
    CIRCUIT_PART_FILE,
    CONCLUSIONS,
    DRAWING,
    FAULT,
    FEED,
    FINDING,
    MEASUREMENT,
    PART,
    PREPARATION,
    QUESTION,
    READING,
    REPAIR,
    RULE,
    WORK_OUT,
)
from expert.language.keys.hazards import ACT, HAZARD, HAZARDS_FILE, RELEASE
from expert.language.keys.kinds import Key, Shape
from expert.language.keys.short_files import (
    CAUTION,
    CAUTIONS_FILE,
    COMPLAINT,
    COMPLAINTS_FILE,
    FEATURE,
    FEATURES_FILE,
    INSTRUMENT,
    INSTRUMENTS_FILE,
    MACHINE_FILE,
    PLATE_VALUE,
    RANGE,
)
from expert.language.keys.words import BY_COUNTRY, RESERVED, SEEN, STRENGTHS, YES_NO
from expert.language.keys.worked import ANSWERS_FILE, CASE, CASES_FILE, EXPECTATION

# What each sort of file of a rule base holds.
FILES: Mapping[str, Shape] = MappingProxyType(
    {
        "features": FEATURES_FILE,
        "complaints": COMPLAINTS_FILE,
        "cautions": CAUTIONS_FILE,
        "instruments": INSTRUMENTS_FILE,
        "bench": BENCH_FILE,
        "machine": MACHINE_FILE,
        "circuit": CIRCUIT_FILE,
        "circuit part": CIRCUIT_PART_FILE,
        "hazards": HAZARDS_FILE,
    }
)

__all__ = [
    "ACT",
    "AFTER_OPENING",
    "ANSWERS_FILE",
    "ARRIVAL",
    "BENCH_FILE",
    "BY_COUNTRY",
    "CASE",
    "CASES_FILE",
    "CAUTION",
    "CAUTIONS_FILE",
    "CHOICE",
    "CIRCUIT_FILE",
    "CIRCUIT_PART_FILE",
    "COMPLAINT",
    "COMPLAINTS_FILE",
    "CONCLUSIONS",
    "DRAWING",
    "EXPECTATION",
    "FAULT",
    "FEATURE",
    "FEATURES_FILE",
    "FEED",
    "FILES",
    "FINDING",
    "HAND_BACK",
    "HAZARD",
    "HAZARDS_FILE",
    "INSTRUMENT",
    "INSTRUMENTS_FILE",
    "IN_TIME",
    "MACHINE_FILE",
    "MEASUREMENT",
    "MOVE",
    "PART",
    "PLATE_VALUE",
    "PREPARATION",
    "QUESTION",
    "RANGE",
    "READING",
    "READ_TWICE",
    "RELEASE",
    "REPAIR",
    "RESERVED",
    "RULE",
    "SEEN",
    "STRENGTHS",
    "WORK_OUT",
    "YES_NO",
    "Key",
    "Shape",
    "kinds",
]
