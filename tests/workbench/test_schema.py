"""The JSON Schemas: the shipped files keep to them, slips do not, and a real editor's server works with them."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.language.load import names_in
from expert.language.schemas import file_schemas, globs
from expert.language.yaml.nodes import Items, Node, Pairs
from expert.language.yaml.tree import read_nodes
from tests.workbench.editor_server import NODE, Server, running

RULES = Path(__file__).parents[2] / "rules"
SCHEMAS = file_schemas(names_in(RULES))
FILES = [
    (sort, file)
    for sort, patterns in globs().items()
    for pattern in patterns
    for file in sorted(RULES.glob(pattern.replace("!(circuit)", "*")))
    if sort != "circuit_part" or file.name != "circuit.yaml"
]


def as_json(node: Node) -> Any:
    """The nodes as an editor sees them: numbers are numbers; yes and no are words (YAML 1.2)."""
    if isinstance(node, Items):
        return [as_json(item) for item in node.items]
    if isinstance(node, Pairs):
        return {key: as_json(value) for key, (_, value) in node.entries.items()}
    if node.straight and re.fullmatch(r"[-+]?[0-9]+(\.[0-9]+)?", node.text):
        return float(node.text)
    return node.text


def read(text: str) -> Any:
    root, problems = read_nodes("f.yaml", text)
    assert root is not None and not problems
    return as_json(root)


@pytest.mark.parametrize("schema", SCHEMAS.values(), ids=SCHEMAS)
def test_each_schema_is_one(schema: dict[str, Any]) -> None:
    jsonschema.Draft7Validator.check_schema(schema)


@pytest.mark.parametrize(("sort", "file"), FILES, ids=lambda value: getattr(value, "name", value))
def test_the_shipped_files_keep_to_them(sort: str, file: Path) -> None:
    errors = jsonschema.Draft7Validator(SCHEMAS[sort]).iter_errors(read(file.read_text(encoding="utf-8")))
    assert [f"{list(error.absolute_path)}: {error.message[:200]}" for error in errors] == []


FILL = (RULES / "circuits" / "boiler_fill.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("seen: common", "seen: comon"),
        ("steps:", "stps:"),
        ("minutes: 30", "minutes: half an hour"),
        ("probe_tip: scaled", "probe_tip: scald"),
        ("confirm: ", "confrim: "),
        ("explains: [boiler_overfills,", "explains: [boiler_overflows,"),
    ],
)
def test_a_slip_is_seen(old: str, new: str) -> None:
    assert old in FILL
    data = read(FILL.replace(old, new, 1))
    assert list(jsonschema.Draft7Validator(SCHEMAS["circuit"]).iter_errors(data))


def test_the_command_writes_them_also_while_the_rules_are_broken(tmp_path: Path) -> None:
    rules, out = tmp_path / "rules", tmp_path / "schemas"
    (rules / "circuits").mkdir(parents=True)
    (rules / "circuits" / "row.yaml").write_text("circuit: row\ntitel: Row\nfindings: {dry: {outcomes: [a, b]}}\n")
    result = CliRunner().invoke(main, ["schema", "--rules", str(rules), "--write", str(out)])
    assert (result.exit_code, result.stderr) == (0, "")
    assert {file.stem for file in out.iterdir()} == {*SCHEMAS, "trace"}
    condition = json.loads((out / "circuit.json").read_text(encoding="utf-8"))["definitions"]["condition"]
    assert "dry" in condition["properties"]


# ---------------------------------------------------------------- in an editor's server

TEXT = """\
circuit: fill_row
title: Fill
rules:
  one:
    if: {how_the_fill_ends: overfills}
    then:
      confirm: level_probe.scaled
      points_to: {level_probe.wire_off: strngly}
    because: So it is.
  two:
    if: {how_the_fill_ends: }
    then: {advise: Look.}
    because: So it is.
"""


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    if NODE is None:
        pytest.skip("node is not installed: the schemas were NOT tested in a real editor's server")
    file = tmp_path_factory.mktemp("schemas") / "circuit.json"
    file.write_text(json.dumps(SCHEMAS["circuit"]), encoding="utf-8")
    with running({file.as_uri(): "*.yaml"}) as found:
        yield found


def test_the_server_underlines_completes_and_explains(server: Server) -> None:
    uri = "file:///work/row.yaml"
    found = server.open(uri, TEXT)
    wrong = {(problem["range"]["start"]["line"], problem["message"].splitlines()[0]) for problem in found}
    assert any(line == 7 and '"strongly"' in message for line, message in wrong), wrong
    assert not any(line in (4, 6) for line, _ in wrong)
    offered = server.at("completion", uri, 10, 28)
    labels = {item["label"] for item in offered["items"]}
    outcomes = names_in(RULES).outcomes["how_the_fill_ends"]
    assert outcomes is not None and set(outcomes) <= labels
    hover = server.at("hover", uri, 8, 6)
    assert "Why, in the words that the technician reads." in json.dumps(hover)
