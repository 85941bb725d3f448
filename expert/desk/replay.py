"""Running a trace again: each recorded line at the prompt it was typed at, through the same dialogue, then compared.

By question, not by position: where the job would now wait at another prompt, that is a difference, and the line is
given to the prompt that it was typed at all the same. So one changed question puts nothing after it out of step.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from expert.desk.comparing import Difference, Numbered, compare
from expert.desk.profile.using import shop_at_opening
from expert.desk.sentences import jobs as sentences
from expert.desk.unattended import with_machine
from expert.engine.knowledge import Knowledge
from expert.job.beginning import begin
from expert.job.prompts.as_left import take_up_again
from expert.job.prompts.registry import owner_at, owner_of
from expert.job.state.job import Foreseen, Job, Prompt
from expert.job.steps import step
from expert.language.problems import RulesRefused
from expert.trace.decided import added_since
from expert.trace.errors import TraceDamaged
from expert.trace.reading import Trace
from expert.trace.records import (
    Answered,
    CannotMove,
    CannotTell,
    Closed,
    Opened,
    Paused,
    PromptKind,
    PromptPut,
    Record,
    Resumed,
    Said,
    Sealed,
    SearchEnded,
)

TAKE_BACK = re.compile(r"(\s*take back\s+)(\d+)(\s*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Rerun:
    """The job as it stands at the end, records that the trace lacks at its end, and every difference.

    `waiting_at`: the prompt at which the job waits, with what belongs to it; `left_at`: that at which it was left,
    while it is asked how the machine stands.
    """

    job: Job
    missing: tuple[Record, ...]
    differences: tuple[Difference, ...]
    waiting_at: tuple[Record, ...]
    left_at: tuple[Record, ...] = ()

    @property
    def decided(self) -> tuple[Difference, ...]:
        """What was decided otherwise."""
        return tuple(difference for difference in self.differences if difference.decides)

    @property
    def reworded(self) -> tuple[Difference, ...]:
        """What is only said otherwise."""
        return tuple(difference for difference in self.differences if not difference.decides)


def opened_of(trace: Trace) -> Opened:
    """The first record. Raises TraceDamaged when the trace does not begin with it."""
    first = trace.lines[0].records[0] if trace.lines else None
    if not isinstance(first, Opened):
        raise TraceDamaged(sentences.NOTHING_RECORDED, trace.path, 1)
    return first


def rules_of(trace: Trace) -> str:
    """The digest of the rules that the job goes by: those of its opening, or those that were chosen since."""
    chosen = [r.rules_digest for r in trace.records if isinstance(r, Resumed) and r.rebuilt]
    return chosen[-1] if chosen else opened_of(trace).rules_digest


def with_its_machine(knowledge: Knowledge, opened: Opened, path: Path | None) -> Knowledge:
    """The knowledge with the machine type that the job brought along, if it did. Raises TraceDamaged."""
    if not opened.machine_file:
        return knowledge
    # Here and not above: only a machine type of the job's own is read from its text.
    from expert.language.worked.job_answers import read_machine_text

    try:
        machine = read_machine_text("the job's machine", opened.machine_file, knowledge.base)
    except RulesRefused as refused:
        problem = sentences.machine_does_not_fit(refused.problems[0])
        raise TraceDamaged(problem, path, 1) from None
    return with_machine(knowledge, machine)


def rerun(knowledge: Knowledge, trace: Trace, *, choose_anew: bool = True) -> Rerun:
    """Type the recorded lines again. With the same rules and program every record must come out the same.

    choose_anew: let the planner choose every question again, to compare; else the questions on record are put, where
    they can be put, which is quicker and goes on undisturbed by a planner that ranks otherwise.
    """
    opened = opened_of(trace)
    knowledge = with_its_machine(knowledge, opened, trace.path)
    knowledge, shop = shop_at_opening(knowledge, opened, trace.path)
    again = _Again(*begin(knowledge, shop, opened.job), choose_anew, added_since(trace.records))
    segments = list(_segments(trace))
    for position, segment in enumerate(segments):
        again.run(segment, segments[position:], is_last=position + 1 == len(segments))
    return again.result()


@dataclass(frozen=True, slots=True)
class _Segment:
    """A line that was typed, or the opening, or a return to the job, and what it led to."""

    line: int
    begins: Record
    records: tuple[Numbered, ...]


def _segments(trace: Trace) -> Iterator[_Segment]:
    first, *others = trace.recorded
    begins: tuple[int, Record] = (first.line, first.record)
    led_to: list[Numbered] = []
    for recorded in others:
        number = recorded.line
        match recorded.record:
            case Sealed() | Closed(outcome="handed_over"):  # earlier programs closed what was handed over
                continue
            case Said() | Resumed():
                yield _Segment(*begins, tuple(led_to))
                begins, led_to = (number, recorded.record), []
            case record:
                led_to.append((number, record))
    yield _Segment(*begins, tuple(led_to))


@dataclass
class _Again:
    """The re-run on its way. `asked`: the prompt last put by the record, None where it is
    the one at which the job waits by itself; `numbers`: answers of the record, as now."""

    job: Job
    last_replies: tuple[Record, ...]
    choose_anew: bool
    added: tuple[type[Record], ...]
    left_at: tuple[Record, ...] = ()
    differences: list[Difference] = field(default_factory=list)
    missing: tuple[Record, ...] = ()
    asked: tuple[PromptKind, str] | None = None
    asked_before: tuple[PromptKind, str] | None = None
    numbers: dict[int, int] = field(default_factory=dict)

    def run(self, segment: _Segment, ahead: Sequence[_Segment], is_last: bool) -> None:
        """One line and what it leads to."""
        if isinstance(segment.begins, Resumed) and segment.begins.rebuilt:
            self.asked = None
        match segment.begins:
            case Said(text=text):
                now = self.say(segment, text, ahead, is_last)
            case Resumed(asks_standing=True):
                self.left_at, self.asked_before = self.last_replies, self.asked
                self.job, self.last_replies = take_up_again(self.job)
                now = self.last_replies
            case Resumed(rebuilt=True):
                now = _without_pauses(self.last_replies)
            case Resumed():
                now = ()
            case _:
                now = self.last_replies
                self.left_at = now
        found, self.missing = compare(segment.records, now, segment.line, to_be_continued=is_last, added=self.added)
        self.differences += found
        if isinstance(segment.begins, Resumed) and segment.begins.rebuilt:
            # Somebody saw what is decided otherwise, and chose to go on.
            self.differences.clear()
        puts = [(record.prompt, record.question) for _, record in segment.records if isinstance(record, PromptPut)]
        self.asked = puts[-1] if puts else self.asked
        self._note_numbers(segment.records, now)

    def say(self, segment: _Segment, text: str, ahead: Sequence[_Segment], is_last: bool) -> tuple[Record, ...]:
        """Type a line at the prompt that it was recorded at; the records that it leads to now."""
        before = self._at_recorded_prompt(segment)
        if before is None:
            return ()
        before.paused = False
        line = self._with_numbers_of_now(text, before)
        for foreseen in (None,) if self.choose_anew else _ways_to_choose(ahead):
            after, replies = step(before, line, foreseen)
            if self._fits(segment, replies, is_last):
                break
        self.job = after
        if before.left_at is not None and after.prompt == before.left_at:
            self.last_replies, self.asked = self.left_at, self.asked_before
        # An open take-back waits for its own yes or no, though no prompt was put for it.
        elif after.prompt != before.prompt or any(isinstance(record, PromptPut) for record in replies):
            self.last_replies = replies
        return replies

    def _fits(self, segment: _Segment, replies: tuple[Record, ...], is_last: bool) -> bool:
        """Whether a line led to what is on record, also in what the bench is prepared for."""
        found, _ = compare(segment.records, replies, segment.line, to_be_continued=is_last, added=self.added)
        aims = _aims([record for _, record in segment.records])
        return aims in ([], _aims(replies)) and not any(difference.decides for difference in found)

    def _at_recorded_prompt(self, segment: _Segment) -> Job | None:
        """The job, waiting where it waited when the line was typed; None when these rules know no such prompt."""
        job, asked = self.job, self.asked
        if asked is None or not owner_at(job).takes_commands:
            return job
        if job.prompt.at == asked:
            return job
        prompt = owner_of(*asked).put_again(job, Prompt(*asked))
        if prompt is None:
            return None
        job = job.copy()
        job.prompt = prompt
        return job

    def _with_numbers_of_now(self, text: str, job: Job) -> str:
        """The line, with the number that an answer has now in place of that on record."""
        if match := TAKE_BACK.fullmatch(text):
            return f"{match[1]}{self.numbers.get(int(match[2]), int(match[2]))}{match[3]}"
        if job.prompt.at[0] == "conflict" and text.strip().isdecimal():
            return str(self.numbers.get(int(text), int(text)))
        return text

    def _note_numbers(self, recorded: Sequence[Numbered], now: Sequence[Record]) -> None:
        then = [record for _, record in recorded if isinstance(record, Answered | CannotTell | CannotMove)]
        numbered = [record for record in now if isinstance(record, Answered | CannotTell | CannotMove)]
        for record in then:
            same = next((other for other in numbered if _about(other) == _about(record)), None)
            if same is not None:
                self.numbers[record.number] = same.number
                numbered.remove(same)

    def result(self) -> Rerun:
        return Rerun(
            self.job,
            self.missing,
            tuple(self.differences),
            _without_pauses(self.last_replies),
            _without_pauses(self.left_at),
        )


def _aims(records: Sequence[Record]) -> list[str]:
    return [record.why.aim for record in records if isinstance(record, PromptPut) and record.why.candidates]


def _about(record: Answered | CannotTell | CannotMove) -> tuple[type[Record], str]:
    return type(record), record.move if isinstance(record, CannotMove) else record.question


def _ways_to_choose(ahead: Sequence[_Segment]) -> tuple[Foreseen | None, ...]:
    """How the search may have chosen its next question, likeliest first: as the record says, or anew (None).

    The last question on record is chosen anew first: whoever asks why wants to know it exactly.
    """
    coming: list[Foreseen] = []
    for segment in ahead:
        for _, record in segment.records:
            if isinstance(record, SearchEnded) and not coming:
                return (None,)
            if isinstance(record, PromptPut) and record.why.candidates:
                choice = Foreseen(record.question if record.is_test else "", record.why)
                # A move and the question that it leads to tell of one choice, and the question tells more of it.
                if coming and coming[-1].why.candidates == record.why.candidates:
                    coming[-1] = choice
                elif coming:
                    return (coming[0], None)
                else:
                    coming.append(choice)
    return (None, *coming)


def _without_pauses(records: tuple[Record, ...]) -> tuple[Record, ...]:
    """The last prompt with what belongs to it: cautions and steps."""
    return tuple(record for record in records if not isinstance(record, Paused))
