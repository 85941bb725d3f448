"""Rule bases of any size for measuring: same size, same seed, same base.

Rules of one to five conditions over yes/no facts, measurements and choices; six layers; a few popular facts. A hidden
"world" says how every fact really is. Rules never contradict it, so answers taken from it can be given in any order.
The data are invented; they check nothing.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass

from expert.language.model import All, Condition, Is

LAYERS = 6
YES_NO = ("yes", "no")
READINGS = ("open", "sound", "shorted", "off_value")
CHOICES = ("none", "drips", "weak", "steady", "gushes")
Narrowings = tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Synthetic:
    """Facts with outcomes, the questions among them, how they really are, and the recipe of the rules.

    `popular`: a question that `popular_rules` of the rules test.
    """

    size: int
    seed: int
    popular_rules: int
    outcomes: dict[str, tuple[str, ...]]
    questions: tuple[str, ...]
    popular: str
    world: dict[str, str]

    def rules(self) -> Iterator[tuple[str, Condition, Narrowings]]:
        """The rules, made afresh each time: what a reader keeps of them is all that takes up memory."""
        chance = random.Random(self.seed)
        every = max(1, self.size // self.popular_rules)
        layers = [list(self.questions)]
        findings = [fact for fact in self.outcomes if fact.startswith("finding")]
        share = len(findings) / LAYERS
        layers += [findings[round(i * share) : round((i + 1) * share)] for i in range(LAYERS)]
        for number in range(self.size):
            layer = number * LAYERS // self.size
            count = chance.randint(1, 5)
            below = [chance.choice(layers[layer] if chance.random() < 0.5 else layers[0]) for _ in range(count)]
            if number % every == 0:
                below[0] = self.popular
            fact = chance.choice(layers[layer + 1])
            yield self._rule(chance, number, list(dict.fromkeys(below)), fact)

    def _rule(
        self, chance: random.Random, number: int, below: list[str], fact: str
    ) -> tuple[str, Condition, Narrowings]:
        parts, holds = [], True
        for premise in below:
            names = self.outcomes[premise]
            real = self.world[premise]
            if chance.random() < 0.2:
                other = chance.choice([name for name in names if name != real])
                parts.append(Is(premise, (other,)))
                holds = False
            elif len(names) > 2 and chance.random() < 0.2:
                beside = chance.choice([name for name in names if name != real])
                parts.append(Is(premise, (real, beside)))
            else:
                parts.append(Is(premise, (real,)))
        then = self.world[fact] if holds else chance.choice(self.outcomes[fact])
        return f"rule_{number}_about_{fact}", All(tuple(parts)), ((fact, (then,)),)


def synthetic(size: int, seed: int = 1, popular_rules: int | None = None) -> Synthetic:
    """A base of about this many rules: three questions and two findings to every ten rules.

    `popular_rules`: a thousand unless told, but no more than a quarter of them all.
    """
    popular_rules = popular_rules or min(1_000, max(1, size // 4))
    chance = random.Random(seed)
    outcomes: dict[str, tuple[str, ...]] = {}
    for number in range(max(6, size * 3 // 10)):
        outcomes[f"question_{number}"] = chance.choice((YES_NO, YES_NO, READINGS, CHOICES))
    questions = tuple(outcomes)
    for number in range(max(LAYERS, size * 2 // 10)):
        outcomes[f"finding_{number}"] = chance.choice((YES_NO, YES_NO, READINGS))
    world = {fact: chance.choice(names) for fact, names in outcomes.items()}
    return Synthetic(size, seed, popular_rules, outcomes, questions, questions[0], world)
