"""What the customer noticed: one complaint or several, by number, by id or in a few words."""

from __future__ import annotations

from collections.abc import Iterable

from expert.job.answers.mistyped import names_meant
from expert.job.answers.reading import NO, YES, NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt, numbered_meant, pick
from expert.job.prompts.owner import Unattended
from expert.job.state.inference import conclude
from expert.job.state.job import Job, Turn
from expert.language.model import Complaint
from expert.trace.records import Told
from expert.trade.quantities.units import echo

OTHER_WORDS = "Type other words, or list to see all."


class Complaints(IntakePrompt):
    name = "complaints"
    not_known = "Type what the customer said, in a few words, or list to see all complaints."
    because = "The search starts from what the customer noticed."
    offers_at_once = True

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return (
            "What is the complaint? Type a few words, or list to see all. Several: separate them by a comma."
            if not job.complaints
            else "Another complaint? Type it, or ok to go on."
        ), ("list", "ok", *job.base.complaints)

    def settle(self, turn: Turn, text: str) -> bool:
        job = turn.job
        word = text.casefold()
        if word in {"ok", "no", "n", ""} and job.complaints:
            rule_out_the_rest(turn)
            return True
        if word == "list":
            turn.tell(*(f"{number:>3}  {c.name}" for number, c in enumerate(job.base.complaints.values(), 1)))
            return False
        if word in {"ok", ""} | NO | YES:
            raise NotAnAnswer("Type it in a few words, or ok to go on." if job.complaints else self.not_known)
        chosen: list[str] = []
        for part in text.split(","):
            fitting = matching_complaints(job, part)
            if len(fitting) > 1:
                numbers = list(job.base.complaints)
                turn.tell("Which of these? Type its number.")
                turn.tell(*(f"{numbers.index(c.id) + 1:>3}  {c.name}" for c in fitting))
                return False
            if not fitting:
                hint = _complaints_meant(job, part)
                others = "Type other words, list to see all, or ok to go on." if job.complaints else OTHER_WORDS
                raise NotAnAnswer(f"{echo(part.strip())} fits no complaint.{hint} {others}")
            chosen.append(fitting[0].id)
        add_complaints(turn, chosen)
        if not job.shop.people:
            return False
        # A shop that has its profile is asked for all complaints at once.
        rule_out_the_rest(turn)
        return True

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [", ".join(at_hand.answers.complaints), "ok"]

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        complaints = job.base.complaints
        return ((choice, complaints[choice].name if choice in complaints else "") for choice in job.prompt.choices)

    def offers_for(self, job: Job, begun: str) -> Iterable[tuple[str, str]]:
        return (
            ((complaint.id, complaint.name) for complaint in matching_complaints(job, begun)) if begun.strip() else ()
        )

    def part_typed(self, begun: str) -> str:
        return begun.rpartition(",")[2].lstrip()

    def what_changed(self, turn: Turn) -> str:
        return " ".join(record.text for record in turn.records if isinstance(record, Told))


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
    picked = pick(text, [complaint.id for complaint in complaints])
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


def _complaints_meant(job: Job, part: str) -> str:
    complaints = list(job.base.complaints.values())
    meant = names_meant(part, {c.id: " ".join((c.id, c.name, *c.words)) for c in complaints})
    return numbered_meant([(c.id, c.name) for c in complaints], meant)
