"""Intake: who, which machine, its plate, the complaints, live work, how it stands."""

from __future__ import annotations

from expert.engine.bench import bench_state
from expert.job.answers.mistyped import is_squeezed_command, names_meant
from expert.job.answers.reading import CANNOT_TELL, NO, YES, NotAnAnswer
from expert.job.prompts.plate import plate_prompt, set_machine, take_plate
from expert.job.state.inference import conclude
from expert.job.state.job import Job, Phase, Prompt, Turn
from expert.language.model import Complaint
from expert.trace.records import Moved, Put
from expert.trade.quantities.units import echo

FIELDS = ("technician", "machine", "plate", "complaints", "qualified", "arrives")


def put_intake(turn: Turn, name: str) -> None:
    """Put one of the intake prompts."""
    job = turn.job
    text, choices = _PROMPTS[name](job)
    turn.add(Put("intake", name, text))
    job.prompt = Prompt("intake", name, choices)


def answer_intake(turn: Turn, line: str) -> None:
    """Take one intake line and put the next prompt. Raises NotAnAnswer."""
    name = turn.job.prompt.subject
    if CANNOT_TELL.fullmatch(line.strip()):
        raise NotAnAnswer(_NOT_KNOWN[name])
    stay = _TAKERS[name](turn, line.strip())
    if stay:
        put_intake(turn, name)
        return
    position = FIELDS.index(name)
    if position + 1 < len(FIELDS):
        put_intake(turn, FIELDS[position + 1])
    else:
        turn.job.phase = Phase.SAFE
        turn.job.prompt = Prompt("")


OTHER_WORDS = "Type other words, or list to see all."
_NOT_KNOWN = {
    "technician": "A name is needed for the record. Type your name or your initials.",
    "machine": "The type must be known: limits and tests depend on it. Compare the layout, then type a number.",
    "plate": "If the plate cannot be read, type ok: the values of the machine type are used.",
    "complaints": "Type what the customer said, in a few words, or list to see all complaints.",
    "qualified": "In doubt, type no: then nothing is asked with the covers off and the mains on.",
    "arrives": "Look at the machine, and type the number of the line that fits.",
}

# ---------------------------------------------------------------- the prompts


def _technician(job: Job) -> tuple[str, tuple[str, ...]]:
    return "Who is at the bench? Type your name.", ()


def _machine(job: Job) -> tuple[str, tuple[str, ...]]:
    lines = [f"  {number}  {machine.title}" for number, machine in enumerate(job.base.machines.values(), 1)]
    return "\n".join(["Which machine type is it? Type its number.", *lines]), tuple(job.base.machines)


def _complaints(job: Job) -> tuple[str, tuple[str, ...]]:
    return (
        "What is the complaint? Type a few words, or list to see all. Several: separate them by a comma."
        if not job.complaints
        else "Another complaint? Type it, or ok to go on."
    ), ("list", "ok", *job.base.complaints)


def _qualified(job: Job) -> tuple[str, tuple[str, ...]]:
    return (
        "Are you qualified for live work on mains, by your local rules? Type yes or no. "
        "With no, nothing is asked with the covers off and the mains on."
    ), ("yes", "no")


def _arrives(job: Job) -> tuple[str, tuple[str, ...]]:
    lines = [f"  {number}  {arrival.say}" for number, arrival in enumerate(job.base.bench.arrives.values(), 1)]
    return "\n".join(["How does the machine stand now?", *lines]), tuple(job.base.bench.arrives)


_PROMPTS = {
    "technician": _technician,
    "machine": _machine,
    "plate": plate_prompt,
    "complaints": _complaints,
    "qualified": _qualified,
    "arrives": _arrives,
}


# ---------------------------------------------------------------- taking the lines (True: ask the same again)


def _take_technician(turn: Turn, text: str) -> bool:
    # Anything with a letter may be a name, but for a command that only lacks its space.
    if not any(map(str.isalpha, text)) or is_squeezed_command(text):
        raise NotAnAnswer("A name is needed for the record. Type your name or your initials.")
    turn.job.technician = text[:60]
    return False


def _take_machine(turn: Turn, text: str) -> bool:
    machines = list(turn.job.base.machines.values())
    chosen = _pick(text, [machine.id for machine in machines])
    if chosen is None:
        meant = names_meant(text, {machine.id: f"{machine.id} {machine.title}" for machine in machines})
        hint = _numbered_meant([(machine.id, machine.title) for machine in machines], meant)
        raise NotAnAnswer(f"{echo(text)} is no machine type.{hint} Type {_numbers_up_to(len(machines))}.")
    set_machine(turn, turn.job.base.machines[chosen])
    return False


