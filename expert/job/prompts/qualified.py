"""Whether the technician may do live work on mains."""

from __future__ import annotations

from expert.job.answers.reading import NO, NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt
from expert.job.prompts.owner import Unattended
from expert.job.sentences import intake as say
from expert.job.state.job import Job, Turn
from expert.trace.records import Worker
from expert.trade.quantities.units import echo

QUALIFIED = "qualified"  # no single key: nobody is qualified by a y too many
ASKED = say.are_you_qualified(QUALIFIED)


def qualified_by(line: str) -> bool:
    """Whether somebody declares to be qualified. Raises NotAnAnswer for anything but the word and no."""
    word = line.strip().casefold().rstrip(".")
    if word == QUALIFIED:
        return True
    if word in NO:
        return False
    raise NotAnAnswer(say.the_whole_word(echo(line), QUALIFIED))


def work_by(turn: Turn) -> None:
    """Note who works from here on, and is put work of their own."""
    job = turn.job
    job.choice = None
    turn.add(Worker(job.technician, job.qualified))


class Qualified(IntakePrompt):
    drops_typed_ahead = True
    name = "qualified"
    not_known = say.IN_DOUBT_NO
    because = say.WHY_QUALIFIED

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return ASKED, (QUALIFIED, "no")

    def settle(self, turn: Turn, text: str) -> bool:
        turn.job.qualified = qualified_by(text)
        return True

    def corrected(self, turn: Turn) -> None:
        work_by(turn)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [QUALIFIED if at_hand.answers.qualified_for_live_work else "no"]
