"""Nothing that is left to ask tells much: go on, or end with the list of those that are left."""

from __future__ import annotations

from collections.abc import Iterable

from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.owner import Owner, Unattended
from expert.job.search.ending import end_search
from expert.job.search.stalling import go_on_all_the_same
from expert.job.sentences import search as say
from expert.job.state.job import Job, Turn
from expert.job.state.situation import picture_of
from expert.trade.quantities.units import echo

GO_ON, END = "go on", "end"
_MEANINGS = {GO_ON: say.GO_ON_MEANS, END: say.END_MEANS}


class GoingOn(Owner):
    """The offer to stop a search that no longer tells anything."""

    def take(self, turn: Turn, line: str) -> None:
        word = " ".join(line.casefold().split())
        if word in (GO_ON, "1"):
            go_on_all_the_same(turn.job)
        elif word in (END, "2"):
            end_search(turn, picture_of(turn.job), by_choice=True)
        else:
            raise NotAnAnswer(say.go_on_or_end(echo(line.strip())))

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [END]

    def why(self, job: Job) -> tuple[str, ...]:
        return (say.WHY_GOING_ON,)

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        return _MEANINGS.items()
