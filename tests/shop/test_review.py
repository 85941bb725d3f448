"""Reviews beside a sealed trace, and the shop's key."""

from __future__ import annotations

import json
import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from expert.cli import main
from expert.shop.review.book import CannotReview, add_review, read_reviews
from expert.shop.review.records import Remark
from expert.shop.sums.index import _facts
from expert.trace.reading import read_trace
from expert.trace.records import Sealed
from expert.trace.signing import ShopKey, Signature, is_signed_by, make_key, read_key, sealed_content
from expert.trace.verifying import verify
from expert.trace.writing import TraceWriter

DEMO = Path(__file__).resolve().parents[2] / "transcripts_demo" / "demo-1-straight.jsonl"
AT = datetime(2026, 4, 1, 9, tzinfo=UTC)
# RFC 8032, section 7.1, test 2: secret key, public key, message and signature.
SECRET = "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb"
PUBLIC = "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c"
SIGNATURE = (
    "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
    "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"
)


@pytest.fixture
def trace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("EXPERT_SHOP", str(tmp_path / "profile" / "shop.yaml"))
    return Path(shutil.copy(DEMO, tmp_path / "0001.jsonl"))


def expert(*arguments: object) -> Result:
    return CliRunner().invoke(main, list(map(str, arguments)))


def test_the_signature_is_that_of_the_standard() -> None:
    key = ShopKey(bytes.fromhex(SECRET))
    assert key.public == PUBLIC
    assert key.sign(b"\x72") == Signature(PUBLIC, SIGNATURE)
    assert is_signed_by(Signature(PUBLIC, SIGNATURE), b"\x72")
    assert not is_signed_by(Signature(PUBLIC, SIGNATURE), b"\x73")
    assert not is_signed_by(Signature("00", SIGNATURE), b"\x72")


def test_reviews_are_appended_and_the_trace_stays(trace: Path) -> None:
    before = trace.read_bytes()
    read = read_trace(trace)
    key = ShopKey(bytes.fromhex(SECRET))
    add_review(read, AT, "Iris", "lucky", "fill_solenoid.coil_open", (Remark("lead_looks", "well asked"),))
    add_review(read, AT, "Iris", "right", key=key)
    first, second = read_reviews(trace, read.lines[-1].digest)
    assert (first.trouble, first.signed, second.trouble, second.signed) == ("", False, "", True)
    assert first.review.remarks == (Remark("lead_looks", "well asked"),)
    assert trace.read_bytes() == before
    assert (_facts(trace).verdict, _facts(trace).true_fault) == ("right", "")


@pytest.mark.parametrize(
    "old, new",
    [
        (b'"lucky"', b'"right"'),
        (b'"by":"Iris"', b'"by":"Ines"'),
        (b'"key":"3d', b'"key":"3e'),
        (b'"right"', b'"wrong"'),
    ],
    ids=["the first verdict", "who said it", "the key", "the signed verdict"],
)
def test_what_was_changed_is_told(trace: Path, old: bytes, new: bytes) -> None:
    read = read_trace(trace)
    add_review(read, AT, "Iris", "lucky")
    add_review(read, AT, "Iris", "right", key=ShopKey(bytes.fromhex(SECRET)))
    path = trace.with_suffix(".reviews")
    content = path.read_bytes()
    assert old in content
    path.write_bytes(content.replace(old, new, 1))
    troubles = [one.trouble for one in read_reviews(trace, read.lines[-1].digest)]
    assert any(troubles)


def test_a_torn_review_is_not_counted_and_cut_off(trace: Path) -> None:
    read = read_trace(trace)
    add_review(read, AT, "Iris", "right")
    path = trace.with_suffix(".reviews")
    path.write_bytes(path.read_bytes() + b'{"at":"20')
    assert len(read_reviews(trace, read.lines[-1].digest)) == 1
    add_review(read, AT, "Iris", "wrong")
    assert [one.review.verdict for one in read_reviews(trace, read.lines[-1].digest)] == ["right", "wrong"]


def test_an_open_job_is_not_reviewed(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    path.write_bytes(b"".join(DEMO.read_bytes().splitlines(keepends=True)[:9]))
    with pytest.raises(CannotReview):
        add_review(read_trace(path), AT, "Iris", "right")


def test_a_seal_that_is_signed_cannot_be_made_by_whoever_holds_the_file(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    records = read_trace(DEMO).records
    key = make_key(tmp_path / "shop.key")
    assert read_key(tmp_path / "shop.key") == key and (tmp_path / "shop.key").stat().st_mode & 0o77 == 0
    with TraceWriter.create(path, lambda: AT) as writer:
        writer.append(records[:-1])
        writer.seal(key.sign)
    assert verify(read_trace(path)) == ()
    seal = read_trace(path).records[-1]
    assert isinstance(seal, Sealed) and seal.key == key.public
    # Somebody without the key writes the whole file anew, with every digest right and the old signature.
    forged = tmp_path / "forged.jsonl"
    with TraceWriter.create(forged, lambda: AT) as writer:
        writer.append(records[:-2])
        writer.seal(lambda content: Signature(seal.key, seal.signature))
    assert [problem.code for problem in verify(read_trace(forged))] == ["seal-forged"]
    assert not is_signed_by(Signature(seal.key, seal.signature), sealed_content(1, "0" * 64))


# ---------------------------------------------------------------- the command


def test_the_command(trace: Path) -> None:
    assert expert("review", trace).stdout == "No review yet.\n"
    made = expert("review", "--make-key")
    assert made.exit_code == 0 and "Public key" in made.stdout
    again = expert("review", "--make-key")
    assert (again.exit_code, "shop.key" in again.stderr) == (2, True)
    done = expert("review", trace, "--by", "Iris", "--verdict", "wrong", "--true-fault", "fill_solenoid.stuck_shut",
                  "--remark", "lead_looks: too early\x1b[31m")  # fmt: skip
    assert (done.exit_code, done.stdout) == (0, "Reviewed: wrong, signed.\n"), done.stderr
    shown = expert("review", trace).stdout.splitlines()
    assert shown[0].endswith("Iris: wrong")
    assert shown[1:] == [
        "  the true fault: fill_solenoid.stuck_shut",
        "  lead_looks: too early",
        "  signed with the key of this shop",
    ]
    data = json.loads(trace.with_suffix(".reviews").read_text())
    trace.with_suffix(".reviews").write_text(json.dumps(data | {"verdict": "right"}) + "\n")
    assert expert("review", trace).exit_code == 1


@pytest.mark.parametrize(
    "arguments, message",
    [
        (["--verdict", "right"], "Who reviews? Add: --by NAME\n"),
        (
            ["--verdict", "right", "--by", "I", "--true-fault", "x"],
            "'x' is no fault of the rules; expert explain lists them\n",
        ),
        (
            ["--verdict", "right", "--by", "I", "--remark", "nothing"],
            "'nothing': a remark is the id of a question or a rule, a colon, and the text\n",
        ),
    ],
)
def test_what_will_not_do(trace: Path, arguments: list[str], message: str) -> None:
    result = expert("review", trace, *arguments)
    assert (result.exit_code, result.stderr) == (2, message)
