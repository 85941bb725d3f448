"""From a folder to a rule base: which files are read, what the records hold, what pins them."""

from __future__ import annotations

import gc
import os
import shutil
from collections.abc import Callable
from dataclasses import FrozenInstanceError
from pathlib import Path

import pytest

from expert.language.formulas.formula import NotKnown, evaluate
from expert.language.load import load_rules, read_rules
from expert.language.model import (
    All,
    Any,
    Evidence,
    Is,
    Narrow,
    Normal,
    Not,
    Position,
    Say,
    Suspect,
)
from expert.language.problems import RulesRefused
from expert.trade.quantities.units import Quantity
from tests.language.small_base import SMALL, with_files

SHIPPED = Path(__file__).parents[2] / "rules"


def written(folder: Path, files: dict[str, str]) -> Path:
    for path, text in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
    return folder


def refusals(folder: Path) -> list[str]:
    with pytest.raises(RulesRefused) as caught:
        load_rules(folder)
    assert str(caught.value) == "\n".join(map(str, caught.value.problems))
    return [str(problem) for problem in caught.value.problems]


def test_a_folder_and_the_same_texts_from_memory_give_the_same(tmp_path: Path) -> None:
    assert load_rules(written(tmp_path, dict(SMALL))) == read_rules(SMALL)


def test_every_kind_of_conclusion_and_condition_becomes_a_record() -> None:
    base = read_rules(
        with_files(
            row="""
            rules:
              everything:
                if:
                  level: [low, high]
                  any: [{runs: yes}, {not: {complaint.leaks: no}}]
                  machine.fill: automatic
                then:
                  advise: Look again.
                  clear: valve
                  check: [valve.leaking, valve]
                  suspect: valve.stuck
                  conclude: {supply: bad}
                  points_to: {valve.stuck: slightly}
                  points_away: {valve.leaking: strongly}
                  normal: [no_fill]
                  caution: burn
                  stop_work: Unplug it.
                because: It shows everything.
                source: example only
            """
        )
    )
    rule = base.rules["everything"]
    assert rule.when == All(
        (
            Is("level", ("low", "high")),
            Any((Is("runs", ("yes",)), Not(Is("complaint.leaks", ("no",))))),
            Is("machine.fill", ("automatic",)),
        )
    )
    assert rule.then == (
        Say("advise", "Look again."),
        Narrow("valve.stuck", ("absent",), "clear"),
        Narrow("valve.leaking", ("absent",), "clear"),
        Suspect(("valve.leaking", "valve.stuck"), in_order=True),
        Suspect(("valve.stuck",), in_order=False),
        Narrow("supply", ("bad",), "conclude"),
        Evidence("valve.stuck", 3),
        Evidence("valve.leaking", -10),
        Normal(("no_fill",)),
        Say("caution", "Gloves on."),
        Say("stop_work", "Unplug it."),
    )
    assert (rule.circuit, rule.because, rule.source) == ("row", "It shows everything.", "example only")
    assert rule.at == Position("circuits/your_row.yaml", 4, 3)


def _nothing(name: str) -> Quantity:
    raise NotKnown(name)


def test_a_measured_question_becomes_a_record() -> None:
    coil = read_rules(SMALL).questions["coil"]
    assert coil.measure is not None
    assert coil.outcomes == ("open", "low", "sound")
    assert coil.measure.believable == (Quantity(0.0, "resistance"), Quantity(50e6, "resistance"))
    assert (coil.measure.kind, coil.measure.instrument, coil.measure.unit) == ("resistance", "ohmmeter", "ohm")
    limits = [(reading.low, reading.high) for reading in coil.measure.readings]
    values = [tuple(limit and evaluate(limit, _nothing).value for limit in pair) for pair in limits]
    assert values == [(100_000.0, None), (None, 10.0), (None, None)]
    assert (dict(coil.bench), coil.minutes, coil.sound) == ({"mains": "isolated", "covers": "off"}, 3.0, ("sound",))


