"""Ways in which a condition can come true: each fact with the outcomes that will do."""

from __future__ import annotations

from collections.abc import Mapping

Way = Mapping[str, frozenset[str]]


def answers_of(way: Way) -> str:
    """A way in words, as a witness: the answers that do it.

    >>> answers_of({"level": frozenset(["low"]), "runs": frozenset(["yes", "no"])})
    'level: low, runs: no/yes'
    """
    return ", ".join(f"{fact}: {'/'.join(sorted(outcomes))}" for fact, outcomes in way.items())


def implies(narrow: Way, wide: Way) -> bool:
    """Whether wherever the one way is true the other is true as well."""
    return all(fact in narrow and narrow[fact] <= outcomes for fact, outcomes in wide.items())


def together(one: Way, other: Way) -> Way | None:
    """Both ways at once, or None where no answers make both true."""
    both = dict(one)
    for fact, outcomes in other.items():
        both[fact] = both.get(fact, outcomes) & outcomes
        if not both[fact]:
            return None
    return both
