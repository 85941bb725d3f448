"""The grid of parts against ways of failing names what the rules have, nothing else, and leaves little unknown."""

from __future__ import annotations

from expert.language.load import load_rules
from expert.language.shipped import shipped
from tests.benchmarks.coverage import coverage_of, shipped_coverage

MOST_UNKNOWN = 0.05


def test_the_grid_names_every_fault_and_leaves_little_unknown() -> None:
    found = shipped_coverage()
    assert found.wrong == ()
    assert len(found.unknown) < MOST_UNKNOWN * found.cells


def test_every_numeric_limit_says_where_it_comes_from() -> None:
    found = shipped_coverage()
    assert found.limits == found.limits_with_source > 100


def test_what_nothing_covers_is_unknown_and_what_no_rule_has_is_wrong() -> None:
    grid = {
        "modes": ["open", "shorted", "leaks"],
        "classes": {"wire": {"cannot": {"leaks": "it carries no water"}}},
        "parts": {"lead": {"class": "wire", "cells": {"open": ["mains_lead.broken", "mains_lead.bent"]}}},
    }
    found = coverage_of(load_rules(shipped("rules")), grid)
    assert found.unknown == (("lead", "shorted"),)
    assert dict(found.cannot_be) == {("lead", "leaks"): "it carries no water"}
    assert found.wrong[0] == "lead, open: the rules have no fault mains_lead.bent"
    assert "no cell names heating_element.open_circuit" in found.wrong