def _take_complaints(turn: Turn, text: str) -> bool:
    job = turn.job
    word = text.casefold()
    if word in {"ok", "no", "n", ""} and job.complaints:
        rule_out_the_rest(turn)
        return False
    if word == "list":
        turn.tell(*(f"{number:>3}  {c.name}" for number, c in enumerate(job.base.complaints.values(), 1)))
        return True
    if word in {"ok", ""} | NO | YES:
        raise NotAnAnswer("Type it in a few words, or ok to go on." if job.complaints else _NOT_KNOWN["complaints"])
    chosen: list[str] = []
    for part in text.split(","):
        fitting = matching_complaints(job, part)
        if len(fitting) > 1:
            numbers = list(job.base.complaints)
            turn.tell("Which of these? Type its number.")
            turn.tell(*(f"{numbers.index(c.id) + 1:>3}  {c.name}" for c in fitting))
            return True
        if not fitting:
            hint = _complaints_meant(job, part)
            others = "Type other words, list to see all, or ok to go on." if job.complaints else OTHER_WORDS
            raise NotAnAnswer(f"{echo(part.strip())} fits no complaint.{hint} {others}")
        chosen.append(fitting[0].id)
    add_complaints(turn, chosen)
    return True


def add_complaints(turn: Turn, chosen: list[str]) -> None:
    """Take complaints as reported."""
    job = turn.job
    for complaint in chosen:
        if complaint not in job.complaints:
            job.complaints = (*job.complaints, complaint)
            turn.tell(f"Complaint: {job.base.complaints[complaint].name}.")
            conclude(turn, job.state.narrow(f"complaint {complaint}", f"complaint.{complaint}", ("yes",)))
        else:
            turn.tell(f"Already noted: {job.base.complaints[complaint].name}.")


def rule_out_the_rest(turn: Turn) -> None:
    """Once the complaints are taken, every other one is known not to be reported: rules may rest on that."""
    job = turn.job
    for complaint in job.base.complaints:
        if complaint not in job.complaints:
            conclude(turn, job.state.narrow(f"complaint {complaint}", f"complaint.{complaint}", ("no",)))


def matching_complaints(job: Job, text: str) -> list[Complaint]:
    """The complaints that a number, an id or a few words may mean; the best match alone when it is clear."""
    complaints = list(job.base.complaints.values())
    picked = _pick(text, [complaint.id for complaint in complaints])
    if picked is not None:
        return [job.base.complaints[picked]]
    scored = [(_score(complaint, text.casefold().strip()), complaint) for complaint in complaints]
    best = max((score for score, _ in scored), default=0)
    return [complaint for score, complaint in scored if score == best][:9] if best else []


def _score(complaint: Complaint, phrase: str) -> int:
    """How many of the words stand in the complaint's name or in how customers put it; a known phrase counts most."""
    known = [text.casefold() for text in (complaint.name, *complaint.words)]
    if phrase in known:
        return 100
    text = " ".join(known)
    return sum(word in text for word in phrase.replace("'", "").split() if len(word) > 2)


def _take_qualified(turn: Turn, text: str) -> bool:
    word = text.casefold()
    if word not in YES | NO:
        raise NotAnAnswer(f"{echo(text)} is no answer here. Type yes or no; in doubt, no.")
    turn.job.qualified = word in YES
    return False


def _take_arrives(turn: Turn, text: str) -> bool:
    bench = turn.job.base.bench
    chosen = _pick(text, list(bench.arrives))
    if chosen is None:
        raise NotAnAnswer(f"{echo(text)} is no answer here. Look, and type {_numbers_up_to(len(bench.arrives))}.")
    turn.job.bench = bench_state(bench, bench.arrives[chosen].state)
    turn.add(Moved(f"arrives {chosen}", dict(turn.job.bench), 0.0))
    return False


_TAKERS = {
    "technician": _take_technician,
    "machine": _take_machine,
    "plate": take_plate,
    "complaints": _take_complaints,
    "qualified": _take_qualified,
    "arrives": _take_arrives,
}


def _numbers_up_to(count: int) -> str:
    return "1" if count == 1 else f"a number from 1 to {count}"


def _numbered_meant(listed: list[tuple[str, str]], meant: list[str]) -> str:
    """The entries that were likely meant, each with its number in the list; '' when there is none."""
    names = [f"{number} {name}" for number, (key, name) in enumerate(listed, 1) if key in meant]
    return f" Did you mean: {', or '.join(names)}?" if names else ""


def _complaints_meant(job: Job, part: str) -> str:
    complaints = list(job.base.complaints.values())
    meant = names_meant(part, {c.id: " ".join((c.id, c.name, *c.words)) for c in complaints})
    return _numbered_meant([(c.id, c.name) for c in complaints], meant)


def _pick(text: str, ids: list[str]) -> str | None:
    """The id meant by itself or by its number in the list."""
    word = text.strip().casefold()
    if word in ids:
        return word
    if word.isdecimal() and len(word) < 4 and 1 <= int(word) <= len(ids):
        return ids[int(word) - 1]
    return None
