"""The network of a rule base."""

from __future__ import annotations

from expert.engine.network import Network
from expert.language.model import Narrow, RuleBase


def network_of(base: RuleBase) -> Network:
    """The facts of the rule base and what its rules confirm, clear and conclude. What else they say narrows nothing."""
    return Network.build(
        base.outcomes(),
        (
            (
                rule.id,
                rule.when,
                tuple((said.fact, said.outcomes) for said in rule.then if isinstance(said, Narrow)),
            )
            for rule in base.rules.values()
        ),
    )
