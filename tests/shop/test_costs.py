"""What a job costs, only where the shop wants it: in the record and the audit, on page and slip, in the sums."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from expert.desk.playing import play_answers
from expert.desk.replay import rerun
from expert.job.state.costs import Rates, costs_of, money
from expert.language.shipped import shipped
from expert.shop.audit import audit_in_words, audit_trace
from expert.shop.redacting import redacted
from expert.shop.report.making import job_page, slip_text
from expert.shop.sums.filters import Filters, choose
from expert.shop.sums.index import index_of
from expert.shop.sums.totals import totals
from expert.shop.sums.words import shown
from expert.trace.reading import read_trace, trace_in
from expert.trace.records import Closed
from tests.dialogue.shipped_desk import shipped_knowledge

ANSWERS = """\
machine: heat_exchanger_lever_tank
complaints: [boiler_will_not_fill]
answers: {fill_coil_resistance: OL}
rest: sound
after_repair: {}
"""
WITHOUT = "country: uk\nname: Corner Workshop (invented)\n"
WITH = WITHOUT + "currency: GBP\nhourly_rate: 90\nprices: [{part: Fill Solenoid Coil, price: 35.5}]\n"
ON_SLIP = WITH + "costs_on_slip: yes\n"


def job_of(folder: Path, profile: str, monkeypatch: pytest.MonkeyPatch, number: str = "7") -> Path:
    (folder / "shop.yaml").write_text(profile)
    (folder / "answers.yaml").write_text(ANSWERS)
    monkeypatch.setenv("EXPERT_SHOP", str(folder / "shop.yaml"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(folder / "cache"))
    jobs = folder / "jobs"
    result = play_answers(
        shipped_knowledge(), shipped("rules"), folder / "answers.yaml", jobs, number, lambda: datetime.now(UTC)
    )
    assert result["ending"] == "repaired"
    return Path(result["trace"])


def closed_in(path: Path) -> Closed:
    return next(record for record in read_trace(path).records if isinstance(record, Closed))


def test_a_shop_that_wants_costs_has_them_in_record_audit_page_slip_and_sums(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = job_of(tmp_path, ON_SLIP, monkeypatch)
    closed = closed_in(path)
    work = round(closed.minutes * 90 / 60, 2)
    assert (closed.currency, closed.work_cost, closed.parts_cost, closed.without_price) == ("GBP", work, 35.5, ())
    in_words = f"work {work:,.2f} GBP, parts 35.50 GBP, together {work + 35.5:,.2f} GBP"
    assert f"Costs: {in_words}" in list(audit_in_words(audit_trace(path, None)))
    assert f"<dt>Costs</dt><dd>{in_words}</dd>" in job_page(path)
    told = slip_text(path).splitlines()
    start = told.index("What it costs:")
    assert told[start + 1 : start + 4] == [
        f"  - work, {closed.minutes:g} min at 90.00 GBP an hour: {work:,.2f} GBP",
        "  - fill solenoid coil: 35.50 GBP",
        f"  Together: {work + 35.5:,.2f} GBP.",
    ]
    with index_of(path.parent, lambda read, of: None) as index:
        choose(index, Filters())
        (costs,) = [total for total in totals(index) if total.of.key == "costs"]
    assert costs.rows == (("GBP", 1, work, 35.5, work + 35.5, work + 35.5),)
    assert shown("together", work + 35.5) == f"{work + 35.5:,.2f}"
    assert rerun(shipped_knowledge(), read_trace(path)).differences == ()
    assert "GBP" not in str(trace_in(redacted(read_trace(path)), path).records)


@pytest.mark.parametrize("profile, on_page", [(WITHOUT, False), (WITH, True)], ids=["no currency", "not on slips"])
def test_a_shop_that_does_not_want_them_has_none(
    profile: str, on_page: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = job_of(tmp_path, profile, monkeypatch)
    assert "cost" not in slip_text(path).casefold()
    assert ("<dt>Costs</dt>" in job_page(path)) == on_page


def test_what_has_no_price_is_named_and_not_guessed() -> None:
    # By hand: 20 min at 45 an hour is 15; two seals at 0.35 are 0.70.
    costs = costs_of(Rates("EUR", 45.0, (("Seal", 0.35),)), 20.0, ("2 x seal", "0 seal", "old seal"))
    assert costs.parts == (("2 x seal", 0.7), ("0 seal", None), ("old seal", None))
    assert (costs.work, costs.for_parts, costs.together) == (15.0, 0.7, 15.7)
    assert costs.without_price == ("0 seal", "old seal")
    assert (money(0.0, "EUR"), money(1999.5, "yen")) == ("0.00 EUR", "2,000 yen")
