"""Verify a trace and tell its reasoning; on request run it again. The trace itself is never written on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from expert.desk.pinning import pinned_folder
from expert.desk.replay import opened_of, rerun, rules_of
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.language.problems import RulesRefused
from expert.language.shipped import shipped
from expert.shop.audit_story import Story, story_of
from expert.shop.audit_words import Names, story_in_words
from expert.shop.sentences import audit as say
from expert.terminal.plain_lines import wrapped
from expert.trace.agreeing import disagreements
from expert.trace.cleaning import clean
from expert.trace.json_values import to_plain
from expert.trace.reading import Trace, read_trace
from expert.trace.register import read_register, register_path
from expert.trace.verifying import Problem, verify
from expert.trade.counting import counted

WIDTH = 100
SLIP_DIGITS = 16

_KNOWN_IN_PART = ("not-registered", "renamed", "known-late")


@dataclass(frozen=True, slots=True)
class Again:
    """How a re-run went. `decided`: what was decided otherwise; `reworded`: what is only said otherwise.

    `missing`: what the dialogue gave after the last recorded line and the trace lacks.
    """

    same_rules: bool
    decided: tuple[str, ...]
    reworded: tuple[str, ...]
    missing: int

    @property
    def is_exact(self) -> bool:
        return not self.decided and not self.reworded

    @property
    def is_reproduced(self) -> bool:
        """Whether everything that was decided is decided again, in whatever words."""
        return not self.decided


@dataclass(frozen=True, slots=True)
class Audit:
    """A trace, what is wrong with it, and the story it tells. `again` None: it was not run again.

    `registered`: the register of its folder knows all of it, so that a cut end or a trace written anew would show.
    """

    trace: Trace
    problems: tuple[Problem, ...]
    story: Story
    names: Names
    again: Again | None = None
    registered: bool = False

    @property
    def is_damaged(self) -> bool:
        return any(problem.grade == "damage" for problem in self.problems)

    @property
    def is_good(self) -> bool:
        """Not damaged, and reproduced exactly if it was run again."""
        return not self.is_damaged and (self.again is None or self.again.is_reproduced)


def audit_trace(path: Path, base: RuleBase | None = None, again_with: RuleBase | None = None) -> Audit:
    """Audit the trace at `path`.

    `base` gives names when it is the rule base of the job; otherwise ids stand for names. `again_with`: the rules to
    run the recorded lines again with. Raises TraceNotRead, TraceTooLarge, and TraceDamaged when a line cannot be
    understood at all.
    """
    trace = read_trace(path)
    story = story_of(trace)
    is_of_the_job = base is not None and base.digest == story.head.rules_digest
    names = Names(story.questions, base if is_of_the_job else None)
    again = None if again_with is None else run_again(trace, knowledge_of(again_with))
    register = read_register(register_path(path))
    against = disagreements(trace, register)
    registered = register is not None and not any(problem.code in _KNOWN_IN_PART for problem in against)
    return Audit(trace, (*verify(trace), *against), story, names, again, registered)


def rules_at_hand(path: Path) -> RuleBase | None:
    """The rules that the job goes by: those kept beside it, else the shipped ones. None: neither is the same.

    Raises what `read_trace` and `opened_of` raise.
    """
    digest = rules_of(read_trace(path))
    for place in (pinned_folder(path.parent, digest), *_shipped_rules()):
        try:
            base = load_rules(place)
        except RulesRefused:
            # Not usable, or not there: the audit then says that ids stand for names.
            continue
        if base.digest == digest:
            return base
    return None


def _shipped_rules() -> tuple[Path, ...]:
    try:
        return (shipped("rules"),)
    except FileNotFoundError:
        return ()


def run_again(trace: Trace, knowledge: Knowledge) -> Again:
    """Type the recorded lines again, with these rules."""
    result = rerun(knowledge, trace)
    same = knowledge.base.digest == rules_of(trace)
    return Again(same, tuple(map(str, result.decided)), tuple(map(str, result.reworded)), len(result.missing))


def audit_in_words(result: Audit) -> Iterator[str]:
    """The audit as lines of text, wrapped and safe to show."""
    for line in story_in_words(result.story, result.names):
        yield from wrapped(clean(line), WIDTH) if line else [""]
    if opened_of(result.trace).redacted_from:
        yield from ("", say.COPY_FOR_SHARING)
    if seal := seal_in_words(result.trace):
        yield from ("", seal)
    if result.again is not None:
        yield ""
        yield from _again_in_words(result.again)


def verdict_on(result: Audit) -> str:
    """The last line: whether the trace can be relied on."""
    damage = sum(problem.grade == "damage" for problem in result.problems)
    if damage:
        return say.verdict_damaged(counted(damage, "problem"))
    if result.again is not None and not result.again.is_reproduced:
        because = say.OTHER_RULES if not result.again.same_rules else say.SAME_RULES
        return say.verdict_not_reproduced(because)
    if result.registered:
        return say.VERDICT_UNCHANGED
    if result.trace.is_sealed:
        return say.VERDICT_UP_TO_SEAL
    return say.VERDICT_END_UNKNOWN


def seal_in_words(trace: Trace) -> str:
    """The digest of the seal, short enough for a slip of paper; '' for an open job.

    64 bits: nobody finds another trace with the same ones by trying (NIST SP 800-107, truncated digests; from memory).
    """
    if not trace.is_sealed:
        return ""
    digits = trace.lines[-1].digest[:SLIP_DIGITS]
    return (
        "Seal: " + " ".join(digits[start : start + 4] for start in range(0, SLIP_DIGITS, 4)) + say.NOTE_IT_ON_THE_SLIP
    )


def _again_in_words(again: Again) -> Iterator[str]:
    if not again.same_rules:
        yield say.RUN_WITH_OTHER_RULES
    if again.is_exact:
        yield "Reproduced exactly."
    elif again.decided:
        yield f"Not reproduced: {counted(len(again.decided), 'difference')}."
        yield from _listed(again.decided)
    else:
        yield say.REPRODUCED
    if again.reworded:
        yield say.worded_otherwise(counted(len(again.reworded), "place"))
        yield from _listed(again.reworded)
    if again.missing:
        yield say.ends_too_soon(counted(again.missing, "record"))


def _listed(differences: tuple[str, ...]) -> Iterator[str]:
    for difference in differences:
        yield from wrapped(clean(f"  {difference}"), WIDTH)


def audit_as_data(result: Audit) -> dict[str, Any]:
    """The audit as JSON values."""
    from expert.shop.audit_data import event_as_data
    from expert.shop.audit_head import Head

    return {
        "trace": str(result.trace.path),
        "good": result.is_good,
        "problems": [{"line": p.line, "grade": p.grade, "code": p.code, "message": p.message} for p in result.problems],
        "head": to_plain(Head, result.story.head),
        "registered": result.registered,
        "seal": result.trace.lines[-1].digest if result.trace.is_sealed else "",
        "named_by_rules": result.names.base is not None,
        "events": [event_as_data(event, result.names) for event in result.story.events],
        "again": None
        if result.again is None
        else {
            "exact": result.again.is_exact,
            "same_rules": result.again.same_rules,
            "differences": list(result.again.decided),
            "reworded": list(result.again.reworded),
            "missing": result.again.missing,
        },
    }
