"""What can be typed at the prompt, offered with its meaning: choices, plate names, complaints, command words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from prompt_toolkit.completion import CompleteEvent, Completer, Completion
from prompt_toolkit.document import Document

from expert.job.answers.command_words import COMMAND_WORDS, help_on
from expert.job.prompts.registry import owner_at
from expert.job.state.job import Job
from expert.trace.cleaning import clean

MOST_OFFERED = 60


class JobCompleter(Completer):
    """Offers what may be typed at the prompt where the job now waits. `job` gives the job as it stands."""

    def __init__(self, job: Callable[[], Job]) -> None:
        self._job = job

    def get_completions(self, document: Document, complete_event: CompleteEvent) -> Iterator[Completion]:
        """The words that the line so far may become; the whole line is looked at, complaints part by part."""
        if document.text_after_cursor:
            return
        job, begun = self._job(), document.text_before_cursor
        begun = owner_at(job).part_typed(begun)
        for word, meaning in list(offered(job, begun))[:MOST_OFFERED]:
            yield Completion(
                word,
                start_position=-len(begun),
                display=clean(meaning or word),
                display_meta=clean(word) if meaning else "",
            )


def offered(job: Job, begun: str) -> Iterable[tuple[str, str]]:
    """Each word that fits what was begun, with its meaning ('' when the word says it all)."""
    start = begun.casefold()
    owner = owner_at(job)
    found = {word: meaning for word, meaning in owner.offers(job) if _fits(word, meaning, start)}
    found |= dict(owner.offers_for(job, start))
    if owner.takes_commands:
        found |= {word: help_on(word) for word in COMMAND_WORDS if word.startswith(start)}
    return found.items()


def _fits(word: str, meaning: str, start: str) -> bool:
    return word.startswith(start) or (len(start) > 1 and meaning.casefold().startswith(start))
