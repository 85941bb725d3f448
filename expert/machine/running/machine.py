"""The whole machine as one frozen value."""

from __future__ import annotations

from dataclasses import dataclass

from expert.machine.bench.bench import Bench
from expert.machine.build.parts import Parts
from expert.machine.build.plate import Build
from expert.machine.running.state import State


@dataclass(frozen=True, slots=True)
class Machine:
    """Build, parts as they are (faults included), how it stands on the bench, its state, and the seed of all chance."""

    build: Build
    parts: Parts
    bench: Bench
    state: State
    seed: int = 0
