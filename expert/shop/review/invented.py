"""Reviews of invented jobs: what is true of a simulated machine is known, so a verdict can be given without anybody."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta
from pathlib import Path

from expert.shop.review.book import add_review
from expert.shop.review.records import Verdict
from expert.trace.places import job_path
from expert.trace.reading import read_trace

REVIEWER = "Mara (invented)"
THE_DAY_AFTER = timedelta(days=1)


def review_invented(folder: Path, truths: Iterable[tuple[str, Verdict, str]]) -> int:
    """Review every closed job of a season; gives how many. `truths`: number, verdict, true fault ("" for none)."""
    reviewed = 0
    for number, verdict, fault in truths:
        trace = read_trace(job_path(folder, number))
        if trace.is_sealed:
            add_review(trace, trace.lines[-1].at + THE_DAY_AFTER, REVIEWER, verdict, fault)
            reviewed += 1
    return reviewed
