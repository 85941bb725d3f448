"""Every machine type says how it stands with every feature, so that no rule is left hanging."""

from __future__ import annotations

from collections.abc import Iterable

from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {"missing-feature": say.MISSING_FEATURE}


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every feature that a machine does not state."""
    for machine in draft.machines.values():
        for feature in draft.features.values():
            if feature.id not in machine.features:
                message = say.must_state_feature(machine.id, feature.id, ", ".join(feature.values))
                yield Problem(draft.place("machine", machine.id, "features"), message, "missing-feature")
