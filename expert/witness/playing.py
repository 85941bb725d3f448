"""A whole job on the simulated machine: the real dialogue asks, the machine answers, hands follow what is asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from expert.desk.opening import shop_of
from expert.desk.unattended import with_machine
from expert.engine.knowledge import Knowledge
from expert.job.answers.sound import CANNOT_TELL
from expert.job.beginning import begin
from expert.job.prompts.owner import Unattended
from expert.job.prompts.registry import owner_at
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.language.model import Machine as MachineType
from expert.language.model import Measure, Question
from expert.language.model.job_answers import JobAnswers
from expert.machine import (
    Alter,
    Build,
    CoolDown,
    Covers,
    FillTank,
    HeatUp,
    Machine,
    Mend,
    Plug,
    PutAllBack,
    PutBack,
    ResetLimit,
    Switch,
    Vent,
    do,
)
from expert.machine.faults.catalogue import PARTS
from expert.trace.records import Found, Record, Said, Told
from expert.witness.answering import answer
from expert.witness.consequences import consequences
from expert.witness.table import Table

MOST_LINES = 600
SENIOR = "dealt with by Iris Senior"
LEADS = ("element.a", "element.b")
SENSORS = {"ntc 10k": ("ntc", "10 kohm", "3977"), "ntc 50k": ("ntc", "50 kohm", "3950"), "pt1000": ("platinum", "", "")}

# Whether the answer to a question is spoilt on purpose, and how: the question, the line that the machine gives.
Slip = Callable[[Job, str, str], str]


@dataclass
class Played:
    """A job played to its end: the job, its records, the machine as it came in and as it went out.

    `answers`: question and line typed, in order. `untold`: questions the machine could not answer, and why.
    `mended`: parts of the machine put right, whether or not they were at fault. `typed`: every line, in order, so that
    the same job can be typed again. `searched`: what was typed at the tests before a repair and between two, and
    `minutes`: what that took, bench moves included. `named`: for each fault found, how many tests and minutes of these
    came before. `happened`: parts of the rules that were at any time as something else had made them.
    """

    job: Job
    records: list[Record]
    before: Machine
    machine: Machine
    answers: list[tuple[str, str]] = field(default_factory=list)
    untold: dict[str, str] = field(default_factory=dict)
    mended: set[str] = field(default_factory=set)
    typed: list[str] = field(default_factory=list)
    searched: list[tuple[str, str]] = field(default_factory=list)
    minutes: float = 0.0
    named: dict[str, tuple[int, float]] = field(default_factory=dict)
    wanted_senior: int = 0
    stuck: str = ""
    trips_told: int = 0
    happened: set[str] = field(default_factory=set)


def plate_lines(build: Build) -> dict[str, str]:
    """The plate's values as they are typed for a machine of this build."""
    volts, plate = build.plate.volts, build.plate
    lines = {
        "rated_voltage": f"{volts:g} V",
        "rated_power": f"{plate.watts:g} W",
        "element_power": f"{plate.element_watts:g} W",
        "pump_power": "50 W",
        "boiler_volume": "1.9 L",
        "tank_volume": "3 L",
        "set_temperature": "121 degC",
        "high_limit_temperature": "135 degC",
        "safety_valve_pressure": "2.0 bar",
        "brew_pressure": "9.5 bar",
        "fill_coil": f"{1000 * (volts / 230) ** 2:.0f} ohm",
        "free_flow": "7 ml/s",
        "altitude": f"{build.altitude:g} m",
        "room_temperature": f"{build.room:g} degC",
    }
    _, r25, beta = SENSORS[build.sensor]
    return lines | ({"sensor_r25": r25, "sensor_beta": beta} if r25 else {})


HOT = 90.0  # degC: a wall that nobody leaves a hand near


def play_on(
    knowledge: Knowledge,
    table: Table,
    machine: Machine,
    complaints: tuple[str, ...],
    qualified: bool = False,
    slip: Slip = lambda job, question, line: line,
) -> Played:
    """Play a job on this machine, which stands cold and unplugged."""
    return _go_on(knowledge, table, machine, complaints, qualified, slip, lambda job: job.phase is Phase.DONE)


