"""How a job that was run again differs from its record, in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from expert.desk.sentences import differing as say
from expert.trace.cleaning import clean
from expert.trace.kinds import kind_of, to_json
from expert.trace.records import (
    Answered,
    CannotTell,
    CautionShown,
    Fired,
    Found,
    Moved,
    Narrowed,
    PromptPut,
    Record,
    SearchEnded,
    Stopped,
    Told,
    Unfired,
)

LONGEST = 120
MOST_CHANGES = 4


def difference_in_words(line: int, recorded: Record | None, now: Record | None) -> str:
    """One sentence; of two records of one kind only what is not the same."""
    if recorded is not None and now is not None and type(recorded) is type(now) and _about(recorded) == _about(now):
        changes = list(_changes((), to_json(recorded), to_json(now)))
        more = say.and_more(len(changes) - MOST_CHANGES) if len(changes) > MOST_CHANGES else ""
        kind = kind_of(type(recorded)).replace("_", " ")
        return clean(say.changed_in_line(line, kind, "; ".join(changes[:MOST_CHANGES]), more))
    then = say.THEN_NOTHING if recorded is None else say.then_the_job(_did(recorded))
    return clean(say.then_and_now(line, then, "nothing comes here" if now is None else f"it {_did(now)}"))


def _about(record: Record) -> str:
    """What a record is about, by id: two about different things are told apart, not compared field by field."""
    match record:
        case Fired(rule=name) | Unfired(rule=name) | Stopped(rule=name) | Narrowed(fact=name) | Found(fault=name):
            return name
        case PromptPut(question=name) | Answered(question=name) | CannotTell(question=name):
            return name
        case Moved(move=name) | CautionShown(caution=name):
            return name
    return ""


def _did(record: Record) -> str:
    """What a record says that the job did."""
    match record:
        case Told(text=text):
            return f"said {_shown(text)}"
        case PromptPut(prompt=prompt, text=text):
            return say.put_this_prompt(prompt, _shown(text.partition(chr(10))[0]))
        case Answered(number=number, question=question, outcomes=outcomes):
            return say.took_answer(number, question, " or ".join(outcomes))
        case CannotTell(question=question):
            return f"left {question} unanswered"
        case Fired(rule=rule):
            return say.drew_conclusion(rule)
        case Unfired(rule=rule):
            return say.withdrew_conclusion(rule)
        case Narrowed(fact=fact, after=after):
            return say.held_to_be(fact, " or ".join(after) or "impossible")
        case Found(fault=fault, standing=standing):
            return say.named_fault(fault, standing.replace("_", " "))
        case SearchEnded(outcome=outcome):
            return say.ended_search(outcome.replace("_", " "))
        case Moved(move=move):
            return say.noted_move(move)
        case CautionShown(caution=caution):
            return say.showed_caution(caution)
        case Stopped(rule=rule):
            return say.stopped_by(rule)
        case _:
            values = list(to_json(record).values())[:2]
            return f"recorded {kind_of(type(record)).replace('_', ' ')} ({', '.join(map(_shown, values))})"


def _changes(path: tuple[str, ...], before: Any, after: Any) -> Iterable[str]:
    """A clause for everything that differs, the way to it in front; entries of lists are counted from 1."""
    if before == after:
        return
    if isinstance(before, Mapping) and isinstance(after, Mapping):
        for name in dict.fromkeys((*before, *after)):
            yield from _changes((*path, name.replace("_", " ")), before.get(name), after.get(name))
    elif _holds_records(before) and _holds_records(after) and len(before) == len(after):
        for number, (one, other) in enumerate(zip(before, after, strict=True), 1):
            yield from _changes((*path, str(number)), one, other)
    else:
        yield say.was_and_is(" ".join(path) or "it", _shown(before), _shown(after))


def _holds_records(value: Any) -> bool:
    return isinstance(value, Sequence) and not isinstance(value, str) and all(isinstance(v, Mapping) for v in value)


def _shown(value: Any) -> str:
    """A value without the marks of a program."""
    match value:
        case None | "" | [] | {}:
            return "nothing"
        case bool():
            return "yes" if value else "no"
        case str():
            return f"'{value[:LONGEST]}'"
        case Mapping():
            return ", ".join(f"{name.replace('_', ' ')} {_shown(entry)}" for name, entry in value.items())[:LONGEST]
        case Sequence() if _holds_records(value):
            firsts = [str(next(iter(entry.values()), "")) for entry in value]
            return f"{len(value)} {'entry' if len(value) == 1 else 'entries'} ({', '.join(firsts)[:LONGEST]})"
        case Sequence():
            return ", ".join(map(_shown, value))[: 2 * LONGEST]
        case _:
            return f"{value:g}" if isinstance(value, float) else str(value)
