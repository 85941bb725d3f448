"""Hostile text wherever text comes in: it reaches the terminal as plain text at most, and is never fatal.

Control sequences: ECMA-48. Direction marks: Unicode, categories Cc, Cf, Cs.
"""

from __future__ import annotations

import json
import unicodedata
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from expert.trace.reading import read_trace
from expert.trace.records import Noted, Said
from tests.dialogue.command_line import AT_THE_PUMP, INTAKE, Ran, Shop, run
from tests.dialogue.small_folder import FILES

HUGE = 10_000_000  # characters

HOSTILE = [
    pytest.param("\x1b[2J\x1b[31mred", id="erase and colour"),
    pytest.param("\x1b]0;title\x07after", id="window title"),
    pytest.param("\x1b]8;;http://x\x1b\\link\x1b]8;;\x1b\\", id="link"),
    pytest.param("\x1bPq#0\x1b\\picture", id="picture"),
    pytest.param("\x9b31mred\x9d0;title\x9c", id="eight-bit controls"),
    pytest.param("\u202egnirts\u2066\u200f\u200b", id="directions"),
    pytest.param("nothing\0here\x08\x08\x7f", id="NUL and backspaces"),
    pytest.param("bell\x07\x07", id="bell"),
    pytest.param("tag \U000e0041\U000e0042", id="tags"),
    pytest.param("form\x0cfeed\x0bline\u2028para\u2029", id="line ends"),
    pytest.param("%s %n {0} {job} ${HOME} `id` $(id)", id="templates"),
    pytest.param("<script>alert(1)</script>", id="markup"),
    pytest.param("!!python/object/apply:os.system ['id']", id="YAML tag"),
]
PROMPTS = {
    "name": [],
    "machine": ["Ann"],
    "plate value": ["Ann", "1"],
    "complaint": ["Ann", "1", "ok"],
    "qualified": ["Ann", "1", "ok", "no fill", "ok"],
    "arrives": ["Ann", "1", "ok", "no fill", "ok", "no"],
    "move": INTAKE.split("\n")[:-1],
    "question": AT_THE_PUMP.split("\n")[:-1],
    "reading": [*AT_THE_PUMP.split("\n")[:-1], "yes", "yes", "yes"],
    "repair": [*AT_THE_PUMP.split("\n")[:-1], "no", "yes", "yes"],
}
FORMS = [
    "{}",
    "note {}",
    "can't tell {}",
    "what if {}",
    "take back {}",
    "fill_coil {}",
    "figure {}",
    "dealt with by {}",
]


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop.at(tmp_path)


def is_harmless(text: str) -> bool:
    """Only line ends and what can be seen."""
    return all(char == "\n" or unicodedata.category(char) not in ("Cc", "Cf", "Cs", "Zl", "Zp") for char in text)


@pytest.mark.parametrize("hostile", HOSTILE)
def test_at_every_prompt_and_in_every_command(shop: Shop, hostile: str) -> None:
    for number, (name, before) in enumerate(PROMPTS.items(), 1):
        lines = [*before, *(form.format(hostile) for form in FORMS), "answers", "suspects", "why", "pause"]
        result = shop.bench(("\n".join(lines) + "\n").encode("utf-8", "surrogatepass"), str(number))
        assert result.code == 0, name
        assert is_harmless(result.out + result.err), name
        again = shop.resume("hand over\n" if number > 6 else "", str(number))
        assert again.code == 0
        assert is_harmless(again.out + again.err), name
        assert is_harmless("".join(line.raw.decode() for line in read_trace(shop.trace(str(number))).lines))


