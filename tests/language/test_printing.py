"""Plain data and machines written as YAML read back as they were."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.language.load import load_rules
from expert.language.worked.job_answers import read_machine_text
from expert.language.worked.machine_text import machine_text
from expert.language.yaml.text_check import forbidden_in
from expert.language.yaml.tree import read_nodes
from expert.language.yaml.writing import yaml_text
from tests.language.test_loading import SHIPPED
from tests.language.test_yaml_refused import plain

BASE = load_rules(SHIPPED)
sentences = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=60).filter(
    lambda text: bool(text.strip()) and not forbidden_in(text)
)


@pytest.mark.parametrize("name", BASE.machines)
def test_a_machine_reads_as_it_was_written(name: str) -> None:
    machine = BASE.machines[name]
    assert replace(read_machine_text("m.yaml", machine_text(machine), BASE), at=machine.at) == machine


@given(
    st.recursive(sentences, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(sentences, inner, max_size=3))
)
def test_any_plain_data(data: object) -> None:
    root, problems = read_nodes("f.yaml", yaml_text({"data": data}))  # type: ignore[dict-item]
    assert not problems and root is not None
    assert plain(root) == {"data": data}
