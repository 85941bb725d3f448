"""The rating plate at intake: what the type says, what the plate on the bench says instead, and which limits hold."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import zip_longest

from expert.job.answers.outcomes_meant import outcome_meant
from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer, read_answer
from expert.job.answers.taking import judge_again, take_answer
from expert.job.prompts.intake_prompt import IntakePrompt
from expert.job.prompts.owner import Unattended
from expert.job.prompts.plate_ranges import forget_range, middle_of_range
from expert.job.sentences import intake as say
from expert.job.state.applying import applies
from expert.job.state.inference import conclude
from expert.job.state.job import Given, Job, Prompt, Turn
from expert.job.state.shop import at_home
from expert.job.state.situation import look_again
from expert.job.state.values import value_of
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Machine
from expert.language.worked.plate_choices import conditions_behind_limits, features_behind_limits
from expert.trade.limits.electrical import STRICTEST
from expert.trade.quantities.units import KINDS, NotAQuantity, Quantity, believable, echo, read_quantity, show
from expert.trade.quantities.wire_gauge import shown_as_awg


def set_machine(turn: Turn, machine: Machine) -> None:
    """Take the machine's data as known: its features, and the absence of faults in parts that it does not have."""
    job = turn.job
    job.machine = machine = machine if job.machine is not None else at_home(job.shop, job.base, machine)
    base = job.base
    known: dict[str, tuple[str, ...]] = {f"machine.{key}": (value,) for key, value in machine.features.items()}
    for part in base.parts.values():
        if not applies(base, machine.features, (base.circuits[part.circuit].applies, part.applies)):
            known |= {fault.id: ("absent",) for fault in part.faults}
    conclude(turn, job.state.narrow_all("machine data", known))


def forget_machine(turn: Turn) -> None:
    """The type was another: its data go, and what was read off its plate is read again."""
    job = turn.job
    conclude(turn, job.state.take_back("machine data"))
    job.machine = None
    job.plate_ranges.clear()
    job.plate_told = ()
    job.intake_settled = tuple(name for name in job.intake_settled if name != Plate.name)


MOST_TIMES_OFF = 10.0


class Plate(IntakePrompt):
    name = "plate"
    not_known = say.PLATE_NOT_READ
    because = say.WHY_PLATE

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return plate_prompt(job)

    def settle(self, turn: Turn, text: str) -> bool:
        if not take_plate(turn, text):
            return True
        turn.job.plate_told = (*turn.job.plate_told, text)
        look_again(turn.job)
        return False

    def how(self, job: Job) -> tuple[str, ...]:
        """Every value by the name under which it is printed."""
        plate = job.machine.plate if job.machine else {}
        records = job.base.plate_values
        return tuple(say.plate_value(name, records[name].name, _rating(job, name, plate[name])) for name in plate)

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        return super().put_again(job, recorded) if job.machine else None

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        """The plate's values, and what of the answers is told beside them, such as the altitude."""
        answers = at_hand.answers
        conditions = conditions_behind_limits(job.base)
        told = {name: text for name, text in answers.answers.items() if name in conditions}
        told = {name: text for name, text in told.items() if not CANNOT_TELL.fullmatch(text.strip())}
        return [*(f"{name} {text}" for name, text in {**answers.plate, **told}.items()), "ok"]

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        plate = job.machine.plate if job.machine else {}
        for choice in job.prompt.choices:
            if choice in plate:
                now = show(plate[choice], job.base.plate_values[choice].unit or None, job.shop.system)
                yield f"{choice} ", f"{choice} (now {now})"
            else:
                yield choice, ""


def plate_prompt(job: Job) -> tuple[str, tuple[str, ...]]:
    """The plate values and the features that limits rest on, with what may be typed."""
    assert job.machine is not None
    system = job.shop.system
    lines = _in_two_columns([f"  {name:<24}{_rating(job, name, value)}" for name, value in job.machine.plate.items()])
    features = features_behind_limits(job.base)
    for name, values in features.items():
        now = job.machine.features[name]
        others = ", ".join(value for value in values if value != now)
        unsaid = say.AS_NO_COUNTRY_IS_SAID if now == STRICTEST else ""
        lines.append(f"  {name:<24}{now}{unsaid} (or {others})")
    conditions = conditions_behind_limits(job.base)
    for name, assumed in conditions.items():
        given = job.answer_to(name)
        told = given.quantity if given is not None else None
        now = f"{show(assumed, system=system)} assumed" if told is None else show(told, system=system)
        lines.append(f"  {name:<24}{now}")
    if job.shop.people:
        lines.append(f"  {'serial':<24}{say.KEPT_AS_A_KEY if job.serial_key else 'not said'}")
    head = say.COMPARE_WITH_THE_PLATE
    return "\n".join([head, *lines]), ("ok", *job.machine.plate, *features, *conditions)


