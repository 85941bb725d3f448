"""What can be wrong with a rule file: one type of value, a stable code for each sort, and the refusal of the whole.

What the codes mean stands in `expert.language.sentences`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from expert.language.model import Position


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing wrong, where it is, what would do instead, and a code that stays the same for ever.

    >>> print(Problem(Position("pump.yaml", 3, 5), "'lo' is not an outcome of level", "unknown-outcome"))
    pump.yaml:3:5: 'lo' is not an outcome of level [unknown-outcome]
    """

    at: Position
    message: str
    code: str

    def __str__(self) -> str:
        return f"{self.at}: {self.message} [{self.code}]"


class RulesRefused(Exception):
    """The rule base cannot be used. `problems` holds everything that is wrong, sorted by place."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(set(problems)))
        super().__init__("\n".join(map(str, self.problems)))
