"""Rules kept ready: the same as read anew, never out of date, and nothing that somebody planted."""

from __future__ import annotations

import hashlib
import pickle
from dataclasses import fields, replace
from pathlib import Path

import pytest

from expert.desk.compiled import MOST_KEPT, SUFFIX, kept_at, knowledge_in
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.engine.network import Network
from expert.language import load
from expert.language.folder import texts_in
from expert.language.load import load_rules
from expert.language.problems import RulesRefused
from expert.language.shipped import shipped
from tests.dialogue.small_folder import small_folder

EMPTY = Network.build({}, [])


@pytest.fixture
def rules(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return small_folder(tmp_path / "rules")


def kept(rules: Path) -> Path:
    return kept_at(rules, texts_in(rules)[0])


def refuse_to_read(monkeypatch: pytest.MonkeyPatch) -> None:
    """From here on nothing can be read from its text."""

    def refuse(*_: object) -> None:
        raise AssertionError("the rules were read from their text")

    monkeypatch.setattr(load, "base_of", refuse)


@pytest.mark.parametrize("which", ["small", "shipped"])
def test_what_is_kept_is_what_was_read(which: str, rules: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = rules if which == "small" else shipped("rules")
    fresh = knowledge_of(load_rules(folder))
    assert inside(knowledge_in(folder)) == inside(fresh)
    refuse_to_read(monkeypatch)
    again = knowledge_in(folder)
    assert inside(again) == inside(fresh)
    assert [(rule.id, rule.at) for rule in again.base.rules.values()] == [
        (rule.id, rule.at) for rule in fresh.base.rules.values()
    ]
    assert {q.id: q.form for q in again.base.questions.values()} == {
        q.id: q.form for q in fresh.base.questions.values()
    }


def test_an_edit_is_read(rules: Path) -> None:
    before = knowledge_in(rules)
    file = rules / "circuits" / "fill.yaml"
    file.write_text(file.read_text("utf-8").replace("Does the pump run?", "Is the pump running?"), "utf-8")
    after = knowledge_in(rules)
    assert before.base.digest != after.base.digest
    assert "Is the pump running?" in [question.ask for question in after.base.questions.values()]


def test_another_program_reads_anew(rules: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    knowledge_in(rules)
    monkeypatch.setattr("expert.desk.compiled.program_version", lambda: "0.1.0+code.000000000000")
    refuse_to_read(monkeypatch)
    with pytest.raises(AssertionError, match="read from their text"):
        knowledge_in(rules)


class _Planted:
    def __reduce__(self) -> tuple[object, tuple[str]]:
        return exec, ("raise SystemExit('planted code was run')",)


def inside(knowledge: Knowledge) -> tuple[object, list[object]]:
    """All of it, where values are compared; the network has an identity and is laid open."""
    network = knowledge.network
    numbers = [getattr(network, field.name) for field in fields(network) if field.name != "facts"]
    facts = list(zip(network.facts.names, (fact.bits for fact in network.facts.outcomes), strict=True))
    return replace(knowledge, network=EMPTY), [*numbers, facts]


def with_check(content: bytes) -> bytes:
    return hashlib.sha256(content).digest() + content


@pytest.mark.parametrize(
    "spoil",
    [
        lambda file: file.write_bytes(file.read_bytes()[:-9]),
        lambda file: file.write_bytes(b""),
        lambda file: file.write_bytes(with_check(pickle.dumps(_Planted()))),
        lambda file: file.write_bytes(with_check(pickle.dumps({"rules": "other"}))),
        lambda file: file.write_bytes(with_check(b"no pickle at all")),
        lambda file: file.chmod(0o666),
    ],
    ids=["cut", "empty", "planted code", "something else", "no pickle", "anybody may write it"],
)
def test_what_is_not_as_it_was_written_is_read_anew(
    spoil: object, rules: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fresh = knowledge_in(rules)
    assert callable(spoil)
    spoil(kept(rules))
    assert inside(knowledge_in(rules)) == inside(fresh)
    refuse_to_read(monkeypatch)
    assert inside(knowledge_in(rules)) == inside(fresh)  # and it was mended on the way


def test_refused_rules_are_not_kept(rules: Path) -> None:
    file = rules / "circuits" / "fill.yaml"
    file.write_text(file.read_text("utf-8").replace("questions:", "qestions:"), "utf-8")
    for _ in range(2):
        with pytest.raises(RulesRefused):
            knowledge_in(rules)
    assert not kept(rules).exists()


def test_only_the_newest_are_kept(rules: Path) -> None:
    file = rules / "circuits" / "fill.yaml"
    text = file.read_text("utf-8")
    for number in range(MOST_KEPT + 2):
        file.write_text(f"{text}\n# edit {number}\n", "utf-8")
        knowledge_in(rules)
    assert len(list(kept(rules).parent.glob("*" + SUFFIX))) == MOST_KEPT
    assert kept(rules).exists()


def test_a_disk_that_takes_nothing_costs_time_only(
    rules: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "cache").write_text("a file where a folder is wanted")
    assert knowledge_in(rules).base.digest == load_rules(rules).digest
