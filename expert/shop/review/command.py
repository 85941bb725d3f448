"""What `expert review` does, in words."""

from __future__ import annotations

import textwrap
from datetime import datetime
from pathlib import Path
from typing import cast

from expert.desk.profile.using import key_path
from expert.language.model import RuleBase
from expert.shop.review.book import Reviewed, add_review, read_reviews
from expert.shop.review.records import VERDICTS, Remark, Verdict
from expert.shop.sentences import review as say
from expert.trace.cleaning import clean
from expert.trace.reading import read_trace
from expert.trace.signing import ShopKey, make_key, read_key
from expert.trace.verifying import refuse_damage

WIDTH = 79


class NotAReview(ValueError):
    """Something that is said in a review will not do."""


def key_made() -> str:
    """Make the shop's key and say what to do with it. Raises `signing.CannotSign`, FileExistsError, OSError."""
    key = make_key(key_path())
    return say.key_written(key_path(), key.public)


def review_added(
    path: Path, at: datetime, by: str, verdict: str, true_fault: str, remarks: tuple[str, ...], base: RuleBase
) -> str:
    """Add a review; gives one line. Raises NotAReview and what `book.add_review` raises."""
    if not any(map(str.isalpha, by)):
        raise NotAReview(say.WHO_REVIEWS)
    if true_fault and true_fault not in base.faults:
        raise NotAReview(say.is_no_fault(true_fault))
    trace = read_trace(path)
    refuse_damage(trace)
    key: ShopKey | None = read_key(key_path())
    said = tuple(_remark(text, base) for text in remarks)
    add_review(trace, at, clean(by, 60), cast(Verdict, verdict), true_fault, said, key)
    return f"Reviewed: {verdict}{', signed' if key else say.NOT_SIGNED}."


def _remark(text: str, base: RuleBase) -> Remark:
    about, colon, said = text.partition(":")
    about, said = about.strip(), said.strip()
    if not colon or not said or (about not in base.questions and about not in base.rules):
        raise NotAReview(say.how_a_remark_is_written(text[:60]))
    return Remark(about, clean(said))


def reviews_in_words(path: Path) -> tuple[list[str], bool]:
    """The reviews of a job as lines, and whether all can be relied on."""
    trace = read_trace(path)
    refuse_damage(trace)
    reviews = read_reviews(path, trace.lines[-1].digest if trace.lines else "")
    key = read_key(key_path())
    ours = key.public if key else ""
    lines = [line for one in reviews for line in _in_words(one, ours)]
    return lines or ["No review yet."], not any(one.trouble for one in reviews)


def _in_words(one: Reviewed, ours: str) -> list[str]:
    review = one.review
    lines = [f"{review.at}  {review.by}: {VERDICTS[review.verdict]}"]
    if review.true_fault:
        lines.append(say.true_fault(review.true_fault))
    for remark in review.remarks:
        lines += textwrap.wrap(f"{remark.about}: {remark.text}", WIDTH, initial_indent="  ", subsequent_indent="    ")
    if one.trouble:
        lines.append(say.not_to_be_relied_on(one.trouble))
    elif not one.signed:
        lines.append("  not signed")
    else:
        lines.append(f"  signed with {say.KEY_OF_THIS_SHOP if review.key == ours else f'another key: {review.key}'}")
    return lines
