"""Named conditions, named lists, findings under `shows` and `prove`, and circuits in several files."""

from __future__ import annotations

import pytest

from expert.language.load import read_rules
from expert.language.model import All, Any, Is, Position
from tests.language.small_base import SMALL, expected_problems, problems_of, with_files

NAMED = """
    conditions:
      low_water: {level: low}
      low_or_dry: {any: [{holds: low_water}, {runs: no}]}
    lists:
      dry_words: [isolate, burn]
    rules:
      one: {if: {holds: low_or_dry}, then: {caution: {list: dry_words}}, because: Dry.}
      two: {if: {holds: [low_water, low_or_dry], runs: yes}, then: {caution: [{list: dry_words}]}, because: Dry.}
      three: {if: {not: {holds: low_water}}, then: {advise: Good.}, because: Wet.}
    """
LOW, DRY = Is("level", ("low",)), Is("runs", ("no",))


def test_a_named_condition_stands_for_itself() -> None:
    base = read_rules(with_files(row=NAMED))
    assert base.rules["one"].when == Any((LOW, DRY))
    assert base.rules["two"].when == All((LOW, Any((LOW, DRY)), Is("runs", ("yes",))))
    assert [said.text for said in base.rules["two"].then if hasattr(said, "text")] == ["Pull the plug.", "Gloves on."]


def test_where_a_named_condition_is_used_is_known() -> None:
    base = read_rules(with_files(row=NAMED))
    path = "circuits/your_row.yaml"
    assert [str(at) for at in base.conditions["low_or_dry"].used_at] == [f"{path}:9:21", f"{path}:10:33"]
    assert len(base.conditions["low_water"].used_at) == 3 and len(base.lists["dry_words"].used_at) == 2
    assert base.lists["dry_words"].entries == ("isolate", "burn")


def test_what_is_named_in_one_file_is_known_in_all() -> None:
    files = with_files(row="conditions: {low_water: {level: low}}\n")
    files["circuits/other.yaml"] = (
        "circuit: other\ntitle: Other\nrules: {four: {if: {holds: low_water}, then: {advise: Look.}, because: Low.}}\n"
    )
    assert read_rules(files).rules["four"].when == LOW


@pytest.mark.parametrize(
    "text",
    [
        """
        conditions:
          a: {holds: b}  # 14: the condition b rests on itself: b <- a <- b [cycle]
          b: {holds: a}  # 14: the condition a rests on itself: a <- b <- a [cycle]
        """,
        """
        conditions:
          a: {level: lo}  # 14: 'lo' is not an outcome of level; it has low, normal, high; did you mean low? [unknown-outcome]
        rules:
          r: {if: {holds: a}, then: {advise: Look.}, because: Low.}
          s: {if: {holds: aa}, then: {advise: Look.}, because: Low.}  # 19: there is no condition 'aa'; did you mean a? [unknown-name]
        """,
        """
        lists:
          a: [isolate, bun]  # 16: there is no caution 'bun'; did you mean burn? [unknown-name]
        rules:
          r: {if: {level: low}, then: {caution: {list: a}}, because: Low.}
        """,
    ],
    ids=["circle", "wrong within", "wrong in a list"],
)
def test_refused(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []


FAULT = """
    findings:
      dry: {name: dry, outcomes: [yes, no]}
    parts:
      hose:
        name: hose
        faults:
          split:
            name: split
            seen: rare
            explains: [leaks]
            shows: {dry: yes, runs: yes}
            repair: {minutes: 5, steps: [Fit a new one.]}
            prove: [dry]
    rules:
      dry: {if: {level: low, runs: no}, then: {conclude: {dry: yes}}, because: Low.}
      wet: {if: {level: [normal, high]}, then: {conclude: {dry: no}}, because: High.}
    """


def test_a_finding_under_shows_stands_for_its_answers_and_under_prove_for_its_questions() -> None:
    base = read_rules(with_files(row=FAULT))
    fault = base.faults["hose.split"]
    assert dict(fault.shows) == {"level": ("low",), "runs": ("yes",)}  # what is said of a question itself stands
    assert fault.prove == ("level", "runs")
    assert base.parts["hose"].faults == (fault,)


def test_a_finding_without_a_common_question_is_refused() -> None:
    text = FAULT.rstrip() + "\n      other: {if: {runs: no}, then: {conclude: {dry: yes}}, because: Still.}\n"
    text = text.replace("{level: low, runs: no}", "{level: low}")
    message = "rules conclude dry in ways that have no question in common; name the questions [nothing-in-common]"
    assert problems_of(with_files(row=text)) == [f"circuits/your_row.yaml:13:22: {message}"]


def folder(head: str, part: str) -> dict[str, str]:
    return {**SMALL, "circuits/brew/circuit.yaml": head, "circuits/brew/tap.yaml": part}


PART = """\
parts:
  tap:
    name: tap
    faults:
      drips: {name: drips, seen: rare, explains: [leaks], repair: {minutes: 5, steps: [Mend.]}, prove: [level]}
"""


def test_a_circuit_in_several_files_is_one_circuit() -> None:
    base = read_rules(folder("circuit: brew\ntitle: Brew\napplies: {machine.fill: automatic}\n", PART))
    tap = base.parts["tap"]
    assert tap.circuit == "brew" and tap.applies == {"machine.fill": ("automatic",)}
    assert tap.at == Position("circuits/brew/tap.yaml", 2, 3)


@pytest.mark.parametrize(
    ("files", "message"),
    [
        pytest.param(
            {**SMALL, "circuits/brew/tap.yaml": PART},
            "circuits/brew/tap.yaml:1:1: this file belongs to the circuit of its folder, but there is no circuit.yaml "
            "in circuits/brew [no-circuit]",
            id="no head",
        ),
        pytest.param(
            folder("circuit: brew\ntitle: Brew\n", "title: Tap\n" + PART),
            "circuits/brew/tap.yaml:1:1: 'title' is not a key of a further file of a circuit; it may have conditions, "
            "lists, feeds, parts, questions, findings, work_out, rules [unknown-key]",
            id="two heads",
        ),
    ],
)
def test_a_circuit_in_several_files_has_one_head(files: dict[str, str], message: str) -> None:
    assert problems_of(files) == [message]
