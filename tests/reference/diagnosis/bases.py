"""A rule base made of faults and tests with named outcomes, for problems from elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import read_rules

FEATURES = """\
features: {kind: {name: kind, values: [one, two]}}
plate: {rated_voltage: {name: volts, measure: ac_voltage, unit: V}}
"""
COMPLAINTS = "complaints: {fails: {name: It fails}}\n"
CAUTIONS = "cautions: {care: Take care.}\n"
INSTRUMENTS = (
    "instruments: {ohms: {name: ohms, measures: resistance, ranges: [{percent: 1, digits: 2, step: 1 ohm}]}}\n"
)
MACHINE = """\
machine: bench_model
title: Model
layout: A model.
features: {kind: one}
plate: {rated_voltage: 230 V}
"""
STILL_BENCH = """\
states: {mains: [isolated, on]}
arrives: {here: {say: Here, state: {mains: isolated}}}
safe: {mains: isolated}
moves:
  isolate: {say: Unplug., needs: {mains: on}, makes: {mains: isolated}, minutes: 1, steps: [Unplug.], confirm: "Out?"}
"""


@dataclass(frozen=True)
class Trial:
    """A test: its outcomes in order, what it costs, what each outcome clears; `bench`: where it has to be made."""

    outcomes: tuple[str, ...]
    clears: Mapping[str, Sequence[str]]
    minutes: float = 1.0
    bench: Mapping[str, str] = field(default_factory=dict)
    confirms: Mapping[str, Sequence[str]] = field(default_factory=dict)


def knowledge_for(
    faults: Iterable[str],
    tests: Mapping[str, Trial],
    rules: Iterable[str] = (),
    often: Mapping[str, str] | None = None,
    bench: str = STILL_BENCH,
) -> Knowledge:
    """The knowledge of a base with these faults of one part and these tests; further rules as lines of YAML."""
    lines = ["circuit: problem", "title: Problem", "parts:", "  unit:", "    name: unit", "    faults:"]
    for fault in faults:
        seen = f"seen: {often.get(fault, 'common') if often else 'common'}"
        repair = f"repair: {{minutes: 1, steps: [Replace it.]}}, prove: [{next(iter(tests))}]"
        lines.append(f"      {fault}: {{name: {fault}, {seen}, explains: [fails], {repair}}}")
    lines.append("questions:")
    for name, test in tests.items():
        outcomes = ", ".join(f"{outcome}: shows {outcome}" for outcome in test.outcomes)
        where = ", ".join(f"{key}: {value}" for key, value in test.bench.items())
        bench_of = f", bench: {{{where}}}" if where else ""
        answer = f"answer: {{one_of: {{{outcomes}}}}}"
        lines.append(
            f"  {name}: {{ask: 'What shows {name}?', {answer}, how: Look., minutes: {test.minutes:g}{bench_of}}}"
        )
    lines.append("rules:")
    for name, test in tests.items():
        for outcome, cleared in test.clears.items():
            if cleared:
                names = ", ".join(f"unit.{fault}" for fault in cleared)
                lines.append(_rule(f"{name}_{outcome}", name, outcome, f"clear: [{names}]"))
        for outcome, confirmed in test.confirms.items():
            names = ", ".join(f"unit.{fault}" for fault in confirmed)
            lines.append(_rule(f"{name}_{outcome}_is", name, outcome, f"confirm: [{names}]"))
    lines += [f"  {line}" for line in rules]
    return knowledge_of(
        read_rules(
            {
                "features.yaml": FEATURES,
                "complaints.yaml": COMPLAINTS,
                "cautions.yaml": CAUTIONS,
                "instruments.yaml": INSTRUMENTS,
                "bench.yaml": bench,
                "machines/bench_model.yaml": MACHINE,
                "circuits/problem.yaml": "\n".join(lines) + "\n",
            }
        )
    )


def _rule(rule: str, test: str, outcome: str, then: str) -> str:
    return f"  {rule}: {{if: {{{test}: {outcome}}}, then: {{{then}}}, because: Computed elsewhere.}}"