@pytest.mark.parametrize(
    "raw",
    [b"\xff\xfe", b"\xed\xa0\x80", b"\xc3", b"\x80\x9b2J", b"\0\0\0"],
    ids=["no UTF-8", "surrogate", "torn", "C1", "NUL"],
)
def test_bytes_that_are_no_text(shop: Shop, raw: bytes) -> None:
    result = shop.bench(AT_THE_PUMP.encode() + b"note " + raw + b"x\n" + raw + b"\nno\n")
    assert (result.code, result.err) == (0, "")
    assert is_harmless(result.out)
    assert "FOUND: pump: dead.\n" in result.out
    notes = [record.text for record in read_trace(shop.trace()).records if isinstance(record, Noted)]
    assert len(notes) == 1 and notes[0].endswith("x") and is_harmless(notes[0])


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.text(alphabet=st.characters(exclude_characters="\n\r"), max_size=60), max_size=5))
def test_any_text_at_the_bench(tmp_path_factory: pytest.TempPathFactory, lines: list[str]) -> None:
    shop = Shop.at(tmp_path_factory.mktemp("shop"))
    result = shop.bench((AT_THE_PUMP + "".join(f"{line}\n" for line in lines)).encode("utf-8", "surrogatepass"))
    assert result.code == 0 and is_harmless(result.out)
    # A text that happens to be a command may hand the job over; then it is sealed, and resume says so.
    is_closed = read_trace(shop.trace()).is_sealed
    assert shop.resume().code == (2 if is_closed else 0)


# ---------------------------------------------------------------- ten megabytes

