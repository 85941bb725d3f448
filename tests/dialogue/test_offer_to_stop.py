"""After ten answers without effect, or twice as many tests that nobody could tell, the search offers to stop.

Whoever is at the bench decides.
"""

from __future__ import annotations

from expert.job.state.job import Phase
from expert.trace.records import PromptPut, SearchEnded
from tests.dialogue.shipped_desk import ShippedDesk

LEAVE = "can't tell"


def at_the_offer() -> ShippedDesk:
    """A job whose every test is left, until the search offers to stop."""
    desk = ShippedDesk().intake(complaint="weak_steam")
    for _ in range(90):
        kind = desk.job.prompt.kind
        if kind == "going on":
            return desk
        assert kind in ("question", "move"), kind
        desk.type(LEAVE if kind == "question" else desk.job.prompt.choices[0])
    raise AssertionError("no offer came")


def test_the_offer_comes_after_twenty_tests_that_could_not_be_told_with_the_list() -> None:
    desk = at_the_offer()
    looks = {name for move in desk.job.base.bench.moves for name in move.first}
    progress = desk.job.progress
    assert progress is not None
    assert len(desk.job.cannot.keys() - progress.settled - looks - desk.job.asked_for_danger) == 20
    said = desk.all_said()
    start = said.index("The last 20 questions changed nothing. Nothing that is left to ask tells much.")
    assert [row.split(". ")[0] for row in said[start + 1 : start + 9]] == [str(number) for number in range(1, 9)]
    assert said[-1] == "Type go on to be asked what is left, or end to end the search with this list."


def test_go_on_asks_on_and_offers_again_after_twenty_more() -> None:
    desk = at_the_offer()
    before = len(desk.job.cannot)
    desk.type("go on")
    assert desk.job.prompt.kind in ("question", "move") and desk.job.phase is Phase.FIND
    while desk.job.prompt.kind in ("question", "move"):
        desk.type(LEAVE if desk.job.prompt.kind == "question" else desk.job.prompt.choices[0])
    assert desk.job.prompt.kind != "going on" or len(desk.job.cannot) >= before + 20


def test_end_ends_the_search_with_the_list_and_not_as_found() -> None:
    desk = at_the_offer()
    desk.type("end")
    ended = [record for record in desk.records if isinstance(record, SearchEnded)]
    assert len(ended) == 1 and ended[0].outcome in ("unresolved", "narrowed", "handed_over")
    assert 1 <= len(ended[0].listed) <= 8
    assert desk.job.phase is Phase.CLOSE


def test_anything_else_is_refused_and_the_commands_work() -> None:
    desk = at_the_offer()
    assert desk.type("perhaps") == ["'perhaps' is no answer here. Type go on, or end."]
    assert desk.type("why")[0].startswith("The last questions changed no suspect")
    offers = [record for record in desk.records if isinstance(record, PromptPut) and record.prompt == "going on"]
    assert len(offers) == 1
