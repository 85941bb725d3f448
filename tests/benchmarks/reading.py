"""From rule files to the first question: python -m tests.benchmarks.reading [--rules N] [--json]

The shipped base in a fresh process each time, up to the first line that `expert bench` prints; and a base of N rules
written out as one more circuit of the shipped base, up to a network that takes answers.
"""

from __future__ import annotations

import argparse
import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from time import perf_counter

from expert.engine import State, network_of
from expert.language.load import load_rules
from expert.language.model import All, Is
from expert.language.shipped import shipped
from tests.benchmarks.synthetic import Synthetic, synthetic
from tests.benchmarks.timing import median

STARTS = 7
PROGRAM = "import sys; from expert.cli import main; sys.argv[0] = 'expert'; main()"


def first_question() -> float:
    """Seconds from starting the program to its first line."""
    with tempfile.TemporaryDirectory() as jobs:
        command = [sys.executable, "-c", PROGRAM, "bench", "--plain", "--jobs", jobs]
        start = perf_counter()
        with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as program:
            assert program.stdin is not None
            assert program.stdout is not None
            if not program.stdout.readline().strip():
                raise SystemExit("the program said nothing")
            seconds = perf_counter() - start
            program.stdin.close()
            program.stdout.read()
    return seconds


def bare_start() -> float:
    """Seconds that Python by itself takes, for comparison."""
    start = perf_counter()
    subprocess.run([sys.executable, "-c", "pass"], check=True)
    return perf_counter() - start


def circuit_text(base: Synthetic) -> Iterator[str]:
    """The base as one circuit file. What the engine does not need is kept as short as the language allows."""
    yield "circuit: synthetic\ntitle: Synthetic\nquestions:"
    for question in base.questions:
        outcomes = base.outcomes[question]
        plain = outcomes == ("yes", "no")
        answer = "yes_no" if plain else f"{{one_of: {{{', '.join(f'{name}: {name}' for name in outcomes)}}}}}"
        yield f"  {question}:\n    ask: How does it look at {question}?\n    answer: {answer}"
        yield f"    sound: {base.world[question]}\n    how: Look.\n    minutes: 1"
    yield "findings:"
    for finding, outcomes in base.outcomes.items():
        if finding not in base.questions:
            yield f"  {finding}: {{name: {finding}, outcomes: [{', '.join(outcomes)}]}}"
    yield "rules:"
    for rule, condition, narrowings in base.rules():
        assert isinstance(condition, All)
        tests = (part for part in condition.parts if isinstance(part, Is))
        when = ", ".join(f"{test.fact}: [{', '.join(test.outcomes)}]" for test in tests)
        then = ", ".join(f"{fact}: {outcome}" for fact, (outcome,) in narrowings)
        yield f"  {rule}:\n    if: {{{when}}}\n    then: {{conclude: {{{then}}}}}\n    because: It was drawn so."


def write_rules(base: Synthetic, folder: Path) -> int:
    """The shipped rule files with the base as one more circuit. Returns the bytes of that circuit's file."""
    shutil.copytree(shipped("rules"), folder, dirs_exist_ok=True)
    return (folder / "circuits" / "synthetic.yaml").write_text("\n".join(circuit_text(base)) + "\n", encoding="utf-8")


def generated(size: int) -> dict[str, float]:
    """Seconds to read and check, and to build, a written base of this many rules."""
    base = synthetic(size)
    reading, building = [], []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        length = write_rules(base, folder)
        for _ in range(3):
            start = perf_counter()
            rules = load_rules(folder)
            read = perf_counter()
            state = State(network_of(rules))
            reading.append(read - start)
            building.append(perf_counter() - read)
    question = base.questions[0]
    state.narrow("answer 1", question, [base.world[question]])
    if size > len(rules.rules):
        raise SystemExit(f"{len(rules.rules)} rules were read where {size} were written")
    return {
        "rules": len(rules.rules),
        "file_megabytes": length / 1e6,
        "read_and_check_s": median(reading),
        "build_s": median(building),
    }


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.reading", description=__doc__)
    parser.add_argument("--rules", type=int, default=10_000)
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    wanted = parser.parse_args()
    figures = generated(wanted.rules)
    figures["python_alone_s"] = median([bare_start() for _ in range(STARTS)])
    figures["shipped_to_first_question_s"] = median([first_question() for _ in range(STARTS)])
    if wanted.json:
        print(json.dumps(figures))
    else:
        for name, value in figures.items():
            print(f"{name:30}{value:>12,.3f}")


if __name__ == "__main__":
    main()
