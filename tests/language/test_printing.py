"""Print, then read, gives the same rule base."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from expert.language import load_rules, read_rules
from expert.language.model import RuleBase
from expert.language.printing.rule_base import print_circuit, print_rules
from expert.language.yaml.text_check import forbidden_in
from expert.language.yaml.tree import read_nodes
from expert.language.yaml.writing import yaml_text
from tests.language.small_base import SMALL, with_files
from tests.language.test_loading import SHIPPED
from tests.language.test_yaml_refused import plain

FACTS = {"level": ("low", "normal", "high"), "runs": ("yes", "no"), "valve.stuck": ("present", "absent")}
atoms = st.sampled_from(sorted(FACTS)).flatmap(
    lambda fact: st.lists(st.sampled_from(FACTS[fact]), min_size=1, unique=True).map(lambda found: {fact: found})
)
conditions = st.recursive(
    atoms,
    lambda inner: st.one_of(
        st.lists(inner, min_size=1, max_size=3).map(lambda parts: {"any": parts}),
        st.lists(inner, min_size=1, max_size=3).map(lambda parts: {"all": parts}),
        inner.map(lambda part: {"not": part}),
        st.tuples(atoms, inner).map(lambda pair: {**pair[0], **pair[1]}),
    ),
    max_leaves=8,
)
sentences = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=60).filter(
    lambda text: bool(text.strip()) and not forbidden_in(text)
)
conclusions = st.fixed_dictionaries(
    {},
    optional={
        "clear": st.sampled_from([["valve.stuck"], ["valve.leaking", "valve.stuck"]]),
        "check": st.sampled_from([["valve.stuck"], ["valve.leaking", "valve.stuck"]]),
        "conclude": st.sampled_from([{"supply": "good"}, {"supply": ["bad", "good"]}]),
        "points_to": st.sampled_from([{"valve.stuck": "fairly"}, {"valve.leaking": "slightly"}]),
        "points_away": st.just({"valve.stuck": "strongly"}),
        "normal": st.just(["leaks", "no_fill"]),
        "caution": st.sampled_from([["isolate"], ["burn", "isolate"]]),
        "stop_work": sentences.map(str.strip),
        "advise": sentences.map(str.strip),
    },
).filter(bool)


def without_digest(base: RuleBase) -> RuleBase:
    return replace(base, digest="")


def same_after_printing(base: RuleBase) -> bool:
    return without_digest(read_rules(print_rules(base))) == without_digest(base)


def test_the_small_base() -> None:
    assert same_after_printing(read_rules(SMALL))


def test_the_shipped_base() -> None:
    assert same_after_printing(load_rules(SHIPPED))


@settings(deadline=None)
@given(condition=conditions, then=conclusions, because=sentences)
def test_any_rule(condition: dict[str, object], then: dict[str, object], because: str) -> None:
    data = {"circuit": "row", "title": "Row", "rules": {"one": {"if": condition, "then": then, "because": because}}}
    # Facts about the valve lead to facts about the valve: leave out what would be a circle.
    if "clear" in then and "valve.stuck" in str(condition):
        return
    assert same_after_printing(read_rules({**SMALL, "circuits/your_row.yaml": yaml_text(data)}))  # type: ignore[arg-type]


@given(
    st.recursive(sentences, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(sentences, inner, max_size=3))
)
def test_any_plain_data(data: object) -> None:
    root, problems = read_nodes("f.yaml", yaml_text({"data": data}))  # type: ignore[dict-item]
    assert not problems and root is not None
    assert plain(root) == {"data": data}


def test_how_a_circuit_looks() -> None:
    base = read_rules(
        with_files(
            row="""
            rules:
              held_up:
                if: {level: [low], not: {runs: [yes]}}
                then: {advise: "Look: again."}
                because: It is held up.
            """
        )
    )
    assert print_circuit(base, "row") == (
        "circuit: row\n"
        "title: Row\n"
        "rules:\n"
        "  held_up:\n"
        "    if:\n"
        "      all:\n"
        "        - {level: low}\n"
        "        -\n"
        "          not: {runs: yes}\n"
        "    then:\n"
        '      advise: ["Look: again."]\n'
        "    because: It is held up.\n"
    )