def _named(job: Job, text: str) -> tuple[str, str]:
    """What a line names, by its word or by the words of its printed name, and the value for it."""
    name, _, value = text.partition(" ")
    name, value = name.casefold().strip("=:"), value.strip(" =:")
    words = {
        one: record.name for one, record in job.base.plate_values.items() if job.machine and one in job.machine.plate
    }
    home = job.shop.home.words.values() if job.shop.home else ()
    if name in {*words, *features_behind_limits(job.base), *conditions_behind_limits(job.base), *home, "serial"}:
        return name, value
    parts = text.replace("=", " ").replace(":", " ").split()
    for end in range(len(parts) - 1, 0, -1):
        if meant := outcome_meant(" ".join(parts[:end]), words):
            return meant, " ".join(parts[end:])
    return name, value


def _rating(job: Job, name: str, value: Quantity) -> str:
    """A rating as shown; a cord in a US shop by its gauge."""
    gauge = shown_as_awg(value.value) if value.kind == "area" and job.shop.system == "us" else ""
    return gauge or show(value, _unit(job, name), job.shop.system)


def _in_two_columns(lines: list[str]) -> list[str]:
    """One below the other, then side by side: the whole plate has to stand on a screen of 24 lines."""
    half = (len(lines) + 1) // 2
    return [f"{left:<40}{right}".rstrip() for left, right in zip_longest(lines[:half], lines[half:], fillvalue="")]


def take_plate(turn: Turn, text: str) -> bool:
    """One line at the plate prompt; True when more may follow. Raises NotAnAnswer."""
    job = turn.job
    if not text:
        raise NotAnAnswer(say.PLATE_UNREAD)
    if text.casefold() in {"ok", "yes", "y"}:
        return False
    name, value = _named(job, text)
    if job.shop.home is not None:
        # As it is shown here, where the trade has another word for it.
        name = next((ours for ours, theirs in job.shop.home.words.items() if theirs == name), name)
    if name == "serial":
        _take_serial(turn, value)
    elif name in features_behind_limits(job.base):
        set_feature(turn, name, value)
        judge_again(turn, f"machine.{name}")
    elif name in conditions_behind_limits(job.base):
        take_answer(turn, _condition(job, name, value))
    else:
        set_plate_value(turn, name, value)
        judge_again(turn, f"plate.{name}")
    return True


SERIAL_KEY = "key:"  # what a serial number is replaced with before it comes here


def _take_serial(turn: Turn, text: str) -> None:
    """The key of the serial number; the number itself is never kept. Raises NotAnAnswer."""
    if not text.startswith(SERIAL_KEY) or text == SERIAL_KEY:
        raise NotAnAnswer(say.NO_SERIAL_NUMBER)
    turn.job.serial_key = text.removeprefix(SERIAL_KEY)
    turn.tell(say.SERIAL_KEPT_AS_A_KEY)


def _condition(job: Job, name: str, text: str) -> Given:
    """The answer that a condition told at the plate is. Raises NotAnAnswer."""
    try:
        return read_answer(job, job.base.questions[name], text)
    except NotAnAnswer as problem:
        # At this prompt nothing has to be said about it, so there is nothing to be unable to tell.
        what = str(problem).removesuffix(say.OR_CANT_TELL)
        raise NotAnAnswer(f"{name}: {what}") from None


def set_feature(turn: Turn, name: str, text: str) -> None:
    """Replace a feature of the type, such as its protection class. Raises NotAnAnswer."""
    job = turn.job
    assert job.machine is not None
    values = job.base.features[name].values
    word = text.casefold().replace(" ", "_")
    if word not in values:
        raise NotAnAnswer(say.none_of_its_values(name, echo(text), ", ".join(values)))
    conclude(turn, job.state.take_back("machine data"))
    set_machine(turn, replace(job.machine, features={**job.machine.features, name: word}))
    turn.tell(say.of_local_codes(job.base.features[name].name, word))


