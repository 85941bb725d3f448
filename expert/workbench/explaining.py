"""Everything about one id of the rules: where it stands, what it says, what uses it, where it came up.

`entries_of` is the index of all ids with what they are about; `found_by` looks in it by words.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from expert.language.model import NOWHERE, Choice, Measure, Position, Question, RuleBase, YesNo
from expert.language.worked.cases import Case
from expert.language.worked.job_answers import names_of
from expert.trace.errors import TraceError
from expert.trace.places import SUFFIX
from expert.trace.reading import read_trace
from expert.trace.records import CautionShown, Narrowed
from expert.trade.counting import counted
from expert.workbench.index import Index
from expert.workbench.sentences import showing as say
from expert.workbench.telling import told_of

_MOST_CASES = 12
_MOST_READ = 200  # the last saved jobs, where each has to be read whole
_PACKED = ("caution", "fault", "finding")
_TOO_SHORT = 3  # a word this short is no help in looking something up


@dataclass(frozen=True, slots=True)
class Entry:
    """One id: its sort (question, fault ...), what it is about in words, and where it stands.

    `also`: further words by which it is found, and not shown.
    """

    sort: str
    id: str
    about: str
    at: Position
    also: str = ""


class NoSuchId(Exception):
    """Nothing in the rules has this id; the text says what is near."""


def entries_of(base: RuleBase) -> tuple[Entry, ...]:
    """Every id of a rule base, sort by sort, in the order of the files."""
    also = {("complaint", complaint.id): " ".join(complaint.words) for complaint in base.complaints.values()}
    also |= {("question", question.id): _asked_with(base, question) for question in base.questions.values()}
    also |= {("part", part.id): part.where for part in base.parts.values()}
    return tuple(Entry(*entry, also.get((entry[0], entry[1]), "")) for entry in _entries(base))


def _asked_with(base: RuleBase, question: Question) -> str:
    """What is said of a question beside its text: how it is put to the machine, with what, and what may come out."""
    match question.form:
        case Measure(kind=kind, unit=unit, instrument=instrument):
            form = " ".join((kind, *kind.split("_"), unit, base.instruments[instrument].name))
        case Choice(labels=labels):
            form = " ".join(labels.values())
        case YesNo():
            form = ""
    return f"{question.how} {form}"


def _entries(base: RuleBase) -> Iterator[tuple[str, str, str, Position]]:
    parts = base.parts
    yield from (("machine", m.id, m.title, m.at) for m in base.machines.values())
    yield from (("complaint", c.id, c.name, c.at) for c in base.complaints.values())
    yield from (("circuit", c.id, c.title, c.at) for c in base.circuits.values())
    yield from (("part", p.id, p.name, p.at) for p in parts.values())
    yield from (("fault", f.id, f"{parts[f.part].name}: {f.name}", f.at) for f in base.faults.values())
    yield from (("question", q.id, q.ask, q.at) for q in base.questions.values())
    yield from (("finding", f.id, f.name, f.at) for f in base.findings.values())
    yield from (("feed", f.id, f.name, f.at) for f in base.feeds.values())
    yield from (("worked-out value", w.id, w.name, w.at) for w in base.work_outs.values())
    yield from (("condition", c.id, "a named condition", c.at) for c in base.conditions.values())
    yield from (("list", n.id, ", ".join(n.entries), n.at) for n in base.lists.values())
    yield from (("rule", r.id, r.because, r.at) for r in base.rules.values())
    yield from (("hazard", h.id, h.name, h.at) for h in base.hazards.values())
    yield from (("caution", c.id, c.text, c.at) for c in base.cautions.values())
    yield from (("feature", f.id, f.name, f.at) for f in base.features.values())
    yield from (("rating", p.id, p.name, p.at) for p in base.plate_values.values())
    yield from (("instrument", i.id, i.name, NOWHERE) for i in base.instruments.values())
    yield from (("move", m.id, m.say, m.at) for m in base.bench.moves)


def found_by(entries: Iterable[Entry], words: Iterable[str]) -> tuple[Entry, ...]:
    """The entries that have these words, those with the most of them first; all of them where there are no words.

    A word counts where one begins alike: `press` finds `pressure`, `heating` finds `heats`.
    """
    wanted = [_stem(word) for word in words]
    if not wanted:
        return tuple(entries)
    scored = []
    for entry in entries:
        stems = {_stem(word) for word in re.findall(r"[a-z0-9]+", f"{entry.id} {entry.about} {entry.also}".lower())}
        hits = sum(any(stem.startswith(word) for stem in stems) for word in wanted)
        if hits == len(wanted) or hits > 1:
            scored.append((-hits, entry))
    return tuple(entry for _, entry in sorted(scored, key=lambda scored: scored[0]))


def _stem(word: str) -> str:
    word = word.lower()
    for ending in ("ing", "ed", "es", "s", "e"):
        if word.endswith(ending) and len(word) - len(ending) >= _TOO_SHORT:
            return word[: -len(ending)]
    return word


def explained_id(base: RuleBase, name: str, cases: Iterable[Case], jobs: Path | None) -> tuple[str, ...]:
    """Everything about an id, line by line. Raises NoSuchId."""
    index = Index(base)
    entries = [entry for entry in entries_of(base) if entry.id == name or f"{entry.sort}.{entry.id}" == name]
    if not entries:
        near = names_of(base).nearest(name, sorted({entry.id for entry in entries_of(base)}))
        raise NoSuchId(say.nothing_is_called(name[:60]) + (say.did_you_mean(near) if near else ""))
    lines: list[str] = []
    for entry in entries:
        lines += [f"{entry.sort} {entry.id}" + (f"   {shortly(entry.at)}" if entry.at.path else "")]
        lines += [f"  {line}" for line in told_of(index, entry.sort, entry.id)]
        lines += _used(index, entry)
        lines += _cases(entry, cases)
        if jobs is not None:
            lines.append(_jobs(entry, jobs))
    return tuple(lines)


def _used(index: Index, entry: Entry) -> Iterator[str]:
    prefix = {"feature": "machine.", "rating": "plate."}.get(entry.sort, "")
    name = f"{prefix}{entry.id}"
    uses = [*index.uses.get(name, ()), *(index.uses.get(f"complaint.{name}", ()) if entry.sort == "complaint" else ())]
    if entry.sort == "part":
        uses += [use for f in index.base.parts[entry.id].faults for use in index.uses.get(f.id, ()) if use.id != f.id]
    named: Mapping[str, tuple[Position, ...]] = {
        "condition": index.base.conditions[entry.id].used_at if entry.sort == "condition" else (),
        "list": index.base.lists[entry.id].used_at if entry.sort == "list" else (),
    }
    places = named.get(entry.sort, ())
    if not uses and not places:
        yield "  used by: nothing"
        return
    yield f"  used by: {counted(len(uses) + len(places), 'place')}"
    yield from (say.used_in(use.sort, use.id, use.role, shortly(use.at)) for use in uses)
    yield from (f"    {shortly(at)}" for at in places)


def shortly(at: Position) -> str:
    """A place, from where the reader stands if it lies below."""
    path = Path(at.path)
    here = Path.cwd()
    return f"{path.relative_to(here) if path.is_relative_to(here) else path}:{at.line}:{at.column}"


def _cases(entry: Entry, cases: Iterable[Case]) -> Iterator[str]:
    found = [case.id for case in cases if entry.id in _named_in(case)]
    if found:
        more = f" and {len(found) - _MOST_CASES} more" if len(found) > _MOST_CASES else ""
        yield f"  {counted(len(found), 'case')}: {', '.join(found[:_MOST_CASES])}{more}"


def _named_in(case: Case) -> set[str]:
    job, expect = case.job, case.expect
    parts = {fault.partition(".")[0] for fault in expect.faults}
    named = {job.machine, *job.complaints, *job.answers, *job.plate, *(job.after_repair or {}), job.arrives}
    return named | {*expect.faults, *expect.asks, *expect.never_asks, *expect.cautions, *expect.normal} | parts


def _jobs(entry: Entry, folder: Path) -> str:
    """In which saved jobs the id came up: as a question put, a rule fired, a fault narrowed, a caution shown."""
    files = sorted(folder.glob(f"*{SUFFIX}"), key=lambda file: (file.stat().st_mtime, file.name))
    if entry.sort in _PACKED:  # only a trace that is read whole tells of them
        files = files[-_MOST_READ:]
    found = [file.name.removesuffix(SUFFIX) for file in files if _came_up(entry, file)]
    if not found:
        return say.came_up_in_none(len(files))
    shown = ", ".join(found[-_MOST_CASES:])
    return say.came_up_in(len(found), len(files), shown)


def _came_up(entry: Entry, file: Path) -> bool:
    if entry.sort not in _PACKED:
        return f'"{entry.id}"'.encode() in file.read_bytes()
    try:
        records = read_trace(file).records
    except TraceError:  # what is no trace tells nothing; audit says why
        return False
    return any(
        (isinstance(record, CautionShown) and record.caution == entry.id)
        or (isinstance(record, Narrowed) and record.fact == entry.id)
        for record in records
    )
