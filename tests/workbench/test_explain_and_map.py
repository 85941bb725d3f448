"""`expert explain` tells what uses what; `expert map` draws it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.language.load import load_rules, read_rules
from expert.language.shipped import shipped
from expert.trace.places import SUFFIX
from expert.workbench.explaining import Entry, NoSuchId, entries_of, explained_id, found_by
from expert.workbench.mapping import map_of
from expert.workbench.picture import Node, Picture, graphviz, mermaid
from tests.language.small_base import SMALL

BASE = read_rules(SMALL)


def test_a_question_is_told_with_all_that_uses_it(tmp_path: Path) -> None:
    (tmp_path / f"7{SUFFIX}").write_text('{"kind": "put", "question": "level"}\n', encoding="utf-8")
    (tmp_path / f"8{SUFFIX}").write_text('{"kind": "put", "question": "runs"}\n', encoding="utf-8")
    lines = explained_id(BASE, "level", (), tmp_path)
    assert lines[0] == f"question level   {BASE.questions['level'].at}"  # a short path stays as it is
    assert lines[1] == f"  {BASE.questions['level'].ask}"
    uses = [line.strip() for line in lines if line.startswith("    ")]
    assert any(line.startswith("rule ") for line in uses) and any(line.startswith("move open_up") for line in uses)
    assert lines[-1] == "  saved jobs: it came up in 1 of 2: 7"


DEMOS = Path(__file__).parents[2] / "transcripts_demo"


@pytest.mark.parametrize(
    ("name", "last"),
    [
        ("mains_isolate", "  saved jobs: it came up in 5 of 5: "),  # a caution shown: packed in its line
        ("too_hot_look_for_a_bridge", "  saved jobs: it came up in 1 of 5: demo-4-danger"),
        ("water_hardly_conducts", "  saved jobs: it came up in none of 5"),
    ],
)
def test_it_is_told_in_which_saved_jobs_it_came_up(name: str, last: str) -> None:
    assert explained_id(load_rules(shipped("rules")), name, (), DEMOS)[-1].startswith(last)


def test_a_question_is_found_by_how_it_is_put() -> None:
    found = found_by(entries_of(load_rules(shipped("rules"))), ["element", "ohms"])
    assert next(entry.id for entry in found if entry.sort == "question") == "element_resistance"


@pytest.mark.parametrize("entry", entries_of(BASE), ids=lambda entry: f"{entry.sort} {entry.id}")
def test_everything_can_be_explained(entry: Entry) -> None:
    lines = explained_id(BASE, entry.id, (), None)
    assert any(line.startswith(f"{entry.sort} {entry.id}") for line in lines) and len(lines) > 1


def test_an_unknown_id_names_the_nearest() -> None:
    with pytest.raises(NoSuchId, match=r"^nothing in the rules is called 'levle'; did you mean level\?$"):
        explained_id(BASE, "levle", (), None)


def test_the_index_finds_by_words_that_begin_alike() -> None:
    entries = (
        Entry("question", "boiler_pressure", "What does the gauge show?", BASE.questions["level"].at),
        Entry("question", "heats", "Is the boiler heating up?", BASE.questions["level"].at),
        Entry("rule", "cold", "No heat.", BASE.questions["level"].at),
    )
    assert [found.id for found in found_by(entries, ["pressures"])] == ["boiler_pressure"]
    assert [found.id for found in found_by(entries, ["heated"])] == ["heats", "cold"]
    assert [found.id for found in found_by(entries, ["boiler", "heat"])] == ["heats"]
    assert found_by(entries, []) == entries


SMALL_PICTURE = Picture('A "picture"')
SMALL_PICTURE.groups["box"] = "A box"
SMALL_PICTURE.put(Node("a", "What does the element read across its terminals?", "question", "box"))
SMALL_PICTURE.put(Node("b", "open #1", "fault"))
SMALL_PICTURE.arrow("a", "b", "open")
SMALL_PICTURE.arrow("a", "b", "low")


def test_a_picture_as_mermaid_text() -> None:
    assert mermaid(SMALL_PICTURE).splitlines() == [
        "---",
        "title: A 'picture'",
        "---",
        "flowchart LR",
        '  subgraph g0["A box"]',
        '    n0{{"What does the element read<br>across its terminals?"}}',
        "  end",
        '  n1(["open no.1"])',
        '  n0 -->|"open, low"| n1',
    ]


def test_a_picture_for_graphviz() -> None:
    text = graphviz(SMALL_PICTURE)
    assert 'label="A \\"picture\\""' in text and '"a" -> "b" [label="open, low" color="#1b4f8a"]' in text
    assert '"a" [label="What does the element read\\nacross its terminals?" shape=hexagon' in text


@pytest.mark.parametrize("name", [None, "tank", "no_fill", "valve", "valve.stuck", "level", "supply", *BASE.rules])
def test_each_picture_has_what_it_is_about(name: str | None) -> None:
    picture = map_of(BASE, name)
    assert picture.nodes and all(end in picture.nodes for arrow in picture.arrows for end in arrow)
    assert mermaid(picture) and graphviz(picture).count("{") == graphviz(picture).count("}")


def test_what_has_no_picture_is_refused() -> None:
    result = CliRunner().invoke(main, ["map", "mains_isolate"])
    message = "'mains_isolate' is no circuit, complaint, part, fault, question, finding or rule\n"
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", message)


def test_without_graphviz_the_command_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    result = CliRunner().invoke(main, ["map", "boiler_fill", "--svg", str(tmp_path / "m.svg")])
    message = "--svg needs Graphviz: install it, or give the text that is printed without --svg to another\n"
    assert (result.exit_code, result.stderr) == (2, message) and not (tmp_path / "m.svg").exists()


@pytest.mark.skipif(shutil.which("dot") is None, reason="Graphviz (dot) is not installed: --svg was NOT tested")
def test_with_graphviz_it_draws(tmp_path: Path) -> None:
    file = tmp_path / "m.svg"
    assert CliRunner().invoke(main, ["map", "boiler_fill", "--svg", str(file)]).exit_code == 0
    assert file.read_text(encoding="utf-8").rstrip().endswith("</svg>")


SHIPPED = load_rules(shipped("rules"))


@pytest.mark.parametrize("circuit", list(SHIPPED.circuits))
def test_no_shipped_circuit_gives_an_empty_picture(circuit: str) -> None:
    assert map_of(SHIPPED, circuit).nodes
