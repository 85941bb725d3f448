"""The rule base as immutable, typed values.

Everything a rule file says becomes one of these records once, on reading; nothing later touches YAML.
Sentences keep their author's words. Every record that an author can get wrong carries the position it came from.

The records stand in `rules`, `questions`, `parts`, `bench`; all import them from here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from expert.language.model.bench import (
    Arrival,
    Bench,
    Caution,
    Complaint,
    Feature,
    InTime,
    Machine,
    Move,
    PlateValue,
    ReadTwice,
)
from expert.language.model.hazards import Act, Hazard, Release
from expert.language.model.parts import Circuit, Fault, Feed, Part, Repair
from expert.language.model.questions import (
    Choice,
    Drawing,
    Finding,
    Form,
    Measure,
    Preparation,
    Question,
    Reading,
    WorkOut,
    YesNo,
)
from expert.language.model.rules import (
    ALWAYS,
    NEVER,
    NOWHERE,
    All,
    Any,
    Conclusion,
    Condition,
    Evidence,
    Is,
    NamedCondition,
    NamedList,
    Narrow,
    Normal,
    Not,
    Position,
    Rule,
    Say,
    Suspect,
)
from expert.trade.frozen import dataclass

if TYPE_CHECKING:
    from expert.trade.sensors.instruments import Instrument

__all__ = [
    "ALWAYS",
    "NEVER",
    "NOWHERE",
    "Act",
    "All",
    "Any",
    "Arrival",
    "Bench",
    "Caution",
    "Choice",
    "Circuit",
    "Complaint",
    "Conclusion",
    "Condition",
    "Drawing",
    "Evidence",
    "Fault",
    "Feature",
    "Feed",
    "Finding",
    "Form",
    "Hazard",
    "InTime",
    "Is",
    "Machine",
    "Measure",
    "Move",
    "NamedCondition",
    "NamedList",
    "Narrow",
    "Normal",
    "Not",
    "Part",
    "PlateValue",
    "Position",
    "Preparation",
    "Question",
    "ReadTwice",
    "Reading",
    "Release",
    "Repair",
    "Rule",
    "RuleBase",
    "Say",
    "Suspect",
    "WorkOut",
    "YesNo",
]


@dataclass(frozen=True, slots=True)
class RuleBase:
    """All that the rule files say. Every mapping is keyed by id and keeps the files' order.

    `same_words`: rows of words and phrases that customers use for one another.
    """

    circuits: Mapping[str, Circuit]
    parts: Mapping[str, Part]
    faults: Mapping[str, Fault]
    questions: Mapping[str, Question]
    findings: Mapping[str, Finding]
    feeds: Mapping[str, Feed]
    work_outs: Mapping[str, WorkOut]
    rules: Mapping[str, Rule]
    complaints: Mapping[str, Complaint]
    cautions: Mapping[str, Caution]
    features: Mapping[str, Feature]
    plate_values: Mapping[str, PlateValue]
    machines: Mapping[str, Machine]
    instruments: Mapping[str, Instrument]
    bench: Bench
    digest: str
    conditions: Mapping[str, NamedCondition]
    lists: Mapping[str, NamedList]
    acts: Mapping[str, Act] = field(default_factory=dict)
    hazards: Mapping[str, Hazard] = field(default_factory=dict)
    same_words: tuple[tuple[str, ...], ...] = ()

    def outcomes(self) -> dict[str, tuple[str, ...]]:
        """Every fact with its outcomes: questions, findings, faults, machine features, complaints."""
        facts = {f"machine.{f.id}": f.values for f in self.features.values()}
        facts |= {f"complaint.{c}": ("yes", "no") for c in self.complaints}
        facts |= {q.id: q.outcomes for q in self.questions.values()}
        facts |= {f.id: f.outcomes for f in self.findings.values()}
        facts |= dict.fromkeys(self.faults, ("present", "absent"))
        return facts