HUGE_LINES = {
    "an answer": "y" * HUGE,
    "a note": "note " + "x" * HUGE,
    "digits": "9" * HUGE,
    "a reading": "0." + "0" * HUGE + " ohm",
    "escapes": "\x1b[" * (HUGE // 2),
    "spaces": " " * HUGE,
    "a reason": "can't tell " + "x" * HUGE,
    "a number to take back": "take back " + "1" * HUGE,
    "commas": "," * HUGE,
}


@pytest.mark.parametrize("line", HUGE_LINES.values(), ids=HUGE_LINES.keys())
def test_a_paste_of_ten_megabytes(shop: Shop, line: str) -> None:
    result = shop.bench(AT_THE_PUMP + line + "\n")
    assert (result.code, result.err) == (0, "")
    assert len(result.out) < 10_000 and is_harmless(result.out)
    assert shop.trace().stat().st_size < 60_000
    said = [record.text for record in read_trace(shop.trace()).records if isinstance(record, Said)]
    assert len(said[-1]) <= 2000
    assert shop.resume().code == 0


def test_a_huge_note_is_kept_in_part_and_says_so(shop: Shop) -> None:
    shop.bench(AT_THE_PUMP + "note " + "x" * HUGE + "\n")
    (note,) = [record.text for record in read_trace(shop.trace()).records if isinstance(record, Noted)]
    assert note.startswith("xxxx") and note.endswith(" [cut here: 10000005 characters]")


def test_a_hundred_thousand_lines_of_nonsense(shop: Shop) -> None:
    result = shop.bench(AT_THE_PUMP + "x\n" * 300)
    assert result.code == 0
    assert result.out.count("'x' is no answer here. Type yes or no, or: can't tell\n") == 300


# ---------------------------------------------------------------- files

BAD_TEXTS = {
    "control sequence": "\x1b[2Jx",
    "direction": "\u202ex",
    "NUL": "a\0b",
    "C1": "a\x9bb",
}


@pytest.mark.parametrize("text", BAD_TEXTS.values(), ids=BAD_TEXTS.keys())
@pytest.mark.parametrize("file", ["circuits/fill.yaml", "complaints.yaml", "machines/test_machine.yaml"])
def test_rule_files(shop: Shop, file: str, text: str) -> None:
    (shop.rules / file).write_text(FILES[file] + f"# {text}\n", "utf-8")
    line = FILES[file].count("\n") + 1
    result = shop.bench(INTAKE)
    assert (result.code, result.out) == (2, "")
    assert result.err.startswith(f"{shop.rules / file}:{line}:")
    assert "[control-character]\n" in result.err and is_harmless(result.err)


@pytest.mark.parametrize("escaped", [r'"\e[2J"', r'"\x1b]0;x\a"', r'"\u202e"', r'"\0"', r'"\u009b2J"'])
def test_rule_files_with_escaped_characters(shop: Shop, escaped: str) -> None:
    shop.edit_rules("ask: Does the pump run?", f"ask: {escaped}")
    result = shop.bench(AT_THE_PUMP)
    assert result.code in (0, 2)
    assert is_harmless(result.out + result.err)


@pytest.mark.parametrize("filling", ["# x\n", "a: [", "- ", "\t", "\x1b", "\0", "&a [", "{", "x"], ids=ascii)
def test_rule_files_and_answers_files_of_ten_megabytes(shop: Shop, filling: str) -> None:
    content = (filling * (HUGE // len(filling))).encode()
    answers = shop.play(content)
    (shop.rules / "circuits" / "fill.yaml").write_bytes(content)
    for result in (answers, shop.bench(INTAKE)):
        assert (result.code, result.out) == (2, "")
        assert result.err.endswith("[too-large]\n") or "[too-large]\n" in result.err
        assert len(result.err) < 2000 and is_harmless(result.err)


@pytest.mark.parametrize("text", BAD_TEXTS.values(), ids=BAD_TEXTS.keys())
def test_answers_files(shop: Shop, text: str) -> None:
    result = shop.play(f"machine: test_machine\ncomplaints: [will_not_fill]\nanswers: {{pump_runs: '{text}'}}\n")
    assert (result.code, result.out) == (2, "")
    assert f"{shop.rules.parent}/answers.yaml:3:" in result.err
    assert is_harmless(result.err)


@pytest.mark.parametrize("escaped", [r"\e[2J", r"\u202e", r"\0", r"\u009b2J"])
def test_answers_files_with_escaped_characters(shop: Shop, escaped: str) -> None:
    result = shop.play(f'machine: test_machine\ncomplaints: [will_not_fill]\nanswers: {{pump_runs: "{escaped}"}}\n')
    assert result.code == 2 and is_harmless(result.out + result.err)


@pytest.mark.parametrize(
    "content",
    [
        b"x" * HUGE,
        b"{" * HUGE,
        b"[" * 900_000 + b"\n",
        b"\n" * HUGE,
        b"\0" * HUGE,
        b'{"a":"\x1b[2J"}\n{}\n',
        b"\xff\n\n",
    ],
    ids=["letters", "braces", "nested", "line ends", "NUL", "control sequence", "no text"],
)
def test_traces(shop: Shop, content: bytes) -> None:
    shop.jobs.mkdir()
    shop.trace().write_bytes(content)
    for result in (shop.resume(), run("audit", shop.trace())):
        assert result.code in (1, 2) and result.out == ""
        assert result.err.startswith(f"{shop.trace()}") and is_harmless(result.err)
        assert len(result.err) < 500


def test_a_trace_whose_kind_is_hostile(shop: Shop) -> None:
    shop.jobs.mkdir()
    line = {"at": "2026-01-31T09:30:00Z", "before": "", "check": "", "data": {}, "kind": "\x1b[2J\u202e", "seq": 1}
    shop.trace().write_text(json.dumps(line) + "\n", "utf-8")
    message = f"{shop.trace()}:1:1: '\\x1b[2J\\u202e' is not a kind of record that this version knows [damaged-trace]\n"
    assert shop.resume() == Ran(2, "", message)


def test_the_kept_rules_are_never_looked_for_outside_the_jobs(shop: Shop) -> None:
    """The digest of the rules names a folder: one that climbs out must not be followed."""
    from expert.desk.pinning import pinned_folder

    for digest in ("../../../../rules", "/etc", "..", "", "a/b"):
        folder = pinned_folder(shop.jobs, digest)
        assert folder.parent == shop.jobs / ".rules" and ".." not in folder.parts, digest
