"""How long the simulated machine takes: an observation, a heat-up, a machine as brought in, a trial use.

    python -m tests.benchmarks.machine [--json]

Each is a median over machines with one fault each; wanted: an observation in under 5 ms.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from collections.abc import Callable

from expert.machine import (
    FAULTS,
    Build,
    Collect,
    Covers,
    HeatUp,
    Insulation,
    Look,
    Machine,
    Plug,
    PressureOn,
    ResistanceBetween,
    Volts,
    Watch,
    brought_in,
    complaints,
    do,
    observe,
)

COLD = (Look("tank"), ResistanceBetween("plug.live", "plug.neutral"), Insulation(), PressureOn("boiler gauge"))
HOT = (Volts("element.a", "element.b"), PressureOn("pump gauge"), Look("vacuum valve"), Collect("group", 10.0))
MACHINES = 40


def timed(work: Callable[[], object]) -> float:
    """Milliseconds."""
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def measure() -> dict[str, float]:
    """Medians in milliseconds by what is done."""
    times: dict[str, list[float]] = {}

    def note(what: str, work: Callable[[], object]) -> None:
        times.setdefault(what, []).append(timed(work))

    for seed, fault in enumerate(FAULTS[:: max(len(FAULTS) // MACHINES, 1)]):
        made: list[Machine] = []
        note("brought in", lambda fault=fault, seed=seed: made.append(brought_in(Build(), [fault], seed)))  # type: ignore[misc]
        machine = do(made[0], Covers())
        for asked in COLD:
            note("observation", lambda asked=asked: observe(machine, asked))  # type: ignore[misc]
        note("heat-up of 25 minutes", lambda: made.append(do(do(machine, Plug()), HeatUp(25.0))))
        hot = made[-1]
        for asked in HOT:
            note("observation", lambda asked=asked: observe(hot, asked))  # type: ignore[misc]
        note("watch of 90 seconds", lambda: observe(hot, Watch(90.0)))
        note("trial use", lambda: complaints(made[0]))
    found = {what: round(statistics.median(values), 2) for what, values in times.items()}
    found["observation, slowest of a hundred"] = round(statistics.quantiles(times["observation"], n=100)[98], 2)
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--json", action="store_true")
    found = measure()
    if parser.parse_args().json:
        print(json.dumps(found))
        return
    for what, milliseconds in found.items():
        print(f"{milliseconds:9.2f} ms  {what}")


if __name__ == "__main__":
    main()
