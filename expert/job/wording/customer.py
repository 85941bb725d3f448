"""The summary for the customer in plain words: what was wrong, what was done, what to watch. Printable text."""

from __future__ import annotations

from expert.job.state.after_opening import not_shown_safe_in_words
from expert.job.state.job import Job
from expert.job.wording.explaining import reading_in_words

CLOSING_LINES = {
    "repaired": "The repair was tested and holds. The safety tests after repair are listed below.",
    "repaired_unproved": "The repair is done, but not every test could be made. "
    "The machine must not be used before they are.",
    "normal": "No fault was found. What was noticed is how a sound machine of this type behaves.",
    "normal_untested": "No fault was found. What was noticed is how a sound machine of this type behaves.",
    "unrepaired": "The machine goes back unrepaired.",
    "beyond_repair": "The machine is beyond repair.",
    "handed_over": "The work is not finished. It was handed to a colleague.",
    "stopped": "The work was stopped because the machine is dangerous. It must not be used.",
}


def customer_summary(job: Job, ending: str) -> tuple[str, ...]:
    """The lines of the summary."""
    base = job.base
    title = job.machine.title if job.machine else "not recorded"
    lines = [f"Job {job.number}. Machine: {title}.", "You reported:"]
    lines += [f"  - {base.complaints[complaint].name}" for complaint in job.complaints]
    wrong = [fault for fault, standing in job.found.items() if standing != "narrowed"]
    if wrong:
        lines.append("What was wrong:")
        lines += [f"  - {job.fault_name(fault)}" for fault in wrong]
    if job.repaired:
        lines.append("What was done:")
        lines += [
            f"  - {job.fault_name(fault)}: repaired" for fault, proved in job.repaired.items() if proved is not False
        ]
    if job.parts_used:
        lines.append(f"Parts used: {', '.join(job.parts_used)}.")
    for danger in job.dangers_met.values():
        lines.append(f"Danger found: {danger}")
    lines.append(CLOSING_LINES[ending])
    lines += not_shown_safe_in_words(job)
    tests = {question: (answer, passed) for question, answer, passed in job.proofs}
    if tests:
        lines.append("Tests after the repair:" if job.repaired else "Safety tests:")
        lines += [
            f"  - {base.questions[question].ask} {_shown(job, question, answer)} {_mark(passed)}"
            for question, (answer, passed) in tests.items()
        ]
    lines += _what_to_watch(job)
    return tuple(lines)


def _shown(job: Job, question: str, answer: str) -> str:
    """The answer to a proof: a choice by its label, a reading as it was typed, with its unit."""
    given = job.answer_to(question)
    if given is None or given.text != answer:
        return answer or "not made"
    if given.quantity is not None:
        return reading_in_words(job, given)
    labels = job.base.questions[question].labels
    return " or ".join(labels.get(outcome, outcome) for outcome in given.outcomes)


def _mark(passed: bool | None) -> str:
    return {True: "(passed)", False: "(failed)", None: "(not proved)"}[passed]


def _what_to_watch(job: Job) -> list[str]:
    """Advice for the owner that holds for every machine of the trade (common practice, no source)."""
    lines = ["What to watch:"]
    if "trips_supply" in job.complaints or job.dangers_met:
        lines.append("  - If it trips again, gives a tingle or smells burnt: pull the plug and do not use it.")
    lines.append("  - Use the water that suits your machine, and have it descaled in time.")
    lines.append("  - If the complaint comes back, stop using the machine and call us with the job number.")
    return lines
