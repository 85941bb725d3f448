"""Taking an answer back: what would be undone is on the screen, and a yes undoes it."""

from __future__ import annotations

from expert.job.answers.reading import NO, YES, NotAnAnswer
from expert.job.answers.taking import judge_again, set_aside
from expert.job.prompts.owner import Owner, Unattended
from expert.job.sentences import commands as say
from expert.job.state.complaints_now import not_gone_after_all
from expert.job.state.hazards import answer_anew
from expert.job.state.job import NO_PROMPT, CouldNot, Job, Turn
from expert.job.state.situation import look_again
from expert.trace.records import TakenBack
from expert.trade.quantities.units import echo


class TakeBack(Owner):
    takes_commands = False

    def __init__(self, others: tuple[Owner, ...]) -> None:
        self.others = others

    def take(self, turn: Turn, line: str) -> None:
        """Take it back with a yes, leave it with a no. Raises NotAnAnswer."""
        word = line.strip()
        if word.casefold() in YES:
            self.undo(turn, int(turn.job.prompt.subject))
        elif word.casefold() not in NO:
            raise NotAnAnswer(say.take_it_back_or_not(echo(word)))
        turn.job.prompt = NO_PROMPT

    def why(self, job: Job) -> tuple[str, ...]:
        return (say.WHY_TAKE_BACK,)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["no"]

    def undo(self, turn: Turn, number: int) -> None:
        """Forget an answer or a can't; the search goes on with what is left."""
        job = turn.job
        taken = job.unable.get(number) or job.given[number]
        if isinstance(taken, CouldNot):
            job.can_again(taken.kind, taken.subject)
        else:
            set_aside(turn, taken)
            answer_anew(job, taken.question, taken.source)
            not_gone_after_all(turn, number)
        turn.add(TakenBack(number, taken.about))
        judge_again(turn, taken.about)
        for owner in self.others:
            owner.taken_back(job, taken)
        look_again(job)
