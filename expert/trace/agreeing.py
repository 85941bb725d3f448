"""Whether a trace agrees with the register of its folder: what is missing at its end, and what was written anew."""

from __future__ import annotations

from expert.trace.errors import TraceDamaged
from expert.trace.reading import Trace
from expert.trace.records import Said
from expert.trace.register import Entry, Register, read_register, register_path
from expert.trace.sentences import proving as say
from expert.trace.verifying import Problem
from expert.trade.counting import counted


def disagreements(trace: Trace, register: Register | None) -> tuple[Problem, ...]:
    """What the register of the folder says against a trace, worst first. `register` None: the folder has none.

    A trace may be ahead of the register by what was written when the power went; it may never be behind.
    """
    problems: list[Problem] = []
    entries = register.of(trace.path.name) if register is not None else ()
    if b"\0" in trace.torn and not (entries and all(_holds(trace, entry) for entry in entries)):
        # A power cut leaves such a tail after all that was acknowledged; over what was acknowledged, nothing does.
        message = say.END_OVERWRITTEN
        problems.append(Problem(trace.path, len(trace.lines) + 1, "damage", "overwritten", message))
    if register is None:
        return tuple(problems)
    if register.broken:
        message = say.REGISTER_CHANGED
        problems.append(Problem(register.path, register.broken, "damage", "register-changed", message))
    if not entries:
        entry = _known_as(trace, register)
        problems.append(_unregistered(trace, entry))
        entries = register.of(entry.job) if entry is not None else ()
    elif _is_late(trace, entries[0]):
        problems.append(_known_late(trace, entries[0]))
    wrong = next((entry for entry in entries if not _holds(trace, entry)), None)
    if wrong is not None:
        problems.append(_wrong(trace, wrong, entries[-1]))
    return tuple(problems)


def refuse_disagreement(trace: Trace) -> None:
    """Raise TraceDamaged when the register of its folder speaks against a trace. Raises TraceNotRead."""
    for problem in disagreements(trace, read_register(register_path(trace.path))):
        if problem.grade == "damage":
            raise TraceDamaged(problem.message, problem.path, problem.line)


def _holds(trace: Trace, entry: Entry) -> bool:
    return 0 < entry.lines <= len(trace.lines) and trace.lines[entry.lines - 1].digest == entry.digest


def _wrong(trace: Trace, wrong: Entry, last: Entry) -> Problem:
    """Cut at its end, or other lines than those that were noted."""
    if wrong.lines > len(trace.lines):
        sealed = say.AND_THE_JOB_WAS_CLOSED if last.sealed else ""
        message = say.end_cut_off(counted(len(trace.lines), "line"), last.lines, sealed)
        return Problem(trace.path, max(len(trace.lines), 1), "damage", "cut-off", message)
    message = say.WRITTEN_ANEW
    return Problem(trace.path, wrong.lines, "damage", "replaced", message)


def _known_as(trace: Trace, register: Register) -> Entry | None:
    """An entry of another name that speaks of this very trace."""
    return register.naming({line.digest for line in trace.lines})


def _is_late(trace: Trace, first: Entry) -> bool:
    """Whether somebody had said something already when the register first heard of the job."""
    return any(isinstance(at.record, Said) and at.line < first.lines for at in trace.recorded)


def _known_late(trace: Trace, first: Entry) -> Problem:
    message = say.known_only_from_line(first.lines)
    return Problem(trace.path, first.lines, "note", "known-late", message)


def _unregistered(trace: Trace, known_as: Entry | None) -> Problem:
    if known_as is not None:
        message = say.known_as(known_as.job)
        return Problem(trace.path, 1, "note", "renamed", message)
    message = say.NOT_KNOWN
    return Problem(trace.path, 1, "note", "not-registered", message)