def take_in(
    knowledge: Knowledge, table: Table, machine: Machine, complaints: tuple[str, ...], qualified: bool = False
) -> Played:
    """The same job when its intake is over, before a test is made."""
    return _go_on(
        knowledge, table, machine, complaints, qualified, lambda job, question, line: line, lambda job: bool(job.bench)
    )


def _go_on(
    knowledge: Knowledge,
    table: Table,
    machine: Machine,
    complaints: tuple[str, ...],
    qualified: bool,
    slip: Slip,
    ended: Callable[[Job], bool],
) -> Played:
    type_ = fitted(knowledge.base.machines[table.machine], machine.build)
    knowledge = with_machine(knowledge, type_)
    wanted = plate_lines(machine.build)
    answers = JobAnswers(table.machine, type_, complaints, {}, {}, qualified, "", "", {})
    job, opening = begin(knowledge, shop_of(knowledge), "witness")
    played = Played(job, list(opening), machine, machine, trips_told=_trips(machine))
    at_hand = Unattended(answers)
    for _ in range(MOST_LINES):
        if ended(played.job):
            return played
        played.happened |= consequences(played.machine)
        for line in _lines(played, table, at_hand, wanted, slip):
            _say(played, line)
    played.stuck = f"not ended after {MOST_LINES} lines, at {played.job.prompt}"
    return played


def _lines(played: Played, table: Table, at_hand: Unattended, wanted: Mapping[str, str], slip: Slip) -> list[str]:
    job = played.job
    prompt, owner = job.prompt, owner_at(job)
    before, played.trips_told = played.trips_told, _trips(played.machine)
    if job.bench and played.trips_told > before:
        # What trips while a test is made is told as the caution wants it told.
        return ["danger tripped"]
    if prompt.kind == "intake" and prompt.subject == "plate":
        return [*(f"{name} {text}" for name, text in wanted.items() if _is_told_here(job, name)), "ok"]
    if len(job.round_put) > 1 and job.round_put[0] == prompt.subject:
        return [_round(played, table, wanted, slip)]
    question = owner.test(job)
    if question is not None:
        return [_look(played, table, wanted, slip, question)]
    if prompt.kind == "move" and _makes_hot(job):
        # Nobody says that it is hot of a boiler that stays cold.
        played.machine = do(played.machine, HeatUp(minutes=25.0, settle=3.0))
        if played.machine.state.boiler < HOT:
            return ["no"]
    if prompt.kind == "danger" and played.wanted_senior < 3:
        played.wanted_senior += 1
        return [SENIOR]
    if prompt.kind == "repair" and prompt.subject not in at_hand.tried:
        at_hand.tried.append(prompt.subject)
        part = job.base.faults[prompt.subject].part
        played.machine = repaired(played.machine, table, part, prompt.subject)
        played.mended |= set(table.parts.get(part, ()))
        return ["done"]
    return owner.unattended(job, at_hand)


def _look(played: Played, table: Table, wanted: Mapping[str, str], slip: Slip, question: Question) -> str:
    """What the machine shows for a question, as it is typed."""
    if question.bench.get("boiler") == "hot" and played.machine.bench.plugged:
        # "Hot" and "settled" are waited for: a draw of steam or an hour of tests has cooled it since the move.
        played.machine = do(played.machine, HeatUp(minutes=15.0, settle=1.0))
    told = answer(played.machine, question, table.lines.get(question.id))
    played.machine = told.machine
    if told.why:
        played.untold[question.id] = told.why
    line = slip(played.job, question.id, told.text)
    if line == CANNOT_TELL and question.id in wanted:
        line = wanted[question.id]
    played.answers.append((question.id, line))
    return line


def _round(played: Played, table: Table, wanted: Mapping[str, str], slip: Slip) -> str:
    """What is typed for tests that are put in one round: all readings; or that all looks are sound, or the first that
    is not."""
    job = played.job
    tests = [job.base.questions[name] for name in job.round_put]
    if isinstance(tests[0].form, Measure):
        return "; ".join(_look(played, table, wanted, slip, question) for question in tests)
    for number, question in enumerate(tests, 1):
        line = _look(played, table, wanted, slip, question)
        if line not in question.sound:
            if number > 1:
                played.answers.pop()  # it is put by itself
            return line if number == 1 else f"not {number}"
    return f"{len(tests)} sound"


