"""What `expert check` refuses of rules that would put somebody in danger: each is planted in the shipped rules once."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.language.checks import CODES, forbidden_steps, guarded_states, hazards, live_tests
from expert.language.load import read_rules
from expert.language.problems import RulesRefused
from tests.safety.planted import SLIPS

RULES = Path(__file__).parents[2] / "rules"
TEXTS = {
    str(path.relative_to(RULES)): path.read_text(encoding="utf-8")
    for path in sorted(RULES.rglob("*.yaml"))
    if path.relative_to(RULES).parts[0] not in ("cases", "simulated")
}


def refused(path: str, old: str, new: str) -> list[str]:
    """What is said of the shipped rules with the first such text of a file put otherwise."""
    assert old in TEXTS[path], "the shipped rules read otherwise now"
    with pytest.raises(RulesRefused) as caught:
        read_rules({**TEXTS, path: TEXTS[path].replace(old, new, 1)})
    return [str(problem) for problem in caught.value.problems]


@pytest.mark.parametrize(("path", "old", "new", "there", "message"), SLIPS)
def test_a_planted_danger_is_refused_where_it_stands(path: str, old: str, new: str, there: str, message: str) -> None:
    """The whole message; and its position, by what stands there in the file."""
    found = {said.strip(): at for *at, said in (problem.split(":", 3) for problem in refused(path, old, new))}
    assert message in found
    where, line, column = found[message]
    text = TEXTS[where].replace(old, new, 1) if where == path else TEXTS[where]
    assert text.splitlines()[int(line) - 1][int(column) - 1 :].startswith(there)


def test_the_manual_explains_each_of_them() -> None:
    manual = (RULES / "README.md").read_text(encoding="utf-8")
    planted = {slip.values[4].rpartition("[")[2].rstrip("]") for slip in SLIPS}
    assert planted <= set(CODES) and all(f"| `{code}` |" in manual for code in planted)
    mine = (forbidden_steps, guarded_states, hazards, live_tests)
    assert planted == {code for module in mine for code in module.CODES}, "every refusal is planted once"


def test_no_repair_no_move_and_no_test_as_shipped_is_refused() -> None:
    assert read_rules(TEXTS).hazards
