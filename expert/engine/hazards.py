"""Which dangers stand, what keeps them open and what ends them. Pure: everything known comes in as `Known`.

Conditions of hazards are read with suspicion: an answer that leaves a bad outcome possible counts as the bad one, and
what nobody could tell releases nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Set
from dataclasses import field, replace
from typing import Literal

from expert.language.model import ALWAYS, All, Any, Condition, Evidence, Hazard, Is, Not, Release, RuleBase, Suspect
from expert.trade.frozen import dataclass

Causes = frozenset[str]
"""What keeps a hazard open, in words that the trace keeps, such as "answer 4" or "complaint overheats"."""

START = "from the start"
NOTHING: Causes = frozenset()


@dataclass(frozen=True, slots=True)
class Known:
    """All that hazards are judged by.

    `answers`: question -> number and possible outcomes of the answer that holds. `unable`: question -> number of its
    "can't tell" that holds. `possible`: the outcomes still possible of any fact; `behind`: the answers that a fault
    found rests on. `fired`: rules. `repaired`: fault -> the number that the next answer had when the repair was done.
    `seen_again`: complaint -> the number that the next answer had when the bench raised it anew.
    `concerns`: whether a question is one for this machine.
    """

    base: RuleBase
    answers: Mapping[str, tuple[int, tuple[str, ...]]]
    unable: Mapping[str, int]
    possible: Callable[[str], tuple[str, ...]]
    behind: Callable[[str], Iterable[str]]
    fired: Set[str]
    repaired: Mapping[str, int]
    concerns: Callable[[str], bool]
    seen_again: Mapping[str, int] = field(default_factory=dict)

    @property
    def last_repair(self) -> int:
        """The number that the first answer after the last repair has, or will have; 0 when nothing was repaired."""
        return max(self.repaired.values(), default=0)


@dataclass(frozen=True, slots=True)
class OpenHazard:
    """A hazard that is open: the number that the first answer after its opening has, and what opened it.

    `again`: questions that have to be answered anew, each with the number from which an answer counts.
    """

    since: int
    causes: Causes
    again: Mapping[str, int] = field(default_factory=dict)


@dataclass(slots=True)
class HazardAccount:
    """The hazards open now, and for those released what had opened them: the same does not open them again."""

    open: dict[str, OpenHazard] = field(default_factory=dict)
    released: dict[str, Causes] = field(default_factory=dict)

    def copy(self) -> HazardAccount:
        """HazardAccount of their own."""
        return HazardAccount(dict(self.open), dict(self.released))


def causes_of(hazard: Hazard, known: Known) -> Causes:
    """What makes a hazard stand; empty when nothing does."""
    if hazard.from_the_start:
        return frozenset((START,))
    held = holding(hazard.holds, known) if hazard.holds != ALWAYS else None
    if hazard.after_repair:
        return repairs_inside(known) if held is not None or hazard.holds == ALWAYS else NOTHING
    suspected = {f"suspected {fault}" for fault in hazard.suspected if is_suspected(fault, known)}
    return (held or NOTHING) | suspected


def holding(condition: Condition, known: Known) -> Causes | None:
    """What makes a condition hold, read with suspicion; None when it does not."""
    match condition:
        case Is(fact=fact, outcomes=outcomes):
            return _atom(fact, outcomes, known)
        case All(parts=parts):
            held = [holding(part, known) for part in parts]
            return None if None in held else frozenset().union(*(one for one in held if one))
        case Any(parts=parts):
            some = [one for part in parts if (one := holding(part, known)) is not None]
            return frozenset().union(*some) if some else None
        case Not():
            return None  # refused by the check of the rules: with suspicion, "not" would hold of all that is unknown


def _atom(fact: str, outcomes: tuple[str, ...], known: Known) -> Causes | None:
    if fact in known.base.questions:
        number, left = known.answers.get(fact, (0, ()))
        return frozenset((f"answer {number}",)) if set(left) & set(outcomes) else None
    possible = known.possible(fact)
    if not possible or not set(possible) <= set(outcomes):
        return None
    if fact in known.base.faults:
        return frozenset((f"fault {fact}", *(known.behind(fact) if possible == ("present",) else ())))
    if fact.startswith("machine."):
        return NOTHING
    kind, _, complaint = fact.partition(".")
    if kind != "complaint":
        return frozenset((f"finding {fact}",))
    again = (f" again before answer {known.seen_again[complaint]}",) if complaint in known.seen_again else ()
    return frozenset(f"complaint {complaint}{seen}" for seen in ("", *again))


def is_suspected(fault: str, known: Known) -> bool:
    """Whether a fired rule speaks for a fault that is not cleared."""
    if known.possible(fault) == ("absent",):
        return False
    return any(fault in _spoken_for(known.base, rule) for rule in known.fired)


def _spoken_for(base: RuleBase, rule: str) -> Iterable[str]:
    for said in base.rules[rule].then:
        match said:
            case Suspect(faults=faults):
                yield from faults
            case Evidence(fault=fault, decibans=decibans) if decibans > 0:
                yield fault


# ---------------------------------------------------------------- what releases it


@dataclass(frozen=True, slots=True)
class Released:
    """How a hazard ended: the answers and the repair that ended it, in the words of the trace."""

    how: Literal["tests", "repair", "taken back"]
    by: tuple[str, ...]


def released(hazard: Hazard, standing: OpenHazard, known: Known) -> Released | None:
    """The way in which a hazard is released by now; None while it is not."""
    for release in hazard.released_by:
        begin = begins(release, standing, known)
        tests = tests_of(release, known)
        if begin is not None and tests and all(passed(release, test, begin.number, known) for test in tests):
            by = tuple(f"answer {known.answers[test][0]}" for test in tests)
            return Released("repair" if begin.repair else "tests", (*begin.by, *by))
    return None


@dataclass(frozen=True, slots=True)
class Begin:
    """From which answer on the tests of a release count, and the repair after which they are made, or ''."""

    number: int
    repair: str = ""

    @property
    def by(self) -> tuple[str, ...]:
        return (f"repair {self.repair}",) if self.repair else ()


def begins(release: Release, standing: OpenHazard, known: Known) -> Begin | None:
    """From where the tests of a release count; None while its repair is not done."""
    if not release.repairs:
        return Begin(standing.since)
    done = [
        (known.repaired[fault], fault) for fault in release.repairs if known.repaired.get(fault, -1) >= standing.since
    ]
    return Begin(*max(done)) if done else None


def tests_of(release: Release, known: Known) -> tuple[str, ...]:
    """The tests that concern this machine, in the order in which they are put."""
    return tuple(question for question in release.tests if known.concerns(question))


def passed(release: Release, question: str, begin: int, known: Known) -> bool:
    """Whether a test came out as it must, for certain, and since then."""
    number, left = known.answers.get(question, (-1, ()))
    return number >= begin and bool(left) and set(left) <= set(release.tests[question])


def next_test(release: Release, standing: OpenHazard, known: Known) -> str | None:
    """The next test of a release that may still pass; None when one failed or could not be told, or a repair is due.

    Whichever of them failed: nobody changes the limits for a release whose valve could not be tried.
    """
    begin = begins(release, standing, known)
    if begin is None:
        return None
    # After a repair a test that failed may pass.
    fresh = max(begin.number, known.last_repair, 1)
    left = tests_left(release, standing, known)
    tried = (max(known.answers.get(test, (-1, ()))[0], known.unable.get(test, -1)) for test in left)
    return None if not left or max(tried) >= fresh else left[0]


def tests_left(release: Release, standing: OpenHazard, known: Known) -> tuple[str, ...]:
    """Every test of a release that is still to pass."""
    begin = begins(release, standing, known)
    if begin is None:
        return ()
    return tuple(test for test in tests_of(release, known) if not passed(release, test, begin.number, known))


# ---------------------------------------------------------------- keeping account


def keep_account(standings: HazardAccount, known: Known, next_number: int) -> list[tuple[str, OpenHazard | Released]]:
    """Open and release hazards by what is known now: what changed, in the order of the rules. Changes `standings`."""
    changed: list[tuple[str, OpenHazard | Released]] = []
    for hazard in known.base.hazards.values():
        causes = causes_of(hazard, known)
        if hazard.id in standings.open:
            standing = standings.open[hazard.id]
            if new := causes - standing.causes:
                # What has just happened again asks for tests made after it.
                is_again = happened(known) in new or (hazard.after_repair and bool(new))
                since = next_number if is_again and not hazard.any_time else standing.since
                standing = standings.open[hazard.id] = replace(standing, since=since, causes=standing.causes | causes)
            end = released(hazard, standing, known) or corrected(standing, causes, known)
            if end is not None:
                del standings.open[hazard.id]
                standings.released[hazard.id] = causes
                changed.append((hazard.id, end))
            continue
        seen = standings.released.get(hazard.id, NOTHING) & causes
        if hazard.id in standings.released:
            standings.released[hazard.id] = seen
        if causes - seen:
            opened = OpenHazard(0 if hazard.from_the_start or hazard.any_time else next_number, causes)
            if hazard.any_time and released(hazard, opened, known):
                standings.released[hazard.id] = causes  # shown before it was asked
                continue
            standings.open[hazard.id] = opened
            changed.append((hazard.id, opened))
    return changed


def happened(known: Known) -> str:
    """The cause that is the last thing told by the word danger, or ''."""
    number, _ = known.answers.get(known.base.bench.danger_met, (0, ()))
    return f"answer {number}" if number else ""


def repairs_inside(known: Known) -> Causes:
    """Every repair that was made with the covers off, as a cause."""
    opened, faults = known.base.bench.opened, known.base.faults
    inside = {fault for fault in known.repaired if opened.items() <= faults[fault].repair.bench.items()}
    return frozenset(f"repair {fault} before answer {known.repaired[fault]}" for fault in inside)


def correct(standings: HazardAccount, known: Known, question: str, taken: str, next_number: int) -> None:
    """An answer was taken back: hazards that stood on nothing else end when the same question is answered anew.

    Until then they stand: a mistake is mended by looking again, and not by forgetting what was seen.
    """
    for name, standing in standings.open.items():
        others = standing.causes - {taken}
        is_cause = taken in standing.causes or not causes_of(known.base.hazards[name], known)
        if is_cause and not any(_lost(cause, known) for cause in others):
            standings.open[name] = OpenHazard(standing.since, others, {**standing.again, question: next_number})


def corrected(standing: OpenHazard, causes: Causes, known: Known) -> Released | None:
    """Whether what had been taken back was answered anew, and nothing makes the hazard stand any more."""
    anew = [known.answers.get(question, (-1, ()))[0] for question in standing.again]
    if causes or not anew or any(got < first for got, first in zip(anew, standing.again.values(), strict=True)):
        return None
    if any(_lost(cause, known) for cause in standing.causes):
        return None
    return Released("taken back", tuple(f"answer {number}" for number in anew))


def to_answer_anew(standing: OpenHazard, known: Known) -> str | None:
    """The question that has to be answered again after its answer was taken back."""
    for question, first in standing.again.items():
        if known.answers.get(question, (-1, ()))[0] < first:
            return None if known.unable.get(question, -1) >= first else question
    return None


def _lost(cause: str, known: Known) -> bool:
    """Whether it is a repair, or went by one, in a contradiction or with what had raised it: only a test ends it."""
    sort, _, name = cause.partition(" ")
    if sort == "complaint":
        return known.possible(f"complaint.{name.split()[0]}") != ("yes",)
    if sort == "repair":
        return True  # it was made, whether it held or not
    if sort == "answer":
        return name not in {str(number) for number, _ in known.answers.values()}
    return sort == "fault" and name in known.repaired
