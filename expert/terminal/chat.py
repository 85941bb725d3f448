"""The dialogue at a terminal. Kept free of slow imports: the first question stands there before the prompt is made."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from expert.desk.session import Session
from expert.job.state.job import Phase
from expert.terminal import sentences as say
from expert.terminal.plain_lines import show
from expert.trace.records import Record


def talk_in_terminal(session: Session, opening: Iterable[Record]) -> None:
    """Talk the job through at this terminal until it is closed or left.

    Raises what `Session.say` raises, but for TraceNotWritten and TraceTooLarge: these are shown, and the line can then
    be sent again.
    """
    opening = tuple(opening)
    sys.stdout.write(say.job_begins(session.job.number))
    if session.job.phase is Phase.INTAKE:
        # The libraries for the prompt take a tenth of a second to load: the question is read meanwhile.
        show(session.job, opening, sys.stdout)
        opening = ()
    sys.stdout.flush()
    from expert.terminal.prompt import Chat

    Chat(session).talk(opening)