def test_a_part_and_a_question_apply_where_their_circuit_does() -> None:
    base = read_rules(
        with_files(
            row="""
            applies: {machine.fill: automatic, machine.sensor: [ntc, platinum]}
            questions:
              warm:
                ask: Warm?
                answer: yes_no
                how: Feel.
                minutes: 1
                applies: {machine.sensor: [none, platinum]}
            """
        )
    )
    assert base.questions["warm"].applies == {"machine.fill": ("automatic",), "machine.sensor": ("platinum",)}


def test_nothing_in_a_rule_base_can_be_changed() -> None:
    base = read_rules(SMALL)
    with pytest.raises(TypeError):
        base.rules["other"] = base.rules["valve_is_stuck"]  # type: ignore[index]
    with pytest.raises(TypeError):
        base.questions["level"].labels["low"] = "other"  # type: ignore[index]
    with pytest.raises(FrozenInstanceError):
        base.rules["valve_is_stuck"].because = "other"  # type: ignore[misc]


@pytest.mark.parametrize(
    ("change", "same"),
    [
        pytest.param({"cases/a.yaml": "cases: {}"}, True, id="cases are apart"),
        pytest.param({"README.md": "manual"}, True, id="the manual is apart"),
        pytest.param({"circuits/.hidden.yaml": "x"}, True, id="hidden files are nobody's business"),
        pytest.param({"circuits/tank.yaml": SMALL["circuits/tank.yaml"].replace("\n", "\r\n")}, True, id="line ends"),
        pytest.param({"circuits/tank.yaml": SMALL["circuits/tank.yaml"] + "# more\n"}, False, id="a comment"),
    ],
)
def test_digest(change: dict[str, str], same: bool) -> None:
    assert (read_rules({**SMALL, **change}).digest == read_rules(SMALL).digest) is same


def test_files_that_do_not_belong(tmp_path: Path) -> None:
    folder = written(tmp_path, {**SMALL, "feature.yaml": "a: b", "circuit/pump.yaml": "a: b", "circuits/x.yml": "a: b"})
    has = (
        "a rule base has features.yaml, complaints.yaml, cautions.yaml, instruments.yaml, bench.yaml, hazards.yaml, "
        "machines/*.yaml, circuits/*.yaml and cases/*.yaml"
    )
    what = "this file is not part of a rule base;"
    assert refusals(folder) == [
        f"{folder}/circuit/pump.yaml:1:1: {what} {has} [unknown-file]",
        f"{folder}/circuits/x.yml:1:1: rule files end in .yaml; rename it to x.yaml [unknown-file]",
        f"{folder}/feature.yaml:1:1: {what} did you mean features.yaml? [unknown-file]",
    ]


def test_a_small_file_that_is_missing_is_said_once(tmp_path: Path) -> None:
    folder = written(tmp_path, {path: text for path, text in SMALL.items() if path != "complaints.yaml"})
    assert refusals(folder) == [
        f"{folder}/circuits/tank.yaml:10:20: there is no complaint 'no_fill'; there is none yet [unknown-name]"
    ]


def test_folders_that_hold_no_rules(tmp_path: Path) -> None:
    assert refusals(tmp_path / "none") == [f"{tmp_path}/none:1:1: there is no such folder [no-rules]"]
    assert refusals(tmp_path) == [f"{tmp_path}:1:1: there is no file in circuits/ [no-rules]"]


def test_bytes_that_are_no_text_are_reported_with_the_rest(tmp_path: Path) -> None:
    folder = written(tmp_path, with_files(complaints="complaints: {no_fill: {name: x}, leaks: {nam: x}}"))
    (folder / "cautions.yaml").write_bytes(b"cautions: \xff")
    assert refusals(folder) == [
        f"{folder}/cautions.yaml:1:11: the byte 0xff is not UTF-8 text; save the file as UTF-8 [not-utf-8]",
        f"{folder}/complaints.yaml:1:42: 'nam' is not a key of a complaint; did you mean name? [unknown-key]",
    ]


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    folder = written(tmp_path, dict(SMALL))
    (folder / "cautions.yaml").unlink()
    (folder / "cautions.yaml").symlink_to(folder / "nowhere")
    assert refusals(folder) == [f"{folder}/cautions.yaml:1:1: this is not a file that can be read [unreadable-file]"]


