"""An answer from the machine: what would be typed by somebody who did and saw what the table says."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import reduce

from expert.job.answers.sound import CANNOT_TELL
from expert.language.model import Question
from expert.machine import (
    Course,
    Link,
    Machine,
    Reading,
    Seen,
    SensorInBath,
    Sight,
    Unseen,
    complaints,
    do,
    observe,
    sound_machine,
)
from expert.trade.physics.steam import boiling_point
from expert.witness.phrases import BOILING, Compared, Noticed
from expert.witness.table import Line

_EVENT = re.compile(r"event (.+?)(?: before (\d+))?")
_RANGE = re.compile(r"(-?[\d.]+)\.\.(-?[\d.]+)")


@dataclass(frozen=True, slots=True)
class Told:
    """What would be typed, and the machine afterwards. `why`: where nothing can be told."""

    text: str
    machine: Machine
    why: str = ""


def answer(machine: Machine, question: Question, line: Line | None) -> Told:
    """What would be typed at this question. A question without a line cannot be told."""
    if line is None:
        return Told(CANNOT_TELL, machine, "no line in the table")
    if line.types:
        return Told(line.types, machine)
    after, seen = _done(_as_set_up(machine, question), line)
    hidden = [one for one in seen if isinstance(one, Unseen)]
    if hidden and (len(hidden) == len(seen) or not line.says):
        return Told(CANNOT_TELL, _left(machine, after, line), hidden[0].why)
    text = _in_words(line, seen) if line.says else _as_number(question, line, seen)
    if not text and line.then:
        return answer(_left(machine, after, line), question, line.then[0])
    return Told(text or CANNOT_TELL, _left(machine, after, line), "" if text else "nothing in the table fits")


def _as_set_up(machine: Machine, question: Question) -> Machine:
    """What was laid inside while the covers were off is read with the covers closed."""
    if question.prepare is None or question.prepare.bench.get("covers") != "off":
        return machine
    return replace(machine, bench=replace(machine.bench, covers_off=True))


AT_25_DEGREES = {"ntc 10k": 10_000.0, "ntc 50k": 50_000.0}


def _done(machine: Machine, line: Line) -> tuple[Machine, list[Seen]]:
    for action in line.do:
        if isinstance(action, Link) and action.ohms < 0:  # a share of the sensor's own resistance at 25 degrees
            action = replace(action, ohms=-action.ohms * AT_25_DEGREES.get(machine.build.sensor, 0.0))
        machine = do(machine, action)
    seen: list[Seen] = []
    for asked in line.observe:
        if isinstance(asked, SensorInBath) and str(asked.temperature) == BOILING:
            asked = replace(asked, temperature=boiling_point(machine.build.altitude))
        if isinstance(asked, Compared):
            seen.append(compared(machine, asked.what))
            continue
        if isinstance(asked, Noticed):
            seen += [Sight(word) for word in complaints(machine)]
            continue
        machine, one = observe(machine, asked)
        seen.append(one)
    first = line.observe[0]
    if line.between and not isinstance(first, Compared | Noticed):
        for action in line.between:
            machine = do(machine, action)
        machine, again = observe(machine, first)
        seen.append(again)
    return machine, seen


def compared(machine: Machine, what: str) -> Sight:
    """A value of the machine against that of a sound one of the same build and seed."""
    path = what.split(".") if what.startswith("state.") else ["parts", *what.split(".")]
    here, made = (reduce(getattr, path, one) for one in (machine, sound_machine(machine.build, machine.seed)))
    return Sight("as made" if here == made else "changed")


def _left(before: Machine, after: Machine, line: Line) -> Machine:
    """The machine when all that was altered for the test is put back; what happened to it meanwhile stays."""
    if line.undo:
        return before
    return after if line.keep else replace(after, bench=before.bench, parts=before.parts)


def numbers(line: Line, seen: Sequence[Seen]) -> list[float]:
    """The numbers in what was seen."""
    found: list[float] = []
    for one in seen:
        if isinstance(one, Reading):
            found.append(one.value)
        elif isinstance(one, Course) and line.until:
            second = one.happened(line.until)
            found += [] if second is None else [second]
        elif isinstance(one, Course) and line.track:
            tracked = (getattr(moment, line.track) for moment in one.moments)
            found += [float(value) for value in tracked if _is_number(value)]
    return found


def _is_number(value: object) -> bool:
    """A display shows a number, or a word where it cannot."""
    return isinstance(value, int | float) or re.fullmatch(r"-?\d+(\.\d+)?", str(value)) is not None


def taken(line: Line, seen: Sequence[Seen]) -> float | None:
    """The one number that counts, times what the table says; None where there is none."""
    found = numbers(line, seen)
    if not found:
        return None
    match line.take:
        case "highest":
            value = max(found)
        case "lowest":
            value = min(found)
        case "difference" | "change":
            value = abs(found[0] - found[-1]) if all(map(math.isfinite, found)) else math.inf
        case "rise":
            value = found[-1] - found[0]
        case "swing":
            value = max(found) - min(found)
        case "last":
            value = found[-1]
        case _:
            value = found[0]
    return min(value * line.times, line.at_most)


def _in_words(line: Line, seen: Sequence[Seen]) -> str:
    words = [one.word for one in seen if isinstance(one, Sight)]
    if line.take == "pair":
        finite = sum(math.isfinite(value) for value in numbers(line, seen))
        words = [("none", "one", "both")[finite]]
    elif line.take == "differs":
        one, other = numbers(line, seen)
        words = ["yes" if math.isfinite(one) != math.isfinite(other) else "no"]
    value = taken(line, seen)
    courses = [one for one in seen if isinstance(one, Course)]
    for key, outcome in line.says.items():
        if key == "otherwise" or key in words or _fits(key, value) or any(_happened(key, one) for one in courses):
            return outcome
    return ""


def _fits(key: str, value: float | None) -> bool:
    if value is None:
        return False
    if key[0] == "<":
        return value < float(key[1:])
    if key[0] == ">":
        return value > float(key[1:])
    between = _RANGE.fullmatch(key)
    return between is not None and float(between[1]) <= value <= float(between[2])


def _happened(key: str, course: Course) -> bool:
    event = _EVENT.fullmatch(key)
    if event is None:
        return False
    second = course.happened(event[1])
    return second is not None and (event[2] is None or second < float(event[2]))


def _as_number(question: Question, line: Line, seen: Sequence[Seen]) -> str:
    value = taken(line, seen)
    if value is None or question.measure is None:
        return ""
    if math.isinf(value):
        return "OL"
    unit = next((one.unit for one in seen if isinstance(one, Reading)), "")
    if line.times != 1.0 or not unit or not isinstance(seen[0], Reading):
        unit = question.measure.unit
    return f"{float(f'{value:.4g}'):.10g} {unit}" if abs(value) >= 1e-4 else f"0 {unit}"
