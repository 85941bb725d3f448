"""Conditions and conclusions as plain data for writing back."""

from __future__ import annotations

from expert.language.keys import STRENGTHS
from expert.language.model import (
    All,
    Any,
    Conclusion,
    Condition,
    Evidence,
    Is,
    Narrow,
    Normal,
    Not,
    RuleBase,
    Say,
    Suspect,
)
from expert.language.yaml.writing import Data

_WEIGHTS = {decibans: word for word, decibans in STRENGTHS.items()}


def condition_data(condition: Condition) -> Data:
    """A condition as the mapping that an author would write."""
    match condition:
        case Is(fact, outcomes):
            return {fact: one_or_list(outcomes)}
        case Not(part):
            return {"not": condition_data(part)}
        case Any(parts):
            return {"any": [condition_data(part) for part in parts]}
        case All(parts):
            tests = {part.fact: one_or_list(part.outcomes) for part in parts if isinstance(part, Is)}
            if len(tests) == len(parts):
                return tests
            return {"all": [condition_data(part) for part in parts]}


def one_or_list(texts: tuple[str, ...]) -> Data:
    """One text without brackets, several as a list."""
    return texts[0] if len(texts) == 1 else list(texts)


def conclusions_data(conclusions: tuple[Conclusion, ...], base: RuleBase) -> Data:
    """What stands under `then`, in the same order."""
    data: dict[str, Data] = {}
    for conclusion in conclusions:
        word, value = _conclusion(conclusion, base)
        there = data.get(word)
        if isinstance(there, dict) and isinstance(value, dict):
            there.update(value)
        elif isinstance(there, list) and isinstance(value, list):
            there.extend(value)
        else:
            data[word] = value
    return data


def _conclusion(conclusion: Conclusion, base: RuleBase) -> tuple[str, dict[str, Data] | list[Data]]:
    match conclusion:
        case Narrow(fact, outcomes, "conclude"):
            return "conclude", {fact: one_or_list(outcomes)}
        case Narrow(fact, _, word):
            return word, [fact]
        case Suspect(faults, in_order):
            return "check" if in_order else "suspect", list(faults)
        case Evidence(fault, decibans):
            word = "points_to" if decibans > 0 else "points_away"
            return word, {fault: _WEIGHTS[abs(decibans)]}
        case Normal(complaints):
            return "normal", list(complaints)
        case Say("caution", text):
            return "caution", [next(caution.id for caution in base.cautions.values() if caution.text == text)]
        case Say(word, text):
            return word, [text]
