"""Is every `confirm` proved? No other fault may give the same answers, and what the part needs must be known to arrive.

A fault other than the one confirmed is a rival when, present alone and with all that follows from it, it lets the
rule's condition come true: each answer that the rule wants is one that the fault shows, or, where the fault shows
nothing, one that a sound machine gives. A rule names its rivals, and waits for them; one it does not name is an error,
with the fault as witness.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from expert.language.branches import Branch, Branches, branches_in
from expert.language.feeding import faults_meant
from expert.language.model import All, Any, Condition, Fault, Is, Narrow, Not, Rule, RuleBase
from expert.language.problems import Problem
from expert.workbench.sentences import faults as say

CODES: Mapping[str, str] = MappingProxyType(
    {
        "not-proved": say.NOT_PROVED,
        "not-its-sign": say.NOT_ITS_SIGN,
        "need-not-measured": say.NEED_NOT_MEASURED,
    }
)
_SHOWN = 3  # witnesses named in one message


def unproved(base: RuleBase, opener: Branches | None = None) -> Iterator[Problem]:
    """Every confirm that is not proved, in the rules' order. `opener`: of this base, where it is there already."""
    opener = opener or branches_in(base)
    for rule in base.rules.values():
        for said in rule.then:
            if isinstance(said, Narrow) and said.word == "confirm":
                yield from _of_rule(base, opener, rule, said)


def rivals_of(base: RuleBase, rule: Rule, fault: str, opener: Branches | None = None) -> tuple[str, ...]:
    """The faults that let the rule's condition come true in place of the one it confirms.

    A result is there whenever it is seen, whatever brought it about: it has no rivals. Nor is it one of its own cause,
    or of a fault of the same part, which it only tells the history of. A cause of the fault brings it about as well.
    """
    if base.faults[fault].result:
        return ()
    opener = opener or branches_in(base)
    own = opener.own_facts(rule.when)
    branches = opener.asked(rule.when)
    return tuple(
        other.id
        for other in base.faults.values()
        if other.id != fault
        and not own.isdisjoint(other.shows)  # else no branch has a sign of it
        and not (other.result and (fault in other.caused_by or other.part == base.faults[fault].part))
        and other.id not in base.faults[fault].caused_by
        and any(allows(base, other, branch, own) for branch in branches)
    )


def allows(base: RuleBase, fault: Fault, branch: Branch, own: frozenset[str]) -> bool:
    """Whether the fault, alone on a machine that is sound otherwise, can give all these answers.

    `own`: the facts that the rule itself tests; one of them must be a sign of the fault.
    """
    sign = False
    for test in branch:
        if test.fact in base.questions:
            question = base.questions[test.fact]
            shown = fault.shows.get(test.fact)
            possible = shown or question.sound or question.outcomes
            if not any(outcome in possible for outcome in test.outcomes):
                return False
            if not sign and shown and test.fact in own:
                sign = any(outcome in shown and outcome not in question.sound for outcome in test.outcomes)
        elif test.fact in base.faults and ("present" if test.fact == fault.id else "absent") not in test.outcomes:
            return False
    return sign and _on_one_machine(base, fault, branch)


def _on_one_machine(base: RuleBase, fault: Fault, branch: Branch) -> bool:
    """Whether some machine has both the part and the features that the branch asks for."""
    part = base.parts[fault.part]
    wanted: dict[str, set[str]] = {}
    limits = [*base.circuits[part.circuit].applies.items(), *part.applies.items()]
    limits += [(test.fact, test.outcomes) for test in branch if test.fact.startswith("machine.")]
    for feature, values in limits:
        wanted[feature] = wanted.get(feature, set(values)) & set(values)
    return all(wanted.values())


def _of_rule(base: RuleBase, opener: Branches, rule: Rule, said: Narrow) -> Iterator[Problem]:
    own, branches = opener.own_facts(rule.when), opener.asked(rule.when)
    named = set(faults_meant(rule.rivals, base.parts, base.feeds, base.faults))
    rivals = [rival for rival in rivals_of(base, rule, said.fact, opener) if rival not in named]
    if rivals:
        more = f" and {len(rivals) - _SHOWN} more" if len(rivals) > _SHOWN else ""
        witness = base.faults[rivals[0]]
        branch = next(branch for branch in branches if allows(base, witness, branch, own))
        message = say.rivals_answer_alike(
            rule.id, said.fact, ", ".join(rivals[:_SHOWN]), more, _signs(witness, branch, own)
        )
        yield Problem(said.at, message, "not-proved")
    if not any(allows(base, base.faults[said.fact], branch, own) for branch in opener.of(rule.when)):
        message = say.confirms_what_does_not_show_it(rule.id, said.fact)
        yield Problem(said.at, message, "not-its-sign")
    yield from _needs(base, branches, own, rule, said)


def _signs(witness: Fault, branch: Branch, own: frozenset[str]) -> str:
    """What the witness answers to the rule's own questions on the way that lets it through."""
    answers = {
        test.fact: next(outcome for outcome in shown if outcome in test.outcomes)
        for test in branch
        if test.fact in own and (shown := witness.shows.get(test.fact)) and set(shown) & set(test.outcomes)
    }
    return f" ({witness.id} shows {', '.join(f'{fact}: {outcome}' for fact, outcome in answers.items())})"


def _needs(
    base: RuleBase, branches: Iterable[Branch], own: frozenset[str], rule: Rule, said: Narrow
) -> Iterator[Problem]:
    """A part that reads dead is judged only when what it needs is known to arrive."""
    for feed in (base.feeds[name] for name in base.parts[base.faults[said.fact].part].needs):
        if feed.id in rule.rivals or base.faults[said.fact].result:
            continue
        for branch in branches:
            dead = [
                test.fact
                for test in branch
                if test.fact in own
                and set(test.outcomes) & set(feed.lacking.get(test.fact, ())) - set(_sound(base, test.fact))
            ]
            if dead and not holds(feed.arrives, branch):
                message = say.reads_so_without_supply(rule.id, said.fact, dead[0], feed.name, feed.id)
                yield Problem(said.at, message, "need-not-measured")
                break


def _sound(base: RuleBase, fact: str) -> tuple[str, ...]:
    return base.questions[fact].sound if fact in base.questions else ()


def holds(condition: Condition, branch: Branch) -> bool:
    """Whether these answers make the condition true."""
    match condition:
        case Is(fact, outcomes):
            return any(test.fact == fact and set(test.outcomes) <= set(outcomes) for test in branch)
        case All(parts):
            return all(holds(part, branch) for part in parts)
        case Any(parts):
            return any(holds(part, branch) for part in parts)
        case Not(part):
            return isinstance(part, Is) and any(
                test.fact == part.fact and not set(test.outcomes) & set(part.outcomes) for test in branch
            )
