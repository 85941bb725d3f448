"""Feeds must not run in a circle: nothing arrives through itself."""

from __future__ import annotations

from collections.abc import Iterable

from expert.language.checks.circles import circles, shortened_way
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {"feed-cycle": say.FEED_CYCLE}


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every knot of feeds, with its shortest circle."""
    graph = {feed.id: [name for name in feed.through if name in draft.feeds] for feed in draft.feeds.values()}
    for circle in circles(graph):
        way = " <- ".join(shortened_way(circle))
        yield Problem(draft.feeds[circle[0]].at, say.feed_out_of_itself(circle[0], way), "feed-cycle")