def set_plate_value(turn: Turn, name: str, text: str) -> None:
    """Replace a value of the type by that of the plate. Raises NotAnAnswer."""
    job = turn.job
    assert job.machine is not None
    if name not in job.machine.plate:
        known = ", ".join((*job.machine.plate, *features_behind_limits(job.base), *conditions_behind_limits(job.base)))
        raise NotAnAnswer(say.no_plate_value(echo(name), known))
    quantity = _told(turn, name, text)
    _refuse_absurd(job, name, quantity)
    before = job.machine
    job.machine = replace(before, plate={**before.plate, name: quantity})
    trouble = _what_no_longer_works(job, name)
    if trouble:
        job.machine = before
        raise NotAnAnswer(f"{name}: {trouble}.")
    _tell_if_parts_exceed_whole(turn, name)


def _refuse_absurd(job: Job, name: str, quantity: Quantity) -> None:
    """Raise NotAnAnswer for a rating beyond belief or ten times off the type's: limits on it would pass anything."""
    assert job.machine is not None
    usual = job.machine.plate[name]
    span = job.base.plate_values[name].believable
    if span is not None and not span[0].value <= quantity.value <= span[1].value:
        low, high, shown = (show(value, _unit(job, name), job.shop.system) for value in (*span, quantity))
        raise NotAnAnswer(say.beyond_belief_on_a_plate(name, shown, low, high))
    if usual.kind == "temperature" or min(usual.value, quantity.value) <= 0:
        return
    if not 1 / MOST_TIMES_OFF <= quantity.value / usual.value <= MOST_TIMES_OFF:
        system = job.shop.system
        shown, type_shown = (show(value, _unit(job, name), system) for value in (quantity, usual))
        raise NotAnAnswer(say.cannot_be_right_for_type(name, shown, type_shown))


def _told(turn: Turn, name: str, text: str) -> Quantity:
    """The value meant by the text: a number, or the middle of a range. Raises NotAnAnswer."""
    job = turn.job
    record = job.base.plate_values[name]
    system = job.shop.system
    unit = KINDS[record.kind].us if system == "us" and KINDS[record.kind].us else record.unit
    try:
        quantity = middle_of_range(turn, name, record.kind, text)
        if quantity is None:
            quantity = read_quantity(text, record.kind, unit, system)
            forget_range(job, name)
        believable(quantity, system)
    except NotAQuantity as problem:
        raise NotAnAnswer(f"{name}: {problem}") from None
    if quantity.value == float("inf"):
        raise NotAnAnswer(say.over_range_on_a_plate(name))
    return quantity


def _tell_if_parts_exceed_whole(turn: Turn, name: str) -> None:
    """The plate's power is that of the whole machine; taken for the element's it makes a sound element look wrong."""
    job = turn.job
    assert job.machine is not None
    records, plate = job.base.plate_values, job.machine.plate
    whole = records[name].part_of or name
    parts = [part for part in records.values() if part.part_of == whole and part.id in plate]
    if whole not in plate or not parts or sum(plate[part.id].value for part in parts) <= plate[whole].value * 1.005:
        return
    listed = " and ".join(f"{part.id} {show(plate[part.id], _unit(job, part.id), job.shop.system)}" for part in parts)
    most = show(plate[whole], _unit(job, whole), job.shop.system)
    turn.tell(say.parts_exceed_the_whole(listed, whole, most))


def _what_no_longer_works(job: Job, name: str) -> str:
    """Why a limit that rests on this plate value can no longer be worked out, or ''."""
    for record in job.base.work_outs.values():
        if f"plate.{name}" in record.formula.names:
            try:
                value_of(job, record.id)
            except NotKnown:
                continue
            except CannotWorkOut as problem:
                return str(problem)
    return ""


def _unit(job: Job, name: str) -> str | None:
    """The unit shown: that of the rating, or in a US shop the one that is usual there."""
    record = job.base.plate_values[name]
    return None if job.shop.system == "us" and KINDS[record.kind].us else record.unit or None
