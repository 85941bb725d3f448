"""The search measured: python -m tests.benchmarks.search [--every N] [--only NAME] [--json]

- question_ms, question_ms_larger...: processor time for the choice of a question, also on five times the rules
- strategies: found, condemned, questions and minutes of the search over the worked cases, for the shipped way, the
  authors' order, chance and the cheapest first; compared without the offer to stop
- strategies_on_machines: the same over simulated machines with one fault each, drawn from the witness
- where_questions_go: what the questions of whole jobs on simulated machines are for
- sparse: jobs in which a third of the tests cannot be made, with the offer to stop
- against_the_best: minutes against the best possible in a closed world, for the complaints small enough to work it out

Compare within one run: the machine may be shared.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Sequence

from expert.engine.knowledge import knowledge_of
from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.language.shipped import shipped
from expert.language.worked.cases import Case, load_cases
from tests.benchmarks.closed_world import against_the_best
from tests.benchmarks.enlarged import enlarged
from tests.benchmarks.on_machines import compared_on_machines, where_questions_go
from tests.benchmarks.question_times import question_ms
from tests.benchmarks.sparse_jobs import sparse_jobs
from tests.benchmarks.strategies import compared

TIMES = 5
FEWER = 12  # one case in so many where one job takes many times as long

MEASURES: dict[str, Callable[[RuleBase, Sequence[Case]], object]] = {
    "question_ms": lambda base, cases: question_ms(knowledge_of(base), cases),
    "question_ms_larger": lambda base, cases: question_ms(knowledge_of(enlarged(base, TIMES)), cases[::FEWER]),
    "question_ms_larger_same_complaints": lambda base, cases: question_ms(
        knowledge_of(enlarged(base, TIMES, shared_complaints=True)), cases[::FEWER]
    ),
    "strategies": lambda base, cases: compared(knowledge_of(base), cases),
    "strategies_on_machines": lambda base, cases: compared_on_machines(),
    "where_questions_go": lambda base, cases: where_questions_go(),
    "sparse": lambda base, cases: sparse_jobs(knowledge_of(base), cases),
    "against_the_best": lambda base, cases: against_the_best(knowledge_of(base)),
}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--every", type=int, default=1, help="Play one case in so many [1].")
    parser.add_argument("--only", choices=MEASURES, help="Only this measure.")
    parser.add_argument("--json", action="store_true", help="As one JSON object.")
    options = parser.parse_args()
    base = load_rules(shipped("rules"))
    cases = load_cases(shipped("rules"), base)[:: options.every]
    wanted = [options.only] if options.only else list(MEASURES)
    figures = {name: MEASURES[name](base, cases) for name in wanted}
    print(json.dumps(figures, indent=2) if options.json else "\n".join(f"{k}: {v}" for k, v in figures.items()))


if __name__ == "__main__":
    main()
