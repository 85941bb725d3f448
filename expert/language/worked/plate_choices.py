"""What may be told beside the ratings of a plate: the features and the conditions that limits rest on."""

from __future__ import annotations

from collections.abc import Mapping

from expert.language.model import RuleBase
from expert.trade.quantities.units import Quantity


def features_behind_limits(base: RuleBase) -> Mapping[str, tuple[str, ...]]:
    """The features that worked-out values take, such as the country set of the limits, with their values."""
    names = dict.fromkeys(name for record in base.work_outs.values() for name in record.formula.names)
    features = [name.removeprefix("machine.") for name in names if name.startswith("machine.")]
    return {name: base.features[name].values for name in features if name in base.features}


def conditions_behind_limits(base: RuleBase) -> Mapping[str, Quantity]:
    """Conditions that can be told at once, such as the altitude, and what limits assume while they are not known.

    They are the measured questions for which a number is assumed and that need no state of the bench.
    """
    assumed = {name: value for record in base.work_outs.values() for name, value in record.assume.items()}
    return {
        name: value for name, value in assumed.items() if isinstance(value, Quantity) and not base.questions[name].bench
    }
