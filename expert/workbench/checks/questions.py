"""Questions whose answer, or one of whose outcomes, changes nothing; and live ones without a warning."""

from __future__ import annotations

from collections.abc import Iterator

from expert.engine.knowledge import atoms_of
from expert.language.model import Measure, Narrow, Question
from expert.language.problems import Problem
from expert.trade.quantities.quantity import with_article
from expert.workbench.index import Index
from expert.workbench.sentences import rules as say

CODES = {
    "unused-question": say.UNUSED_QUESTION,
    "unused-outcome": say.UNUSED_OUTCOME,
    "unused-finding": say.UNUSED_FINDING,
    "finding-outcome-never-concluded": say.FINDING_OUTCOME_NEVER_CONCLUDED,
    "unused-name": say.UNUSED_NAME,
    "live-without-caution": say.LIVE_WITHOUT_CAUTION,
    "every-outcome-sound": say.EVERY_OUTCOME_SOUND,
    "measured-on-wrong-mains": say.MEASURED_ON_WRONG_MAINS,
}
# What a number of this kind needs of the mains: the meter feeds a resistance itself, a voltage is the machine's own.
_MAINS_FOR = {
    "resistance": "isolated",
    **dict.fromkeys(("ac_voltage", "dc_voltage", "current", "leakage_current", "flow"), "on"),
}
# Roles in which a question's answer counts for something.
_COUNTS = (
    "if",
    "only_if",
    "readings",
    "formula",
    "prove",
    "service",
    "after_opening",
    "first",
    "while",
    "through",
    "check_out",
    "seen",
)


def check(index: Index) -> Iterator[Problem]:
    """Questions, then findings, then what has a name that nobody uses."""
    yield from _unused(index)
    yield from _unused_outcomes(index)
    yield from _findings(index)
    yield from _unused_names(index)
    for question in index.base.questions.values():
        yield from _bench(index, question)
        roles = {use.role for use in index.uses.get(question.id, ())}
        if set(question.sound) == set(question.outcomes) and not roles & {"prove", "service", "after_opening"}:
            yield Problem(question.at, say.every_answer_is_sound(question.id), "every-outcome-sound")


def _bench(index: Index, question: Question) -> Iterator[Problem]:
    """How the machine stands for the question."""
    live = question.bench.get("mains") == "on" and question.bench.get("covers") == "off"
    if live and not question.cautions:
        message = say.live_test_has_no_caution(question.id)
        yield Problem(question.at, message, "live-without-caution")
    kind = question.form.kind if isinstance(question.form, Measure) else ""
    wanted, is_so = _MAINS_FOR.get(kind, ""), question.bench.get("mains", "")
    if wanted and "mains" in index.base.bench.states and is_so != wanted:
        message = say.measures_in_wrong_state(
            question.id, with_article(kind), wanted, f"mains: {is_so}" if is_so else say.NOTHING_OF_THE_MAINS
        )
        yield Problem(question.at, message, "measured-on-wrong-mains")


def _unused(index: Index) -> Iterator[Problem]:
    for question in index.base.questions.values():
        if not any(use.role.startswith(_COUNTS) for use in index.uses.get(question.id, ())):
            yield Problem(question.at, say.nothing_uses_answer(question.id), "unused-question")


def _unused_outcomes(index: Index) -> Iterator[Problem]:
    """An outcome of a question with more than two that no condition, `shows`, `lacking` or `sound` mentions."""
    base = index.base
    used = {question.id: set(question.sound) for question in base.questions.values()}
    shown = [*(fault.shows for fault in base.faults.values()), *(feed.lacking for feed in base.feeds.values())]
    for shows in shown:
        for name, outcomes in shows.items():
            used[name].update(outcomes)
    for complaint in base.complaints.values():
        for test in atoms_of(complaint.raised_when):
            used.setdefault(test.fact, set()).update(test.outcomes)
    for name in base.questions:
        used[name].update(outcome for test in index.tests.get(name, ()) for outcome in test.outcomes)
    for question in base.questions.values():
        if question.id in index.uses and len(question.outcomes) > 2:
            for outcome in question.outcomes:
                if outcome not in used[question.id]:
                    message = say.nothing_uses_outcome(outcome, question.id)
                    yield Problem(question.at, message, "unused-outcome")


def _findings(index: Index) -> Iterator[Problem]:
    concluded: dict[str, set[str]] = {}
    for rule in index.base.rules.values():
        for said in rule.then:
            if isinstance(said, Narrow):
                concluded.setdefault(said.fact, set()).update(said.outcomes)
    for finding in index.base.findings.values():
        tests = index.tests.get(finding.id, ())
        if not tests:
            yield Problem(finding.at, say.nothing_builds_on(finding.id), "unused-finding")
        for test in tests:
            if not set(test.outcomes) & concluded.get(finding.id, set()):
                message = say.waits_for_what_nobody_concludes(finding.id, "/".join(test.outcomes))
                yield Problem(test.at, message, "finding-outcome-never-concluded")


def _unused_names(index: Index) -> Iterator[Problem]:
    base = index.base
    for condition in base.conditions.values():
        if not condition.used_at:
            yield Problem(condition.at, say.nothing_uses_condition(condition.id), "unused-name")
    for named in base.lists.values():
        if not named.used_at:
            yield Problem(named.at, say.nothing_uses_list(named.id), "unused-name")
    for work_out in base.work_outs.values():
        # What a sound machine comes nearest to is shown beside the limits, by its name.
        if work_out.id not in index.uses:
            yield Problem(work_out.at, f"nothing uses {work_out.id}", "unused-name")
    for caution in base.cautions.values():
        if caution.id not in index.uses:
            yield Problem(caution.at, f"nothing uses {caution.id}", "unused-name")
