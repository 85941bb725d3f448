"""Two shorter views of an audit: one screen for the whole job, and the tree of one conclusion."""

from __future__ import annotations

from collections.abc import Iterator

from expert.shop.audit import Audit, verdict_on
from expert.shop.audit_reasons import Ledger, Reason
from expert.shop.audit_story import Asked, FaultFound
from expert.shop.audit_words import STANDINGS, head_in_words, tree_in_words
from expert.shop.sentences import audit as say
from expert.terminal.plain_lines import wrapped
from expert.trace.cleaning import clean
from expert.trace.errors import TraceError
from expert.trace.records import Found, Moved, Narrowed, Proved, Stopped
from expert.trade.counting import counted

WIDTH, SCREEN = 79, 23


class NoSuchConclusion(TraceError):
    """Nothing of that name was concluded in the job."""


def short_in_words(audit: Audit) -> Iterator[str]:
    """The job on one screen of 24 lines of 80: the head, what was found and why, stops, proofs, the verdict."""
    lines = [line for text in _short(audit) for line in wrapped(clean(text), WIDTH)]
    verdict = list(wrapped(verdict_on(audit), WIDTH))
    room = SCREEN - len(verdict)
    yield from lines if len(lines) <= room else [*lines[: room - 1], say.MORE_WITHOUT_SHORT]
    yield from verdict


def _short(audit: Audit) -> Iterator[str]:
    yield from head_in_words(audit.story.head, audit.names)
    records = audit.trace.records
    asked = sum(isinstance(event, Asked) and event.answered is not None for event in audit.story.events)
    yield f"{counted(asked, 'answer')}, {counted(sum(isinstance(r, Moved) for r in records), 'bench move')}"
    for event in audit.story.events:
        if isinstance(event, FaultFound):
            yield f"{STANDINGS.get(event.found.standing, event.found.standing)}: {audit.names.fault(event.found.fault)}"
            numbers = sorted({int(reason.id) for reason in _flat(event.tree) if reason.kind == "answer"})
            if numbers:
                yield f"  from answer {', '.join(map(str, numbers))}"
    yield from (f"STOP! {record.text}" for record in records if isinstance(record, Stopped))
    proofs = [record.passed for record in records if isinstance(record, Proved)]
    if proofs:
        yield say.proofs_counted(proofs.count(True), proofs.count(False), proofs.count(None))


def one_in_words(audit: Audit, wanted: str) -> Iterator[str]:
    """The tree of one conclusion, down to the numbered answers. Raises NoSuchConclusion, which names what there is.

    `wanted`: the id of a fault, a finding or a rule, or a part of a fault's name.
    """
    ledger = Ledger()
    standings: dict[str, str] = {}
    trees: dict[str, Reason] = {}
    for record in audit.trace.records:
        ledger.tell(record)
        if isinstance(record, Found):
            standings[record.fault] = record.standing
            trees[record.fault] = ledger.tree(record.fault, record.standing)
        elif isinstance(record, Narrowed) and record.because:
            because = tuple(ledger.rule(rule) for rule in record.because)
            trees[record.fact] = Reason("source", record.fact, " or ".join(record.after), because)
    for rule in ledger.fired:
        trees.setdefault(rule, ledger.rule(rule))
    name = _meant(audit, wanted, trees)
    reason = trees[name]
    standing = STANDINGS.get(standings.get(name, ""), reason.says)
    for line in (f"{standing}: {audit.names.fact(name)}", *tree_in_words(reason.because, audit.names, 1)):
        yield from wrapped(clean(line), WIDTH)


def _meant(audit: Audit, wanted: str, trees: dict[str, Reason]) -> str:
    if wanted in trees:
        return wanted
    word = wanted.casefold()
    near = [name for name in trees if word in name.casefold() or word in audit.names.fact(name).casefold()]
    if len(near) == 1:
        return near[0]
    listed = ", ".join((near or list(trees))[:12]) or "nothing"
    what = say.MAY_BE_ONE_OF if near else say.IS_NO_CONCLUSION
    raise NoSuchConclusion(f"{wanted[:60]!r} {what}: {listed}")


def _flat(reason: Reason) -> Iterator[Reason]:
    yield reason
    for part in reason.because:
        yield from _flat(part)
