"""How much of the machine the rules know: `python -m tests.benchmarks.coverage [--json] [--unknown]`.

Every part of the layout against the generic ways of failing (`coverage.yaml`): a cell is covered by faults of the
rules, or cannot be, with the reason, or is unknown. Beside it, how many numeric limits say where they come from.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.language.shipped import shipped

GRID = Path(__file__).with_name("coverage.yaml")


@dataclass(frozen=True, slots=True)
class Coverage:
    """The cells of the grid, by part and mode; `wrong`: what it names that the rules do not have."""

    covered: Mapping[tuple[str, str], tuple[str, ...]]
    cannot_be: Mapping[tuple[str, str], str]
    unknown: tuple[tuple[str, str], ...]
    wrong: tuple[str, ...]
    limits: int
    limits_with_source: int

    @property
    def cells(self) -> int:
        return len(self.covered) + len(self.cannot_be) + len(self.unknown)


def coverage_of(base: RuleBase, grid: Mapping[str, Any]) -> Coverage:
    """The grid held against a rule base."""
    covered: dict[tuple[str, str], tuple[str, ...]] = {}
    cannot: dict[tuple[str, str], str] = {}
    unknown: list[tuple[str, str]] = []
    wrong: list[str] = []
    for part, record in grid["parts"].items():
        reasons = {**grid["classes"][record["class"]]["cannot"], **record.get("cannot", {})}
        wrong += [f"{part}: {mode} is no mode" for mode in record["cells"] if mode not in grid["modes"]]
        for mode in grid["modes"]:
            faults = tuple(record["cells"].get(mode, ()))
            wrong += [
                f"{part}, {mode}: the rules have no fault {fault}" for fault in faults if fault not in base.faults
            ]
            if faults:
                covered[part, mode] = faults
            elif mode in reasons:
                cannot[part, mode] = reasons[mode]
            else:
                unknown.append((part, mode))
    named = {fault for faults in covered.values() for fault in faults}
    wrong += [f"no cell names {fault}" for fault in base.faults if fault not in named]
    limits = [
        reading.source or question.source
        for question in base.questions.values()
        if question.measure is not None
        for reading in question.measure.readings
        if reading.low is not None or reading.high is not None
    ]
    return Coverage(covered, cannot, tuple(unknown), tuple(wrong), len(limits), sum(map(bool, limits)))


def shipped_coverage() -> Coverage:
    """The grid of the shipped layout held against the shipped rules."""
    return coverage_of(load_rules(shipped("rules")), yaml.safe_load(GRID.read_text(encoding="utf-8")))


def main() -> None:
    """Print the figures, and on request the unknown cells."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--json", action="store_true")
    options.add_argument("--unknown", action="store_true", help="list the cells that nothing covers")
    asked = options.parse_args()
    found = shipped_coverage()
    figures = {
        "cells": found.cells,
        "covered": len(found.covered),
        "cannot_be": len(found.cannot_be),
        "unknown": len(found.unknown),
        "unknown_share": round(len(found.unknown) / found.cells, 4),
        "limits": found.limits,
        "limits_with_source": found.limits_with_source,
    }
    if asked.json:
        print(json.dumps(figures))
        return
    for name, figure in figures.items():
        print(f"{name:20} {figure}")
    for line in found.wrong:
        print(f"wrong: {line}")
    if asked.unknown:
        for part, mode in found.unknown:
            print(f"unknown: {part}, {mode}")


if __name__ == "__main__":
    main()
