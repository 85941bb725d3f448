"""The reviews beside a sealed trace: appended, chained, and signed where the shop has a key."""

from __future__ import annotations

import json
import os
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from filelock import FileLock

from expert.shop.review.places import reviews_path
from expert.shop.review.records import Remark, Review, Verdict
from expert.shop.sentences import review as say
from expert.trace.errors import TraceDamaged, TraceError
from expert.trace.json_values import NotPlain, from_plain, to_plain
from expert.trace.lines import NOTHING_BEFORE, TIME_FORMAT, digest_of, spell
from expert.trace.reading import Trace
from expert.trace.signing import ShopKey, Signature, is_signed_by


class CannotReview(TraceError):
    """The job is not closed, or its trace was changed."""


@dataclass(frozen=True, slots=True)
class Reviewed:
    """A review as read. `trouble`: why it cannot be relied on, or ""; `signed`: by a key, whose it is stands in it."""

    review: Review
    trouble: str
    signed: bool


def read_reviews(trace_path: Path, trace_digest: str) -> tuple[Reviewed, ...]:
    """All reviews of a trace, in order; none when there is no file. Raises TraceDamaged for what is no review.

    `trace_digest`: of the trace's last line. Raises `signing.CannotSign` when one is signed and the library is missing.
    """
    path = reviews_path(trace_path)
    try:
        lines = path.read_bytes().split(b"\n")
    except FileNotFoundError:
        return ()
    found: list[Reviewed] = []
    before = NOTHING_BEFORE
    # What follows the last line end is a write that did not come to its end.
    for number, raw in enumerate(lines[:-1], 1):
        review = _decoded(raw, path, number)
        found.append(Reviewed(review, _trouble(review, raw, before, trace_digest), bool(review.signature)))
        before = digest_of(raw)
    return tuple(found)


def _decoded(raw: bytes, path: Path, number: int) -> Review:
    try:
        review: Review = from_plain(Review, json.loads(raw))
    except (ValueError, RecursionError, NotPlain) as problem:
        raise TraceDamaged(f"no review: {problem}", path, number) from None
    return review


def _trouble(review: Review, raw: bytes, before: str, trace_digest: str) -> str:
    if review.before != before:
        return say.DOES_NOT_FOLLOW
    if review.trace != trace_digest:
        return say.ABOUT_ANOTHER_TRACE
    if spell(to_plain(Review, review)) != raw:
        return say.CHANGED_AFTERWARDS
    if review.signature and not is_signed_by(Signature(review.key, review.signature), _signed_part(review)):
        return say.SIGNATURE_OF_ANOTHER
    return ""


def _signed_part(review: Review) -> bytes:
    return spell(to_plain(Review, replace(review, signature="")))


def add_review(
    trace: Trace,
    at: datetime,
    by: str,
    verdict: Verdict,
    true_fault: str = "",
    remarks: tuple[Remark, ...] = (),
    key: ShopKey | None = None,
) -> Review:
    """Append a review and wait for the disk. Raises CannotReview, TraceDamaged, `signing.CannotSign`, OSError."""
    if not trace.is_sealed:
        raise CannotReview(say.not_sealed(trace.path))
    path = reviews_path(trace.path)
    digest = trace.lines[-1].digest
    with FileLock(path.with_name(path.name + ".lock")):
        known = read_reviews(trace.path, digest)
        broken = next((one for one in known if one.trouble), None)
        if broken is not None:
            raise CannotReview(say.cannot_be_added_to(path, broken.review.by, broken.trouble))
        before = digest_of(spell(to_plain(Review, known[-1].review))) if known else NOTHING_BEFORE
        public = key.public if key else ""
        review = Review(at.strftime(TIME_FORMAT), by, verdict, digest, before, true_fault, remarks, public)
        if key is not None:
            review = replace(review, signature=key.sign(_signed_part(review)).value)
        _append(path, spell(to_plain(Review, review)) + b"\n")
    return review


def _append(path: Path, line: bytes) -> None:
    with path.open("ab+") as file:
        file.seek(0)
        content = file.read()
        # A line that a pulled plug has torn is cut off: it was never acknowledged.
        file.truncate(content.rfind(b"\n") + 1)
        file.write(line)
        file.flush()
        os.fsync(file.fileno())
