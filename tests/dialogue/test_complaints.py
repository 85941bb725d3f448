"""Which complaints are known after the intake: those reported, and that the others were not."""

from __future__ import annotations

from tests.dialogue.conftest import Desk


def test_nothing_is_known_of_complaints_while_they_are_taken(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "no fill")
    assert desk.job.state.possible("complaint.will_not_fill") == ("yes",)
    assert desk.job.state.possible("complaint.leaks") == ("yes", "no")


def test_what_was_not_reported_is_known_not_to_be_once_the_complaints_are_taken(filling: Desk) -> None:
    assert filling.job.state.possible("complaint.will_not_fill") == ("yes",)
    assert filling.job.state.possible("complaint.leaks") == ("no",)
