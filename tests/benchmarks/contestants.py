"""The engine, the plain evaluator and CLIPS on one base, each with the same four verbs."""

from __future__ import annotations

import gc
import tracemalloc
from time import perf_counter

from expert.engine import Network, State
from expert.language.garbage import garbage_collection_off
from tests.benchmarks.in_clips import ValuesInClips
from tests.benchmarks.synthetic import Synthetic
from tests.engine.plain import Base, evaluate


class OurEngine:
    """`seconds`: what building took, from checked conditions."""

    def __init__(self, base: Synthetic) -> None:
        rules = list(base.rules())
        gc.collect()
        start = perf_counter()
        # As the program does with its rule base.
        with garbage_collection_off(for_good=True):
            self.network = Network.build(base.outcomes, rules)
            self.state = State(self.network)
        self.seconds = perf_counter() - start
        self._world = {fact: (outcome,) for fact, outcome in base.world.items()}

    def answer(self, question: str) -> None:
        self.state.narrow(question, question, self._world[question])

    def take_back(self, question: str) -> None:
        self.state.take_back(question)

    def what_if(self, question: str) -> None:
        self.state.what_if(question, self._world[question])

    def seen(self) -> tuple[dict[str, str], set[str]]:
        known = {fact: self.state.possible(fact) for fact in self.network.facts.names}
        return {fact: left[0] for fact, left in known.items() if len(left) == 1}, set(self.state.fired)


class Clips:
    """CLIPS without marks: its rules do nothing but conclude."""

    def __init__(self, base: Synthetic, mark: bool = False) -> None:
        self.reference = ValuesInClips(base.outcomes, list(base.rules()), mark)
        self._world = base.world

    def answer(self, question: str) -> None:
        self.reference.answer(question, self._world[question])

    def take_back(self, question: str) -> None:
        self.reference.take_back(question)

    def seen(self) -> tuple[dict[str, str], set[str]]:
        return self.reference.values(), self.reference.fired()


class Plain:
    """The plain evaluator: everything anew for every answer."""

    def __init__(self, base: Synthetic) -> None:
        self._base = Base(base.outcomes, tuple(base.rules()))
        self._world = base.world
        self._said: dict[str, tuple[str, ...]] = {}
        self._seen = evaluate(self._base, [])

    def answer(self, *questions: str) -> None:
        self._said |= {question: (self._world[question],) for question in questions}
        self._seen = evaluate(self._base, self._said.items())

    def seen(self) -> tuple[dict[str, str], set[str]]:
        possible, fired = self._seen
        return {fact: next(iter(left)) for fact, left in possible.items() if len(left) == 1}, set(fired)


def our_kilobytes(base: Synthetic) -> tuple[float, float]:
    """Memory for each rule in kB, names included: of the network with a fresh state, and after every question has been
    answered. Counted by Python's own tracer; the base itself and the conditions are not kept by the network.
    """
    tracemalloc.start()
    # Names of their own, so that they are counted.
    network = Network.build({fact[:1] + fact[1:]: names for fact, names in base.outcomes.items()}, base.rules())
    state = State(network)
    gc.collect()
    loaded = tracemalloc.get_traced_memory()[0]
    for number, question in enumerate(base.questions):
        state.narrow(f"answer {number}", question, (base.world[question],))
    gc.collect()
    after = tracemalloc.get_traced_memory()[0]
    tracemalloc.stop()
    return loaded / base.size / 1_000, after / base.size / 1_000


def clips_kilobytes(base: Synthetic) -> tuple[float, float]:
    """The same for CLIPS, by its own count; what clipspy adds on Python's side is left out."""
    clips = Clips(base)
    before = clips.reference.memory() - clips.reference.loaded
    for question in base.questions:
        clips.answer(question)
    return clips.reference.loaded / base.size / 1_000, (clips.reference.memory() - before) / base.size / 1_000
