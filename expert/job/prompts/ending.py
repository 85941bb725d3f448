"""How the job ends: of all endings those that it may honestly have."""

from __future__ import annotations

from collections.abc import Iterable

from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.closing_prompt import ClosingPrompt
from expert.job.prompts.owner import Unattended
from expert.job.sentences import closing as say
from expert.job.state.after_opening import fine_in_prospect, may_go_back, not_shown_safe, not_shown_safe_in_words
from expert.job.state.complaints_now import not_seen_gone, still_open_in_words
from expert.job.state.hazards import HAND_BACK, open_hazards, refuse
from expert.job.state.job import CouldNot, Given, Job, Turn
from expert.trade.quantities.units import echo

ENDINGS = {
    "repaired": say.ENDED_REPAIRED,
    "repaired_unproved": say.ENDED_NOT_FULLY_PROVED,
    "normal": say.ENDED_NORMAL,
    "normal_untested": say.ENDED_NORMAL_NOT_SHOWN_SAFE,
    "unrepaired": say.ENDED_UNREPAIRED,
    "beyond_repair": say.ENDED_BEYOND_REPAIR,
    "handed_over": say.ENDED_HANDED_OVER,
    "stopped": say.ENDED_STOPPED,
}


class Ending(ClosingPrompt):
    name = "ending"
    because = say.WHY_ENDING

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        lines = [f"  {number}  {ENDINGS[name]}" for number, name in enumerate(endings_open_to(job), 1)]
        return "\n".join([say.HOW_DOES_IT_END, *lines]), endings_open_to(job)

    def put(self, turn: Turn) -> None:
        job = turn.job
        turn.tell(*(f"! {line}" for line in (*not_shown_safe_in_words(job), *still_open_in_words(job))))
        for hazard in open_hazards(job):
            if fine_in_prospect(job):
                refuse(turn, hazard, HAND_BACK, "ending repaired" if job.repaired else "ending normal")
            if not hazard.in_every_job or fine_in_prospect(job):
                turn.tell(say.danger_still(hazard.name, hazard.until))
        super().put(turn)

    def settled(self, job: Job, text: str) -> str:
        names = endings_open_to(job)
        word = text.casefold()
        if word.isdecimal() and len(word) < 3 and 1 <= int(word) <= len(names):
            word = names[int(word) - 1]
        if word not in names:
            raise NotAnAnswer(say.no_number_of_an_ending(echo(text), len(names)))
        return word

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        # Of the open endings the first is the likeliest; but what a colleague must go on with is not returned.
        hand_over = job.outcome == "handed_over" and "handed_over" in job.prompt.choices
        return ["handed_over" if hand_over else "1"]

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        return ((choice, ENDINGS[choice]) for choice in job.prompt.choices)

    def what_changed(self, turn: Turn) -> str:
        return ENDINGS.get(turn.job.closing.get("ending", ""), "")

    def taken_back(self, job: Job, taken: Given | CouldNot) -> None:
        job.closing.pop(self.name, None)


def endings_open_to(job: Job) -> tuple[str, ...]:
    """The endings this job may honestly have; the likeliest first."""
    if job.outcome == "stopped":
        return ("stopped", "handed_over", "beyond_repair")
    rest = ("unrepaired", "beyond_repair", "handed_over")
    results = {question: passed for question, _, passed in job.proofs}
    if job.repaired and fine_in_prospect(job):
        proved = all(job.repaired.values()) and all(results.values()) and not not_shown_safe(job)
        proved = proved and not not_seen_gone(job)
        return ("repaired" if proved and may_go_back(job) else "repaired_unproved", *rest)
    # Where a danger was met, also one that was dealt with, nothing was as it should be.
    if fine_in_prospect(job):
        tested = may_go_back(job) and not not_shown_safe(job) and False not in results.values()
        return ("normal" if tested else "normal_untested", *rest)
    return rest
