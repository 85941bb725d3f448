"""Measures the engine against CLIPS and the plain evaluator: python -m tests.benchmarks.engine [--rules N] [--json]

All answers come from the base's hidden world, in an order drawn once. Each round answers the questions one by one, then
takes them back one by one; rounds of the engine and of CLIPS alternate in one process.
"""

from __future__ import annotations

import argparse
import gc
import json
import random
from collections.abc import Sequence

from expert.engine import Network, State
from expert.language.model import All, Is
from tests.benchmarks.contestants import Clips, OurEngine, Plain, clips_kilobytes, our_kilobytes
from tests.benchmarks.synthetic import Synthetic, synthetic
from tests.benchmarks.timing import each, high, median
from tests.engine.plain import truth

MOST_QUESTIONS = 2_000
ROUNDS = 5

Figures = dict[str, float]


def conditions_on_each_fact(base: Synthetic) -> dict[str, list[Is]]:
    """Every single condition of every rule, under the fact it tests."""
    conditions: dict[str, list[Is]] = {fact: [] for fact in base.outcomes}
    for _, condition, _ in base.rules():
        assert isinstance(condition, All)
        for part in condition.parts:
            assert isinstance(part, Is)
            conditions[part.fact].append(part)
    return conditions


def count_work(base: Synthetic, steps: int = 300) -> Figures:
    """Counters touched for each single condition that became true, false or unknown: answers, then take-backs.

    `counters_per_change` counts what the gates lack, `all_counters_per_change` also what excludes outcomes.
    """
    conditions = conditions_on_each_fact(base)
    state = State(Network.build(base.outcomes, base.rules()))
    asked = random.Random(1).sample(base.questions, min(steps, len(base.questions)))
    changed = 0
    for change in [
        *(state.narrow(question, question, [base.world[question]]) for question in asked),
        *(state.take_back(question) for question in asked[::2]),
    ]:
        for fact, sides in change.narrowed.items():
            before, after = ({fact: frozenset(side)} for side in sides)
            changed += sum(truth(one, before) is not truth(one, after) for one in conditions[fact])
    return {
        "counters_per_change": state.tally.gates_counted / changed,
        "all_counters_per_change": state.counters_touched / changed,
    }


def agree(base: Synthetic, order: Sequence[str], plain_too: bool) -> None:
    """Stops the benchmark unless all give the same values and fire the same rules, half way and at the end."""
    ours, clips, plain = OurEngine(base), Clips(base, mark=True), Plain(base) if plain_too else None
    for part in (order[: len(order) // 2], order[len(order) // 2 :]):
        for question in part:
            ours.answer(question)
            clips.answer(question)
        if ours.seen() != clips.seen():
            raise SystemExit("the engine and CLIPS disagree")
    if plain:
        plain.answer(*order)
        if plain.seen() != ours.seen():
            raise SystemExit("the engine and the plain evaluator disagree")


def time_the_plain_way(base: Synthetic) -> Figures:
    plain = Plain(base)
    asked = base.questions[: max(2, min(40, 20_000 // base.size))]
    return {"plain_answer_us": median(each(plain.answer, asked))}


def time_rounds(ours: OurEngine, clips: Clips, base: Synthetic) -> Figures:
    """Answers, take-backs and what-ifs. What-ifs have rounds of their own, so that they do not warm up an answer."""
    chance = random.Random(2)
    asked = chance.sample(base.questions, min(MOST_QUESTIONS, len(base.questions)))
    agree(base, asked, plain_too=base.size <= 10_000)
    back = chance.sample(asked, len(asked))
    times: dict[str, list[float]] = {name: [] for name in ("answer", "back", "what_if", "clips_answer", "clips_back")}
    for _ in range(ROUNDS):
        times["answer"] += each(ours.answer, asked)
        times["back"] += each(ours.take_back, back)
        times["clips_answer"] += each(clips.answer, asked)
        times["clips_back"] += each(clips.take_back, back)
        for question in asked:
            times["what_if"] += each(ours.what_if, [question])
            ours.answer(question)
        for question in asked:
            ours.take_back(question)
    figures = {f"{name}_us": median(taken) for name, taken in times.items()}
    figures |= {f"{name}_p99_us": high(taken) for name, taken in times.items()}
    return figures


def time_building(base: Synthetic) -> Figures:
    """From checked conditions to the first question; CLIPS from the text that it reads."""
    ours, clips = [], []
    for _ in range(ROUNDS):
        ours.append(OurEngine(base).seconds / base.size * 1e6)
        clips.append(Clips(base).reference.seconds / base.size * 1e6)
    return {"build_us_per_rule": median(ours), "clips_load_us_per_rule": median(clips)}


def time_the_popular(size: int) -> Figures:
    """A fact that a thousand rules use (all, where there are no more), answered first of all and last of all."""
    base = synthetic(size, popular_rules=min(size, 1_000))
    ours, clips = OurEngine(base), Clips(base)
    figures = {"popular_used_by": float(len(conditions_on_each_fact(base)[base.popular]))}
    for moment in ("first", "last"):
        for name, one in (("", ours), ("clips_", clips)):
            taken = []
            for _ in range(30):
                taken += each(one.answer, [base.popular])
                one.take_back(base.popular)
            figures[f"{name}popular_{moment}_us"] = median(taken)
            if moment == "first":
                for question in base.questions[:MOST_QUESTIONS]:
                    if question != base.popular:
                        one.answer(question)
    return figures


def measure(size: int) -> Figures:
    """Everything, for one size. Times in microseconds, memory in kB a rule."""
    base = synthetic(size)
    figures: Figures = {"rules": size}
    loaded, after = our_kilobytes(base)
    clips_loaded, clips_after = clips_kilobytes(base)
    figures |= {"kb_per_rule_loaded": loaded, "kb_per_rule_after_job": after}
    figures |= {"clips_kb_per_rule_loaded": clips_loaded, "clips_kb_per_rule_after_job": clips_after}
    figures |= count_work(base)
    figures |= time_the_plain_way(base)
    figures |= time_building(base)
    ours, clips = OurEngine(base), Clips(base)
    gc.collect()
    gc.freeze()
    figures |= time_rounds(ours, clips, base)
    figures |= time_the_popular(size)
    gc.unfreeze()
    figures["answer_vs_clipspy"] = figures["answer_us"] / figures["clips_answer_us"]
    figures["take_back_vs_clipspy"] = figures["back_us"] / figures["clips_back_us"]
    figures["build_vs_clipspy"] = figures["build_us_per_rule"] / figures["clips_load_us_per_rule"]
    figures["what_if_vs_both"] = figures["what_if_us"] / (figures["answer_us"] + figures["back_us"])
    return figures


def table(all_figures: list[Figures]) -> str:
    lines = []
    for name in all_figures[0]:
        lines.append(f"{name:28}" + "".join(f"{figures[name]:>14,.3f}" for figures in all_figures))
    return "\n".join(lines)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.engine", description=__doc__)
    parser.add_argument("--rules", type=int, action="append", help="how many rules (10,000; may be given repeatedly)")
    parser.add_argument("--json", action="store_true", help="one JSON object for each size, a line each")
    wanted = parser.parse_args()
    all_figures = [measure(size) for size in wanted.rules or [10_000]]
    if wanted.json:
        for figures in all_figures:
            print(json.dumps(figures))
    else:
        print(table(all_figures))


if __name__ == "__main__":
    main()
