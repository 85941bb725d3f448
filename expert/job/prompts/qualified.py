"""Whether the technician may do live work on mains."""

from __future__ import annotations

from expert.job.answers.reading import NO, NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt
from expert.job.prompts.owner import Unattended
from expert.job.state.job import Job, Turn
from expert.trade.quantities.units import echo

QUALIFIED = "qualified"  # no single key: nobody is qualified by a y too many
ASKED = (
    f"Are you qualified for live work on mains, by your local rules? Type {QUALIFIED} or no. "
    "With no, nothing is asked with the covers off and the mains on."
)


def qualified_by(line: str) -> bool:
    """Whether somebody declares to be qualified. Raises NotAnAnswer for anything but the word and no."""
    word = line.strip().casefold().rstrip(".")
    if word == QUALIFIED:
        return True
    if word in NO:
        return False
    raise NotAnAnswer(f"{echo(line)} is no answer here. Type {QUALIFIED}, the whole word, or no; in doubt, no.")


class Qualified(IntakePrompt):
    drops_typed_ahead = True
    name = "qualified"
    not_known = "In doubt, type no: then nothing is asked with the covers off and the mains on."
    because = "Tests on live parts are put only to those who may do them. To take it back later: not qualified"

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return ASKED, (QUALIFIED, "no")

    def settle(self, turn: Turn, text: str) -> bool:
        turn.job.qualified = qualified_by(text)
        return True

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [QUALIFIED if at_hand.answers.qualified_for_live_work else "no"]
