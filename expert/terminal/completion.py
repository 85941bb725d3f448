"""What can be typed at the prompt, offered with its meaning: choices, plate names, complaints, command words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from prompt_toolkit.completion import CompleteEvent, Completer, Completion
from prompt_toolkit.document import Document

from expert.job.answers.command_words import COMMAND_WORDS, HELP
from expert.job.prompts.closing import ENDINGS
from expert.job.prompts.intake import matching_complaints
from expert.job.state.job import Job
from expert.job.wording.explaining import answer_in_words, last_answer
from expert.trace.cleaning import clean
from expert.trade.quantities.units import show

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
        if job.prompt.subject == "complaints":
            begun = begun.rpartition(",")[2].lstrip()
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
    found = {word: meaning for word, meaning in _choices(job) if _fits(word, meaning, start)}
    if job.prompt.subject == "complaints" and start.strip():
        found |= {complaint.id: complaint.name for complaint in matching_complaints(job, start)}
    if job.prompt.kind != "take back":
        found |= {word: _help_on(word) for word in COMMAND_WORDS if word.startswith(start)}
    return found.items()


def _fits(word: str, meaning: str, start: str) -> bool:
    return word.startswith(start) or (len(start) > 1 and meaning.casefold().startswith(start))


def _choices(job: Job) -> Iterator[tuple[str, str]]:
    """The choices of the prompt with what they are called."""
    prompt = job.prompt
    if prompt.kind in ("question", "proof") and not prompt.choices and (last := last_answer(job, prompt.subject)):
        yield last.text, f"{answer_in_words(job, last)}: the last reading"
    for choice in prompt.choices:
        match prompt.subject:
            case "machine":
                yield choice, job.base.machines[choice].title
            case "complaints":
                yield choice, job.base.complaints[choice].name if choice in job.base.complaints else ""
            case "arrives":
                yield choice, job.base.bench.arrives[choice].say
            case "plate" if job.machine is not None and choice in job.machine.plate:
                unit = job.base.plate_values[choice].unit or None
                now = show(job.machine.plate[choice], unit, job.shop.system)
                yield f"{choice} ", f"{choice} (now {now})"
            case "ending":
                yield choice, ENDINGS[choice]
            case _:
                yield choice, _label(job, choice)


def _label(job: Job, choice: str) -> str:
    prompt = job.prompt
    if prompt.kind in ("question", "proof"):
        return job.base.questions[prompt.subject].labels.get(choice, "")
    if prompt.kind == "conflict" and choice.isdecimal() and int(choice) in job.given:
        given = job.given[int(choice)]
        return f"{choice}. {job.base.questions[given.question].ask} {answer_in_words(job, given)}"
    return ""


def _help_on(word: str) -> str:
    """The line of the help that explains a command word."""
    for line in HELP:
        if line.strip().startswith(word):
            return line.strip()
    return ""
