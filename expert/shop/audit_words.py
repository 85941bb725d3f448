"""The audit as text: the head, then every question with its reasons, its answer, and what followed from it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from expert.job.prompts.registry import owner_of
from expert.language.model import RuleBase
from expert.shop.audit_happened import happened_in_words
from expert.shop.audit_head import Head
from expert.shop.audit_reasons import Reason, given
from expert.shop.audit_story import Asked, Concluded, Event, FaultFound, Happened, Story
from expert.shop.sentences import audit as say
from expert.trace.records import Narrowed
from expert.trace.why import Considered, Why

MOST_SUSPECTS = 5
MOST_OTHERS = 2  # questions that were ranked next; the data hold them all
STANDINGS = {
    "found": "FOUND",
    "left_by_elimination": say.LEFT_BY_ELIMINATION,
    "own_judgement": say.OWN_JUDGEMENT_NOT_FOUND,
    "narrowed": say.ON_THE_SHORT_LIST,
}


@dataclass(frozen=True, slots=True)
class Names:
    """Names for ids: from the rules when those of the job are at hand (`base`), from the questions as they were put."""

    questions: dict[str, str]
    base: RuleBase | None = None

    def fault(self, fault: str) -> str:
        """Part and failure in words, or the id."""
        if self.base is None or fault not in self.base.faults:
            return fault
        record = self.base.faults[fault]
        return f"{self.base.parts[record.part].name}: {record.name}"

    def question(self, question: str) -> str:
        """The question as it was asked, or as the rules have it, or the id."""
        if question in self.questions:
            return self.questions[question]
        return self.base.questions[question].ask if self.base and question in self.base.questions else question

    def fact(self, fact: str) -> str:
        """A fault, a finding or a question in words, or the id."""
        if self.base is not None and fact in self.base.findings:
            return self.base.findings[fact].name
        return self.question(fact) if fact in self.questions else self.fault(fact)


def story_in_words(story: Story, names: Names) -> Iterator[str]:
    """The lines of the audit, not wrapped; deeper lines are indented."""
    yield from head_in_words(story.head, names)
    yield ""
    yield say.WHAT_HAPPENED
    for event in story.events:
        yield from _event(event, names)


def head_in_words(head: Head, names: Names) -> Iterator[str]:
    minutes = "" if head.minutes is None else f", {head.minutes:g} min"
    minutes += say.by_the_clock(head.minutes_by_the_clock) if head.minutes is not None else ""
    yield f"Job {head.job}: {head.ending.replace('_', ' ')}{minutes}"
    yield say.opened(head.opened, head.last, "sealed" if head.sealed else "not sealed")
    at_hand = say.NAMES_OF_THESE_RULES if names.base else say.IDS_FOR_NAMES
    yield f"Rules: {head.rules_digest[:12]} ({at_hand})"
    live = "not asked" if head.qualified is None else "yes" if head.qualified else "no"
    yield say.technician(head.technician or "not named", live)
    yield f"Machine: {head.machine or 'not named'}"
    if head.plate:
        yield say.plate_values("; ".join(head.plate))
    yield f"Complaints: {'; '.join(head.complaints) or 'none'}"
    if head.search:
        yield f"Search ended: {head.search.replace('_', ' ')}"
    if head.stops:
        yield say.stopped_times(head.stops) if head.stops > 1 else say.STOPPED_ONCE
    if head.parts:
        yield f"Parts: {', '.join(head.parts)}"
    if head.costs:
        yield f"Costs: {head.costs}"
    if head.note:
        yield f"Note: {head.note}"


def _event(event: Event, names: Names) -> Iterator[str]:
    match event:
        case Asked():
            yield from _asked(event, names)
        case FaultFound(found=found, tree=tree):
            yield ""
            yield f"{STANDINGS.get(found.standing, found.standing)}: {names.fault(found.fault)}"
            yield from tree_in_words(tree.because, names, 1)
        case Happened(record=record, told=told, concluded=concluded):
            yield from happened_in_words(record, names.fault, names.question)
            yield from (f"  {sentence}" for sentence in told)
            yield from _concluded(concluded, names)


def _asked(asked: Asked, names: Names) -> Iterator[str]:
    yield ""
    taken = asked.answered or asked.cannot
    number = f"{taken.number}. " if taken and taken.number else "-. "
    yield f"{number}{owner_of(asked.prompt, asked.question).lead}{asked.text}"
    yield from _why(asked, names)
    if asked.answered is not None:
        yield f"  Answer: {given(asked.answered)}"
        if asked.understood:
            yield f"    {asked.understood}"
        elif asked.answered.reading is not None and asked.answered.uncertainty is not None:
            yield say.read_in_base_units(asked.answered.reading, asked.answered.uncertainty)
    elif asked.cannot is not None:
        yield say.answer_cannot_tell_indented(asked.cannot.reason).rstrip()
    else:
        yield say.NO_ANSWER_INDENTED
    yield from _concluded(asked.concluded, names)


def _why(asked: Asked, names: Names) -> Iterator[str]:
    why = asked.why
    by_itself = owner_of(asked.prompt, asked.question).why_in_audit()
    if by_itself and not why.before_move:
        yield f"  Why: {by_itself}"
        return
    if why == Why():
        return
    if why.before_move:
        yield say.known_before_move(why.before_move)
    if why.aim and why.aim != asked.question:
        yield say.known_before(names.question(why.aim))
    if why.rule:
        yield say.headed_check_list(names.fault(why.ahead_for), why.rule)
    if why.candidates:
        best, *others = why.candidates
        lead = "Why: it" if best.question == asked.question else "That one"
        yield say.expected_to_tell(lead, _worth(best))
        for other in others[:MOST_OTHERS]:
            yield say.rather_than(names.question(other.question), _worth(other))
    if why.suspects:
        shown = [say.suspect_weight(s.share, names.fault(s.fault), s.decibans) for s in why.suspects[:MOST_SUSPECTS]]
        yield say.heaviest_suspects("; ".join(shown))


def _worth(considered: Considered) -> str:
    moves = say.with_moves(", ".join(considered.moves)) if considered.moves else ""
    return say.worth(considered.bits, considered.minutes, moves)


def _concluded(concluded: Concluded, names: Names) -> Iterator[str]:
    yield from (say.no_longer_holds(rule) for rule in concluded.unfired)
    for reason in concluded.fired:
        yield say.concluded(reason.says, reason.id, _sources(reason.because))
    yield from (f"    {_narrowed(record, names)}" for record in concluded.narrowed)


def _sources(reasons: Iterable[Reason]) -> str:
    words = [f"answer {reason.id}" if reason.kind == "answer" else reason.id for reason in reasons]
    return ", ".join(words) or "the machine's data"


def _narrowed(record: Narrowed, names: Names) -> str:
    word = {("present",): "present", ("absent",): "cleared", ("present", "absent"): "open again"}.get(record.after)
    if word is not None:
        return f"{word}: {names.fact(record.fact)}"
    return f"{names.fact(record.fact)}: {' or '.join(record.after) or say.NOTHING_POSSIBLE}"


def tree_in_words(reasons: Iterable[Reason], names: Names, depth: int) -> Iterator[str]:
    """A tree of reasons, each level further in."""
    for reason in reasons:
        indent = "  " * depth
        match reason.kind:
            case "rule":
                yield f"{indent}because: {reason.says} [{reason.id}]"
            case "answer":
                yield f"{indent}answer {reason.id}: {reason.says}"
            case "cleared":
                yield f"{indent}cleared: {names.fault(reason.id)}"
            case _:
                yield f"{indent}{reason.says}"
        yield from tree_in_words(reason.because, names, depth + 1)
