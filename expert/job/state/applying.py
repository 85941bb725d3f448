"""Which machines a question, a circuit or a value is for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from expert.language.model import RuleBase


def applies(base: RuleBase, features: Mapping[str, str], conditions: Iterable[Mapping[str, tuple[str, ...]]]) -> bool:
    """Whether a machine with these features meets every `applies`."""
    return all(
        features.get(feature.removeprefix("machine.")) in values
        for condition in conditions
        for feature, values in condition.items()
    )