def fitted(type_: MachineType, build: Build) -> MachineType:
    """The machine type with the sort of sensor that this build has, which no plate states."""
    return replace(type_, features={**type_.features, "sensor": SENSORS[build.sensor][0]})


def _trips(machine: Machine) -> int:
    """How much of what protects the machine has acted."""
    state = machine.state
    return state.rcd_tripped + state.fuse_blown + state.board_fuse_blown


def _makes_hot(job: Job) -> bool:
    return any(move.id == job.prompt.subject and move.makes.get("boiler") == "hot" for move in job.base.bench.moves)


def _is_told_here(job: Job, name: str) -> bool:
    return any(name == choice or choice.startswith(name) for choice in job.prompt.choices)


def repaired(machine: Machine, table: Table, part: str, fault: str) -> Machine:
    """The machine after this fault of the rules was repaired: the part is right, whether or not it was at fault."""
    if fault == "control_board.locked":
        return machine  # the mains were off: the lock is gone, and nothing else of the board is mended
    if fault == "high_limit.tripped":
        return do(do(machine, ResetLimit(1)), ResetLimit(2))
    for name in table.parts.get(part, ()):
        if name in PARTS:
            machine = do(machine, Mend(name))
    return machine


def _say(played: Played, line: str) -> None:
    before = played.job
    played.typed.append(line)
    after, records = step(before, line)
    refused = after.prompt == before.prompt and bool(records) and all(isinstance(record, Told) for record in records)
    if refused and before.phase is not Phase.INTAKE and line != CANNOT_TELL:
        said = " ".join(record.text for record in records if isinstance(record, Told))
        played.untold[before.prompt.subject] = f"{line!r} was refused: {said}"
        played.typed.append(CANNOT_TELL)
        line = CANNOT_TELL
        after, records = step(before, line)
    if before.phase in (Phase.SAFE, Phase.FIND):
        played.minutes += after.minutes - before.minutes
        if owner_at(before).test(before) is not None:
            played.searched.append((before.prompt.subject, played.typed[-1]))
    for record in records:
        if isinstance(record, Found) and record.standing != "narrowed":
            played.named.setdefault(record.fault, (len(played.searched), played.minutes))
    played.job = after
    played.records += (Said(line), *records)
    if after.bench != before.bench and after.bench:
        played.machine = brought_to(played.machine, dict(after.bench), dict(before.bench))


def brought_to(machine: Machine, wanted: Mapping[str, str], before: Mapping[str, str]) -> Machine:
    """The machine in a bench state: what a technician does who follows the moves."""
    if wanted.get("mains") == "isolated" and machine.bench.plugged:
        machine = do(machine, Plug(False))
    if wanted.get("altered") == "nothing" and before.get("altered") not in (None, "nothing"):
        machine = do(machine, PutAllBack())
    if wanted.get("element") != before.get("element", "connected"):
        for lead in LEADS:
            off = wanted.get("element") == "off"
            machine = do(machine, Alter("lift", lead) if off else PutBack("lift", lead))
    if wanted.get("pressure") == "none" and before.get("pressure") == "some":
        machine = do(machine, Vent())
    if wanted.get("boiler") == "cold" and before.get("boiler") in ("warm", "hot"):
        machine = do(machine, CoolDown(40.0))
    if (wanted.get("covers") == "off") != machine.bench.covers_off:
        machine = do(machine, Covers(wanted.get("covers") == "off"))
    if wanted.get("mains") == "on" and not machine.bench.plugged:
        machine = do(do(do(machine, FillTank()), Plug(True)), Switch(True))
    if wanted.get("boiler") == "hot" and before.get("boiler") != "hot" and machine.bench.plugged:
        machine = do(machine, HeatUp(minutes=25.0, settle=3.0))
    return machine
