"""Close: how the job ended, parts, note. Then nothing more is asked."""

from __future__ import annotations

from expert.engine.bench import satisfies
from expert.job.answers.mistyped import is_slip
from expert.job.answers.reading import NO, NotAnAnswer
from expert.job.prompts.danger import make_safe
from expert.job.state.after_opening import not_shown_safe, not_shown_safe_in_words, tests_before_return
from expert.job.state.bench import state_in_words
from expert.job.state.job import Job, Phase, Prompt, Turn
from expert.job.state.situation import picture_of
from expert.job.wording.customer import customer_summary
from expert.job.wording.explaining import answer_in_words, repairs_in_words
from expert.trace.records import Closed, CustomerTold, HandedOver, Put
from expert.trade.quantities.units import echo

ENDINGS = {
    "repaired": "repaired and proved",
    "repaired_unproved": "repaired, not fully proved: do not hand out before it is",
    "normal": "no fault: normal behaviour",
    "normal_untested": "no fault: normal behaviour; opened and not shown safe: do not hand out before it is",
    "unrepaired": "returned unrepaired",
    "beyond_repair": "beyond repair",
    "handed_over": "handed over",
    "stopped": "stopped for danger: not to be used",
}


def endings_open_to(job: Job) -> tuple[str, ...]:
    """The endings this job may honestly have; the likeliest first."""
    if job.outcome == "stopped":
        return ("stopped", "handed_over", "beyond_repair")
    rest = ("unrepaired", "beyond_repair", "handed_over")
    results = {question: passed for question, _, passed in job.proofs}
    if job.repaired and all(job.repaired.values()) and all(results.values()) and not job.declined:
        return ("repaired", *rest)
    if job.repaired and False not in job.repaired.values() and not job.declined:
        return ("repaired_unproved", *rest)
    # Where a danger was met, also one that was dealt with, nothing was as it should be.
    if job.outcome == "normal" and not job.dangers_met:
        return ("normal_untested" if not_shown_safe(job) else "normal", *rest)
    return rest


def close_on(turn: Turn) -> None:
    """Bring the bench to its safe state, then put the next closing prompt, or close."""
    job = turn.job
    # No job is closed while the machine is plugged in: either the plug is out, or somebody answers for it.
    if not make_safe(turn, then=""):
        return
    if "ending" not in job.closing and tests_before_return(turn):
        return
    if "ending" not in job.closing:
        turn.tell(*(f"! {line}" for line in not_shown_safe_in_words(job)))
        lines = [f"  {number}  {ENDINGS[name]}" for number, name in enumerate(endings_open_to(job), 1)]
        _put(turn, "ending", "\n".join(["How does the job end? Type the number.", *lines]), endings_open_to(job))
    elif "parts" not in job.closing:
        planned = ", ".join(job.parts_used) or "none"
        _put(turn, "parts", f"Parts used: {planned}. Type ok, or the list as it really was.", ("ok", "none"))
    elif "minutes" not in job.closing:
        _put(
            turn,
            "minutes",
            f"Minutes spent: about {job.minutes:.0f} by the book. Type ok, or the real number.",
            ("ok",),
        )
    elif "note" not in job.closing:
        _put(turn, "note", "Anything the next person should know? Type it, or no.", ("no",))
    else:
        finish(turn, job.closing["ending"])


def _put(turn: Turn, name: str, text: str, choices: tuple[str, ...]) -> None:
    turn.add(Put("close", name, text))
    turn.job.prompt = Prompt("close", name, choices)


def answer_close(turn: Turn, line: str) -> None:
    """Take a closing line. Raises NotAnAnswer."""
    job = turn.job
    name, text = job.prompt.subject, line.strip()
    if name == "ending":
        names = endings_open_to(job)
        word = text.casefold()
        if word.isdecimal() and len(word) < 3 and 1 <= int(word) <= len(names):
            word = names[int(word) - 1]
        if word not in names:
            raise NotAnAnswer(f"{echo(text)} is no answer here. Type a number from 1 to {len(names)}.")
        job.closing["ending"] = word
    elif name == "minutes":
        job.minutes = _minutes(job, text)
        job.closing["minutes"] = f"{job.minutes:g}"
    elif name == "parts":
        if is_slip(text):
            raise NotAnAnswer(f"{echo(text)} names no part. Type ok, none, or the parts, separated by commas.")
        if text.casefold() == "none":
            job.parts_used = ()
        elif text.casefold() not in {"ok", ""}:
            job.parts_used = tuple(part.strip()[:80] for part in text.split(",") if part.strip())
        job.closing["parts"] = "ok"
    else:
        # The job is sealed after it: a mistyped command must not end it.
        if is_slip(text):
            raise NotAnAnswer(f"{echo(text)} is no remark. Type it in a few more words, or no.")
        job.closing["note"] = "" if text.casefold() in {*NO, "ok", ""} else text[:2000]


def _minutes(job: Job, text: str) -> float:
    if text.casefold() in {"ok", ""}:
        return round(job.minutes)
    try:
        minutes = float(text.replace(",", "."))
    except ValueError:
        minutes = -1.0
    if not 0 <= minutes <= 10_000:
        raise NotAnAnswer(f"{echo(text)} is no number of minutes. Type one such as 45, or ok.")
    return minutes


def finish(turn: Turn, ending: str) -> None:
    """The last record of the dialogue; the terminal seals the trace after it."""
    job = turn.job
    job.phase = Phase.DONE
    job.prompt = Prompt("done")
    job.closing["ending"] = ending
    turn.add(CustomerTold(customer_summary(job, ending)))
    turn.add(Closed(ending, round(job.minutes, 1), job.parts_used, job.closing.get("note", "")))


def hand_over(turn: Turn) -> None:
    """End here with a summary from which somebody else can go on."""
    job = turn.job
    if job.outcome != "stopped":
        job.outcome = "handed_over"
    turn.add(HandedOver("\n".join(summary(job))))
    warn_if_not_safe(turn)
    finish(turn, "handed_over")


def warn_if_not_safe(turn: Turn) -> None:
    """Nobody walks away from a machine that is still plugged in without being told."""
    job = turn.job
    if job.bench and not satisfies(job.bench, job.base.bench.safe):
        turn.tell(f"! The machine is not safe to leave: {state_in_words(job)}. Unplug it and keep the plug in sight.")


def summary(job: Job) -> list[str]:
    """Where the job stands: complaints, what was found, who is still under suspicion, the answers."""
    base = job.base
    picture = picture_of(job)
    lines = ["Complaints: " + ("; ".join(base.complaints[c].name for c in job.complaints) or "none yet")]
    lines += [f"Bench: {state_in_words(job)}"] if job.bench else []
    lines += repairs_in_words(job)
    lines += [f"Found: {job.fault_name(fault)}" for fault in picture.confirmed]
    lines += [f"Danger: {text}" for text in job.dangers_met.values()]
    lines += [f"Still possible: {job.fault_name(suspect.fault)}" for suspect in picture.suspects[:5]]
    lines += [
        f"{given.number}. {base.questions[given.question].ask} {answer_in_words(job, given)}"
        for given in job.given.values()
        if given.holds
    ]
    lines += [f"Still to be proved: {base.questions[question].ask}" for question in job.to_prove]
    lines += [f"Not answered: {base.questions[question].ask} {why}".rstrip() for question, why in job.cannot.items()]
    lines += not_shown_safe_in_words(job)
    lines += [f"Could not be done: {move.say}" for move in base.bench.moves if move.id in job.impossible]
    return lines
