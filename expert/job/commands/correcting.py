"""What was said at intake is corrected, at any time: who it is, the plate, the complaints, live work.

The prompt of the intake is put again, and what is answered there holds from then on.
"""

from __future__ import annotations

from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.intake import BY_NAME
from expert.job.prompts.intake_prompt import IntakePrompt
from expert.job.sentences import commands as say
from expert.job.state.job import NO_PROMPT, Job, Phase, Turn

# The words that a technician may use, and the prompt of the intake that each means.
MEANT = {
    "name": "technician",
    "technician": "technician",
    "machine": "machine",
    "machine type": "machine",
    "plate": "plate",
    "complaint": "complaints",
    "complaints": "complaints",
    "qualified": "qualified",
    "qualification": "qualified",
    "live work": "qualified",
}
BY_THEMSELVES = ("name", "plate", "complaint", "complaints", "qualified")


def intake_meant(job: Job, words: str) -> IntakePrompt | None:
    """The prompt of the intake that a line wants back, where the word is no answer here."""
    line = " ".join(words.casefold().split())
    named = line.removeprefix("take back ") if line.startswith("take back ") else line
    alone = named == line
    if named not in MEANT or (alone and (named not in BY_THEMSELVES or named in job.prompt.choices)):
        return None
    prompt = BY_NAME[MEANT[named]]
    return None if alone and job.prompt.at == ("intake", prompt.name) else prompt


def correct_intake(turn: Turn, prompt: IntakePrompt) -> None:
    """Put a prompt of the intake again. Raises NotAnAnswer where that cannot be now."""
    job = turn.job
    if job.left_at is not None:
        raise NotAnAnswer(say.STANDS_FIRST_THEN_CORRECT)
    if job.phase is Phase.INTAKE and prompt.name not in job.intake_settled:
        raise NotAnAnswer(say.NOT_SAID_YET)
    job.asked_back |= {prompt.name}
    if job.phase is not Phase.INTAKE:
        if prompt.name == "machine":
            raise NotAnAnswer(say.RESTS_ON_THE_TYPE)
        prompt.put(turn)
        return
    job.intake_settled = tuple(name for name in job.intake_settled if name != prompt.name)
    job.complaints_offered = ()
    job.prompt = NO_PROMPT
