"""Every machine type says how it stands with every feature, so that no rule is left hanging."""

from __future__ import annotations

from collections.abc import Iterable

from expert.language.problems import Problem
from expert.language.reading.draft import Draft

CODES = {"missing-feature": "A machine type does not say which value of a feature it has."}


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every feature that a machine does not state."""
    for machine in draft.machines.values():
        for feature in draft.features.values():
            if feature.id not in machine.features:
                message = f"{machine.id} must state the feature '{feature.id}': one of {', '.join(feature.values)}"
                yield Problem(draft.place("machine", machine.id, "features"), message, "missing-feature")
