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
from functools import partial

from expert.machine import (
    FAULTS,
    Build,
    Collect,
    Covers,
    Fault,
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
    """Milliseconds of processor time: other work on the machine does not count."""
    start = time.process_time()
    work()
    return (time.process_time() - start) * 1000


Note = Callable[[str, Callable[[], object]], None]


def one_machine(fault: Fault, seed: int, note: Note) -> None:
    """Time everything on one machine."""
    made: list[Machine] = []
    note("brought in", lambda: made.append(brought_in(Build(), [fault], seed)))
    machine = do(made[0], Covers())
    for cold in COLD:
        note("observation", partial(observe, machine, cold))
    note("heat-up of 25 minutes", lambda: made.append(do(do(machine, Plug()), HeatUp(25.0))))
    for hot in HOT:
        note("observation", partial(observe, made[-1], hot))
    note("watch of 90 seconds", lambda: observe(made[-1], Watch(90.0)))
    note("trial use", lambda: complaints(made[0]))


def measure() -> dict[str, float]:
    """Medians in milliseconds by what is done."""
    times: dict[str, list[float]] = {}

    def note(what: str, work: Callable[[], object]) -> None:
        times.setdefault(what, []).append(timed(work))

    for seed, fault in enumerate(FAULTS[:: max(len(FAULTS) // MACHINES, 1)]):
        one_machine(fault, seed, note)
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
