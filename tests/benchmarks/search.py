"""The search measured: python -m tests.benchmarks.search [--every N] [--json]

How long the choice of a question takes, on the shipped rules and on five times as many. Compare within one run: the
machine may be shared.
"""

from __future__ import annotations

import argparse
import json
from typing import Any

from expert.engine.knowledge import knowledge_of
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.language.worked.cases import load_cases
from tests.benchmarks.enlarged import enlarged
from tests.benchmarks.question_times import question_ms

TIMES = 5
FEWER = 12  # one case in so many where one job takes many times as long


def measure(every: int) -> dict[str, Any]:
    """All figures, by name."""
    base = load_rules(shipped("rules"))
    cases = load_cases(shipped("rules"), base)[::every]
    larger, shared = enlarged(base, TIMES), enlarged(base, TIMES, shared_complaints=True)
    return {
        "rules": {"shipped": len(base.rules), "larger": len(larger.rules)},
        "question_ms": question_ms(knowledge_of(base), cases),
        "question_ms_larger": question_ms(knowledge_of(larger), cases[::FEWER]),
        "question_ms_larger_same_complaints": question_ms(knowledge_of(shared), cases[::FEWER]),
    }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--every", type=int, default=1, help="Play one case in so many [1].")
    parser.add_argument("--json", action="store_true", help="As one JSON object.")
    options = parser.parse_args()
    figures = measure(options.every)
    print(json.dumps(figures, indent=2) if options.json else "\n".join(f"{k}: {v}" for k, v in figures.items()))


if __name__ == "__main__":
    main()
