"""Nothing is lost by packing, traces are small, and what cannot be unpacked is told as damage."""

from __future__ import annotations

import base64
import hashlib
import zlib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.trace.errors import TraceDamaged
from expert.trace.folding import LARGEST, MARK, PHRASES, fold, unfold
from expert.trace.packing import Memory, pack, unpack
from expert.trace.reading import read_trace
from expert.trace.records import Answered, Fired, Moved, Proved, Record, Repaired, Said, Told, Unfired
from expert.trace.sentences import forms as say
from expert.trace.writing import TraceWriter
from tests.trace.trace_samples import RECORDS, SteadyClock

ROOT = Path(__file__).resolve().parents[2]
BOOK = "d7e8e4b2c7c1e245a15655c2a8aca7db306d8cd01eef65e0be9695a88acbf5e1"  # traces rest on it
DEMOS = sorted((ROOT / "transcripts_demo").glob("*.jsonl"))


@settings(max_examples=60, deadline=None)
@given(steps=st.lists(st.lists(RECORDS, min_size=1, max_size=5), max_size=5))
def test_every_step_comes_out_as_it_went_in_whatever_went_before(steps: list[list[Record]]) -> None:
    packing, unpacking = Memory(), Memory()
    for step in steps:
        plain, packed, packing = pack(step, packing)
        records, unpacking = unpack(plain, packed, unpacking)
        assert records == tuple(step)
        assert packing == unpacking


def test_what_is_plain_and_what_is_packed() -> None:
    step = (
        Said("out"),
        Moved("isolate", {"mains": "isolated", "covers": "on"}, 1.0),
        Fired("dead", ("answer 4",), "It is dead."),
        Told("Take the covers off."),
    )
    plain, packed, _ = pack(step, Memory(state={"mains": "on", "covers": "on", "lamp": "lit"}))
    assert plain == [
        {"said": {"text": "out"}},
        {"moved": {"move": "isolate", "state": {"mains": "isolated", "lamp": None}}},
        {"fired": {"rule": "dead"}},
    ]
    assert packed and "covers" not in packed


def test_what_a_step_names_twice_stands_in_it_once() -> None:
    step = (
        Said("0.05 ohm"),
        Answered(3, "earth_bond", "0.05 ohm", ("sound",), ("sound", "high"), 0.05),
        Proved("earth_bond", "0.05 ohm", True),
    )
    plain, packed, _ = pack(step, Memory())
    assert plain == [
        {"said": {"text": "0.05 ohm"}},
        {"answered": {"number": 3, "question": "earth_bond", "outcomes": ["sound"], "reading": 0.05}},
        {"proved": {"passed": True}},
    ]
    assert unpack(plain, packed, Memory())[0] == step


def test_what_a_repair_makes_untrue_is_packed() -> None:
    step = (Said("done"), Repaired("coil.open", 20.0, "done"), Unfired("coil_is_open"))
    plain, packed, _ = pack(step, Memory())
    assert [kind for one in plain for kind in one] == ["said", "repaired"]
    assert unpack(plain, packed, Memory())[0] == step
    taken_back, _, _ = pack((Said("take back 3"), Unfired("coil_is_open")), Memory())
    assert [kind for one in taken_back for kind in one] == ["said", "unfired"]


def test_the_phrase_book_is_kept_for_ever() -> None:
    assert hashlib.sha256(PHRASES.read_bytes()).hexdigest() == BOOK


def test_what_earlier_programs_folded_is_unfolded() -> None:
    before, text = b"Mains kills. Pull the plug. " * 3_000, b"Mains kills. Pull the plug. Keep it in sight."
    packer = zlib.compressobj(9, zlib.DEFLATED, -15, 9, zlib.Z_DEFAULT_STRATEGY, before[-32_768:])
    older = base64.b85encode(packer.compress(text) + packer.flush()).decode()
    assert unfold(older, before[-65_536:]) == unfold(fold(text, before), before) == text


def test_a_job_is_small() -> None:
    sizes = [path.stat().st_size for path in DEMOS]
    assert max(sizes) < 40_000  # two faults, and each complaint tried again


def test_a_word_that_is_said_again_takes_hardly_any_room(tmp_path: Path) -> None:
    records = [record for line in read_trace(DEMOS[0]).lines[:-1] for record in line.records]
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(records)
        once = path.stat().st_size
        writer.append([Told("Mains kills. Pull the plug, keep it in sight.")])
        again = path.stat().st_size
        writer.append([Told("Mains kills. Pull the plug, keep it in sight.")])
        assert path.stat().st_size - again <= again - once < 300


@pytest.mark.parametrize(
    ("plain", "packed", "message"),
    [
        pytest.param([], "\u00e9", say.NOT_PACKED, id="not base 85"),
        pytest.param([], "0" * 10, say.NOT_PACKED, id="no deflate"),
        pytest.param([], MARK + "0" * 10, say.NOT_PACKED, id="not folded"),
        pytest.param([], "2:" + "0" * 10, say.NOT_PACKED, id="a later book"),
        pytest.param([], 7, "'packed' is a text", id="number"),
        pytest.param(
            [{"said": {}, "told": {}}], "", "'records' are objects with one key each, the kind", id="two keys"
        ),
        pytest.param(7, "", "'records' are objects with one key each, the kind", id="no list"),
    ],
)
def test_what_cannot_be_unpacked(plain: object, packed: object, message: str) -> None:
    with pytest.raises(TraceDamaged) as caught:
        unpack(plain, packed, Memory())
    assert caught.value.reason == message


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(b"0" * (LARGEST + 1), id="a text without end"),
        pytest.param(b"[" * 100_000, id="deep"),
        pytest.param(b'[["told",{"text":"x"},1]]', id="three in one"),
        pytest.param(b'[["told"]]', id="no fields"),
        pytest.param(b'[{"a":1}]', id="fields of nothing"),
        pytest.param(b"7", id="no list"),
        pytest.param(b"[]", id="less than there is"),
    ],
)
def test_nonsense_within_is_damage(text: bytes) -> None:
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    older = base64.b85encode(packer.compress(text) + packer.flush()).decode()
    for packed in (older, fold(text, b"")):
        with pytest.raises(TraceDamaged):
            unpack([{"said": {"text": "x"}}] if text == b"[]" else [], packed, Memory())
