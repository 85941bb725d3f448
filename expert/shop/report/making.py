"""From the path of a trace or a folder to a page."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from expert.language.model import RuleBase
from expert.shop.report.job_view import JobView, at_a_glance, job_view
from expert.shop.report.pages import page
from expert.shop.report.shop_view import shop_view
from expert.shop.report.slip import slip_head, slip_in_words
from expert.shop.sentences import reports as say
from expert.shop.sums.facts import REAL
from expert.shop.sums.filters import Filters
from expert.shop.sums.words import HEADINGS
from expert.shop.sums.working_out import sums_of
from expert.trace.errors import TraceError

GOOD = frozenset({"repaired", "normal"})
BAD = frozenset({"stopped", "repaired_unproved", "normal_untested"})


class NoSlip(TraceError):
    """A slip was wanted of a job that has none yet."""


def job_page(path: Path) -> str:
    """The page of a job. Raises what `job_view` raises."""
    view = job_view(path)
    ending = view.head.ending
    tone = "good" if ending in GOOD else "bad" if ending in BAD else "open"
    head = slip_head(*view.shop, view.head.last) if view.slip else ()
    return page(
        "job.html",
        view=view,
        glance=at_a_glance(view),
        slip=(*head, *view.slip),
        apart=HEADINGS.get(view.purpose or REAL, ""),
        tone=tone,
    )


def slip_text(path: Path) -> str:
    """The customer's slip as plain text. Raises NoSlip and what `job_view` raises."""
    view = _with_slip(path)
    return "\n".join(slip_in_words(slip_head(*view.shop, view.head.last), view.slip)) + "\n"


def slip_page(path: Path) -> str:
    """The customer's slip as a page. Raises NoSlip and what `job_view` raises."""
    view = _with_slip(path)
    return page("slip.html", job=view.head.job, head=slip_head(*view.shop, view.head.last), lines=view.slip)


def _with_slip(path: Path) -> JobView:
    view = job_view(path)
    if view.is_damaged:
        raise NoSlip(say.changed_and_no_slip(path))
    if not view.slip:
        raise NoSlip(say.no_slip_yet(path))
    return view


def shop_page(
    folder: Path | None, rules: Path | None, filters: Filters, load: Callable[[Path | None], RuleBase]
) -> str:
    """The page of the sums of a folder. Raises OSError."""
    return page("shop.html", view=shop_view(sums_of(folder, rules, filters, load)))
