"""Where people are led: into live work only for a test that is live, and home with a slip that says not to use it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from expert.language.model import ALWAYS, Release, RuleBase
from expert.trace.records import HazardOpened, Moved, PromptPut, Record, Said
from tests.safety.conditions import facts_in
from tests.safety.watching import Watch

HANDS = ("question", "proof", "repair")
# The words that confirm moves, as they stand on the screen: whoever types only these follows where the job leads.
CONFIRMING = frozenset(
    {"out", "empty", "cool", "dead", "refitted", "taped", "connected", "closed", "on", "clear", "hot", "set"}
)

Wrong = Iterator[tuple[str, str]]
"""What is wrong: the code of the invariant and a sentence."""


@dataclass(frozen=True, slots=True)
class Violation:
    """What was wrong at which record, counted from 1. `code` names the invariant."""

    record: int
    code: str
    text: str

    def __str__(self) -> str:
        return f"record {self.record}: {self.text} [{self.code}]"


def in_order(base: RuleBase, watch: Watch, put: PromptPut) -> Wrong:
    """A test that is put to release a hazard comes after those before it have passed, or is what the next waits for."""
    since = watch.open.get(put.why.hazard)
    if since is None or put.prompt not in ("question", "proof"):
        return
    releases = base.hazards[put.why.hazard].released_by
    # What was taken back is answered anew, whatever else is due; a dead test, and no release before its time.
    anew = put.question in watch.known.taken_back.values() and put.question not in watch.known.answers
    if anew or not any(put.question in release.tests for release in releases):
        return
    due = {test for release in releases if (test := watch.known.due(release, since))}
    # One that has passed may be put again: a contradiction sets an answer aside.
    passed = {
        test
        for release in releases
        for test in tuple(release.tests)[: _place(release, watch.known.due(release, since))]
    }
    if put.question not in due | passed | set().union(*(waited_for(base, test) for test in due)):
        yield "order", f"{put.question} is put to release {put.why.hazard}, and what comes before it has not passed"


def _place(release: Release, due: str | None) -> int:
    """How many tests of an entry have passed: those above the one that is due, or all."""
    return len(release.tests) if due is None else list(release.tests).index(due)


def waited_for(base: RuleBase, question: str, depth: int = 4) -> set[str]:
    """The questions that must have been answered before this one may be put."""
    named = facts_in(base.questions[question].only_if) & base.questions.keys() if depth else set()
    return set(named).union(*(waited_for(base, name, depth - 1) for name in named - {question}))


def told_not_to_use(base: RuleBase, standing: Iterable[str], slip: Sequence[str], outcome: str) -> Wrong:
    """Whoever takes home a machine that is not fine is told not to use it, and every danger that stands."""
    said = " ".join(slip)
    if "NOT USE" not in said:
        yield "slip", f"closed as {outcome}, and the slip does not say that the machine is not to be used"
    for name in standing:
        hazard = base.hazards[name]
        if hazard.holds != ALWAYS and not hazard.after_repair and hazard.name not in said:
            yield "slip", f"closed as {outcome}, and the slip does not name {name}"


def has_a_way_out(
    base: RuleBase, bench: Mapping[str, str], refused: Collection[str], may_stand: Callable[[Mapping[str, str]], bool]
) -> bool:
    """Whether moves that were not refused lead, with the plug out, to a state in which the machine may stand."""
    seen = [dict(bench)]
    for state in seen:  # grows while it is gone through
        if may_stand(state):
            return True
        for move in base.bench.moves:
            further = {**state, **move.makes}
            possible = move.id not in refused and all(state[name] in allowed for name, allowed in move.needs.items())
            if possible and further["mains"] == "isolated" and further not in seen:
                seen.append(further)
    return False


@dataclass(slots=True)
class Through:
    """Live work is no way to something else: whoever was led into it was led there for a test that is live."""

    live: bool = False
    worked: bool = False

    def take(self, record: Record, is_live: bool | None) -> Wrong:
        """Note one record. `is_live`: where a move leads."""
        match record:
            case PromptPut(prompt=prompt) if self.live and prompt in HANDS:
                self.worked = True
            # Whoever changes the plan in between may leave without a test.
            case Said(text=text) if text.casefold() not in CONFIRMING:
                self.worked = True
            case HazardOpened() | Moved(move="stands otherwise"):
                self.worked = True
        if is_live is None:
            return
        if self.live and not is_live and not self.worked:
            yield "through-live", "led through live work, and no test was put there"
        if is_live != self.live:
            self.live, self.worked = is_live, False
