"""Cold start: from the start of `expert bench` to its first question on the screen of a terminal, and until a line can
be typed, against Python importing prompt_toolkit and nothing else:

    python -m tests.benchmarks.starting [--times N] [--json]

All starts are interleaved in one run, so that other work on the machine slows all of them; ratios are of medians. The
rules are those shipped, read by the same program before, and modules are compiled, ours and theirs, as on every start
but the first after an update: bytecode is kept in a folder of the run, also where the environment forbids to write it.
"""

from __future__ import annotations

import argparse
import json
import os
import pty
import select
import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter

from tests.benchmarks.timing import median

BASELINE = "import prompt_toolkit"
PROGRAM = "import sys; from expert.cli import main; sys.argv[0] = 'expert'; main()"
QUESTION = b"Who is at the bench?"
CAN_BE_TYPED = b"\x1b[?2004h"  # the prompt asks the terminal to mark pastes
PATIENCE = 20  # seconds


def settings_in(folder: Path) -> dict[str, str]:
    """An environment in which whatever was run once is compiled, and nobody has a profile."""
    allowed = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return allowed | {
        "PYTHONPYCACHEPREFIX": str(folder / "bytecode"),
        "XDG_CACHE_HOME": str(folder / "cache"),
        "EXPERT_SHOP": str(folder / "none.yaml"),
        "TERM": "xterm",
    }


def baseline(folder: Path) -> float:
    """Seconds until a bare Python has imported prompt_toolkit and ended."""
    start = perf_counter()
    subprocess.run([sys.executable, "-c", BASELINE], check=True, env=settings_in(folder))
    return perf_counter() - start


def bench(folder: Path) -> tuple[float, float]:
    """Seconds until the first question stands in a terminal, and until a line can be typed."""
    ours, theirs = pty.openpty()
    settings = settings_in(folder)
    command = [sys.executable, "-c", PROGRAM, "bench", "--jobs", str(folder / "jobs")]
    start = perf_counter()
    with subprocess.Popen(command, stdin=theirs, stdout=theirs, stderr=theirs, env=settings) as program:
        os.close(theirs)
        shown = b""
        asked = 0.0
        try:
            while not (asked and CAN_BE_TYPED in shown.partition(QUESTION)[2]):
                if not select.select([ours], [], [], PATIENCE)[0]:
                    raise SystemExit(f"the program went no further than {shown!r}")
                shown += os.read(ours, 65_536)
                if not asked and QUESTION in shown:
                    asked = perf_counter() - start
            typed = perf_counter() - start
        finally:
            program.kill()
            os.close(ours)
    return asked, typed


def measured(times: int) -> dict[str, float]:
    """Medians in seconds, and their ratios."""
    bare, asked, typed = [], [], []
    with tempfile.TemporaryDirectory() as name:
        baseline(Path(name))
        bench(Path(name))  # compiles what was never run, and keeps the rules
        for _ in range(times):
            bare.append(baseline(Path(name)))
            first, second = bench(Path(name))
            asked.append(first)
            typed.append(second)
    return {
        "import_s": median(bare),
        "question_s": median(asked),
        "typing_s": median(typed),
        "question_ratio": median(asked) / median(bare),
        "typing_ratio": median(typed) / median(bare),
    }


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.starting", description=__doc__)
    parser.add_argument("--times", type=int, default=15)
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    wanted = parser.parse_args()
    figures = measured(wanted.times)
    if wanted.json:
        print(json.dumps(figures))
    else:
        for name, value in figures.items():
            print(f"{name:20}{value:>10,.3f}")


if __name__ == "__main__":
    main()
