"""A rule base in CLIPS, in the form that CLIPS is fastest with: values of facts, spread over many templates."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from time import perf_counter

import clips

from expert.language.model import All, Condition, Is

Narrowings = tuple[tuple[str, tuple[str, ...]], ...]
Rules = Sequence[tuple[str, Condition, Narrowings]]


class ValuesInClips:
    """Rules that are plain conjunctions with single-valued conclusions.

    With one template CLIPS loads in quadratic time; about 3 * sqrt(N) templates serve it best. Loading a file is ten
    times as fast as building one construct after the other. `logical` makes taking back possible. `mark`: have every
    rule leave a mark when it fires (else `fired` is of no use). `seconds`: what loading took, the file being written
    already. `loaded`: bytes taken by CLIPS for the rules.
    """

    def __init__(self, outcomes: Mapping[str, Sequence[str]], rules: Rules, mark: bool = True) -> None:
        count = max(1, round(3 * len(rules) ** 0.5))
        template = {fact: f"t{number % count}" for number, fact in enumerate(outcomes)}
        self.environment = clips.Environment()
        before = self.memory()
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "rules.clp"
            path.write_text("\n".join(constructs(template, rules, mark)), encoding="ascii")
            start = perf_counter()
            self.environment.load(str(path))
            self.seconds = perf_counter() - start
        self.loaded = self.memory() - before
        self._template = {fact: self.environment.find_template(name) for fact, name in template.items()}
        self._symbol = {text: clips.Symbol(text) for fact in outcomes for text in (fact, *outcomes[fact])}
        self._said: dict[str, clips.TemplateFact] = {}

    def answer(self, fact: str, value: str) -> None:
        symbol = self._symbol
        self._said[fact] = self._template[fact].assert_fact(fact=symbol[fact], value=symbol[value])
        self.environment.run()

    def take_back(self, fact: str) -> None:
        self._said.pop(fact).retract()
        self.environment.run()

    def values(self) -> dict[str, str]:
        known = [fact for fact in self.environment.facts() if fact.template.name not in ("mark", "initial-fact")]
        values = {str(fact["fact"]): str(fact["value"]) for fact in known}
        assert len(values) == len(known), "two values of one fact"
        return values

    def fired(self) -> set[str]:
        return {str(fact["rule"]) for fact in self.environment.find_template("mark").facts()}

    def memory(self) -> int:
        """Bytes that CLIPS itself has taken."""
        return int(self.environment.eval("(mem-used)"))


def constructs(template: Mapping[str, str], rules: Rules, mark: bool) -> list[str]:
    """The templates and rules as CLIPS reads them."""
    texts = [f"(deftemplate {name} (slot fact) (slot value))" for name in dict.fromkeys(template.values())]
    texts.append("(deftemplate mark (slot rule))")
    for rule, condition, narrowings in rules:
        assert isinstance(condition, All)
        tests = [part for part in condition.parts if isinstance(part, Is)]
        assert len(tests) == len(condition.parts)
        when = " ".join(f"({template[t.fact]} (fact {t.fact}) (value {'|'.join(t.outcomes)}))" for t in tests)
        then = " ".join(f"(assert ({template[fact]} (fact {fact}) (value {value})))" for fact, (value,) in narrowings)
        then += f"(assert (mark (rule {rule})))" if mark else ""
        texts.append(f"(defrule {rule} (logical {when}) => {then})")
    return texts