def test_a_linked_folder_is_read_and_a_capital_ending_is_not_passed_over(tmp_path: Path) -> None:
    folder = written(tmp_path / "rules", dict(SMALL))
    (folder / "circuits").rename(tmp_path / "elsewhere")
    (folder / "circuits").symlink_to(tmp_path / "elsewhere")
    assert load_rules(folder).rules
    (tmp_path / "elsewhere" / "more.YAML").write_text("rules: {}\n", encoding="utf-8")
    message = "rule files end in .yaml; rename it to more.yaml [unknown-file]"
    assert refusals(folder) == [f"{folder}/circuits/more.YAML:1:1: {message}"]


@pytest.mark.parametrize("ending", ["yml", "YAML", "Yml"])
def test_a_file_of_another_ending_is_the_only_thing_blamed(tmp_path: Path, ending: str) -> None:
    folder = written(tmp_path, dict(SMALL))
    (folder / "complaints.yaml").rename(folder / f"complaints.{ending}")
    message = "rule files end in .yaml; rename it to complaints.yaml [unknown-file]"
    assert refusals(folder) == [f"{folder}/complaints.{ending}:1:1: {message}"]


def test_a_folder_where_a_file_is_wanted(tmp_path: Path) -> None:
    folder = written(tmp_path, dict(SMALL))
    (folder / "complaints.yaml").unlink()
    (folder / "complaints.yaml").mkdir()
    assert refusals(folder) == [f"{folder}/complaints.yaml:1:1: this is a folder, not a file [unreadable-file]"]


@pytest.mark.parametrize(
    ("made", "what"),
    [
        (lambda path: path.write_text("x"), "this is a file"),
        (lambda path: path.symlink_to("nowhere"), "this link leads nowhere"),
    ],
    ids=["a file", "a link"],
)
def test_what_is_no_folder_where_one_is_wanted(tmp_path: Path, made: Callable[[Path], object], what: str) -> None:
    folder = written(tmp_path, dict(SMALL))
    (folder / "circuits").rename(tmp_path / "aside")
    shutil.rmtree(tmp_path / "aside")
    made(folder / "circuits")
    assert refusals(folder) == [f"{folder}/circuits:1:1: {what}; a folder is wanted here [unreadable-file]"]


def test_a_folder_that_links_back_up_ends(tmp_path: Path) -> None:
    folder = written(tmp_path / "rules", dict(SMALL))
    (folder / "circuits" / "again").symlink_to(folder)
    assert load_rules(folder).rules


def test_a_folder_that_cannot_be_looked_into_is_not_called_empty(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = written(tmp_path / "rules", dict(SMALL))
    look = os.scandir

    def scandir(path: str) -> object:
        if str(path).endswith("circuits"):
            raise PermissionError(13, "Permission denied", str(path))
        return look(path)

    monkeypatch.setattr("os.scandir", scandir)
    message = "this folder cannot be looked into: Permission denied [unreadable-file]"
    assert f"{folder}/circuits:1:1: {message}" in refusals(folder)
    assert not any("no-rules" in refusal for refusal in refusals(folder))


@pytest.mark.parametrize("files", [SMALL, {"circuits/a.yaml": "["}], ids=["sound", "refused"])
def test_garbage_collection_is_as_before(files: dict[str, str]) -> None:
    for before in (True, False):
        (gc.enable if before else gc.disable)()
        try:
            read_rules(files)
        except RulesRefused:
            pass
        finally:
            after = gc.isenabled()
            gc.enable()
        assert after is before


def test_the_shipped_rules_load() -> None:
    base = load_rules(SHIPPED)
    assert base.rules and base.questions and base.faults and base.machines
