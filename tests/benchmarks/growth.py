"""Draws how time and memory grow with the rules: python -m tests.benchmarks.growth [--json] [FILE.svg]

The sizes are interleaved in one process: a few answers at each size in turn, round after round, so that whatever else
the machine does meanwhile meets all sizes alike.
"""

from __future__ import annotations

import argparse
import gc
import json
import random
from pathlib import Path

from tests.benchmarks.contestants import Clips, OurEngine, Plain, clips_kilobytes, our_kilobytes
from tests.benchmarks.drawing import Curve, Panel, draw
from tests.benchmarks.synthetic import synthetic
from tests.benchmarks.timing import each, median

SIZES = (1_000, 3_000, 10_000, 30_000, 100_000)
ROUNDS = 12
AT_A_TIME = 150
MOST_FOR_PLAIN = 10_000

Points = dict[int, float]
Measured = dict[str, Points]


def memory(sizes: tuple[int, ...]) -> Measured:
    """In megabytes, all rules together."""
    measured: Measured = {name: {} for name in ("loaded", "after a full job", "CLIPS loaded", "CLIPS after a full job")}
    for size in sizes:
        base = synthetic(size)
        for name, kilobytes in zip(measured, (*our_kilobytes(base), *clips_kilobytes(base)), strict=True):
            measured[name][size] = kilobytes * size / 1_000
    return measured


def times(sizes: tuple[int, ...]) -> Measured:
    """Medians in microseconds. Half of the questions are answered throughout, as in the middle of a job."""
    names = ("answer", "take-back", "what if", "CLIPS answer", "CLIPS take-back")
    taken: dict[str, dict[int, list[float]]] = {name: {size: [] for size in sizes} for name in names}
    bases = {size: synthetic(size) for size in sizes}
    ours = {size: OurEngine(base) for size, base in bases.items()}
    clips = {size: Clips(base) for size, base in bases.items()}
    chance = random.Random(3)
    open_questions = {}
    for size, base in bases.items():
        order = chance.sample(base.questions, len(base.questions))
        open_questions[size] = order[::2]
        for question in order[1::2]:
            ours[size].answer(question)
            clips[size].answer(question)
    gc.collect()
    gc.freeze()
    for _ in range(ROUNDS):
        for size in sizes:
            asked = chance.sample(open_questions[size], min(AT_A_TIME, len(open_questions[size])))
            back = chance.sample(asked, len(asked))
            taken["what if"][size] += each(ours[size].what_if, asked)
            # Other sizes have been at work since: what the what-ifs have warmed up must cool down again.
            for other in sizes:
                each(ours[other].what_if, open_questions[other][:AT_A_TIME])
            taken["answer"][size] += each(ours[size].answer, asked)
            taken["take-back"][size] += each(ours[size].take_back, back)
            taken["CLIPS answer"][size] += each(clips[size].answer, asked)
            taken["CLIPS take-back"][size] += each(clips[size].take_back, back)
    gc.unfreeze()
    measured = {name: {size: median(values) for size, values in by_size.items()} for name, by_size in taken.items()}
    measured["all anew"] = {}
    for size in sizes:
        if size <= MOST_FOR_PLAIN:
            plain = Plain(bases[size])
            measured["all anew"][size] = median(each(plain.answer, bases[size].questions[:5]))
    return measured


def panels(time: Measured, space: Measured) -> tuple[Panel, Panel]:
    def curves(measured: Measured) -> tuple[Curve, ...]:
        return tuple(
            Curve(name, points, ours=not name.startswith(("CLIPS", "all"))) for name, points in measured.items()
        )

    return (
        Panel("Time for one answer, median", "microseconds", curves(time)),
        Panel("Memory, names included", "megabytes", curves(space)),
    )


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.growth", description=__doc__)
    parser.add_argument("file", nargs="?", type=Path, default=Path(__file__).with_name("growth.svg"))
    parser.add_argument("--json", action="store_true", help="print the points as one JSON object")
    wanted = parser.parse_args()
    time, space = times(SIZES), memory(SIZES)
    least, most = SIZES[0], SIZES[-1]
    growth = {name: points[most] / points[least] for name, points in time.items() if most in points}
    wanted.file.write_text(draw(panels(time, space)), encoding="utf-8")
    if wanted.json:
        print(json.dumps({"microseconds": time, "megabytes": space, "growth": growth}))
    else:
        for name, times_as_long in growth.items():
            print(f"{name:18}{times_as_long:6.2f} times from {least:,} to {most:,} rules")


if __name__ == "__main__":
    main()
