"""What the customer noticed: one complaint or several, by number, by id, or as the customer says it."""

from __future__ import annotations

from collections.abc import Iterable

from expert.job.answers.complaint_search import complaints_meant
from expert.job.answers.mistyped import names_meant
from expert.job.answers.reading import NO, YES, NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt, pick
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
        if job.complaints_offered:
            which = (
                "Which of these? Type its number, or several (1, 2),"
                if len(job.complaints_offered) > 1
                else "Is it this? Type 1,"
            )
            return f"{which} other words, or list to see all.", (*job.complaints_offered, "list")
        asked = (
            "What is the complaint? Type it as the customer says it, one at a time, or list to see all."
            if not job.complaints
            else "Another complaint? Type it, or ok to go on."
        )
        return asked, ("list", "ok", *job.base.complaints)

    def settle(self, turn: Turn, text: str) -> bool:
        job = turn.job
        word = text.casefold()
        if word in {"ok", "no", "n", ""} and job.complaints and not job.complaints_offered:
            rule_out_the_rest(turn)
            return True
        offered, job.complaints_offered = job.complaints_offered, ()
        if word == "list":
            turn.tell(*(f"{number:>3}  {c.name}" for number, c in enumerate(job.base.complaints.values(), 1)))
        elif chosen := _named(job, text, offered):
            add_complaints(turn, chosen)
            if job.shop.people:  # a shop that has its profile is asked for all complaints at once
                rule_out_the_rest(turn)
                return True
        elif word in YES and len(offered) == 1:
            add_complaints(turn, list(offered))
        elif offered and word in {"ok", "", "none", "none of these"} | NO:
            turn.tell("None of these, then.")
        elif word in {"ok", "", "none"} | NO | YES:
            raise NotAnAnswer(self._more(job, offered))
        else:
            self._offer(turn, text, offered)
        return False

    def _more(self, job: Job, offered: tuple[str, ...]) -> str:
        if offered:
            return f"Type the number of the one that it is. {OTHER_WORDS}"
        return "Type it in a few words, or ok to go on." if job.complaints else self.not_known

    def _offer(self, turn: Turn, text: str, offered: tuple[str, ...]) -> None:
        """Show what a sentence may mean; it is taken only when the technician says which. Raises NotAnAnswer."""
        job = turn.job
        if text.isdecimal():
            there = f"1 to {len(offered)}" if offered else f"1 to {len(job.base.complaints)}, as in list"
            raise NotAnAnswer(f"{echo(text)} is no number here. Type {there}, or the complaint in a few words.")
        meant = complaints_meant(text, job.base.complaints.values()) or _almost(job, text)
        if not meant:
            others = "Type other words, list to see all, or ok to go on." if job.complaints else OTHER_WORDS
            raise NotAnAnswer(f"{echo(text)} fits no complaint. {others}")
        turn.tell(*(f"{number:>3}  {complaint.name}" for number, complaint in enumerate(meant, 1)))
        job.complaints_offered = tuple(complaint.id for complaint in meant)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [", ".join(at_hand.answers.complaints), "ok"]

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        complaints = job.base.complaints
        return ((choice, complaints[choice].name if choice in complaints else "") for choice in job.prompt.choices)

    def offers_for(self, job: Job, begun: str) -> Iterable[tuple[str, str]]:
        meant = complaints_meant(self.part_typed(begun), job.base.complaints.values())
        return ((complaint.id, complaint.name) for complaint in meant)

    def part_typed(self, begun: str) -> str:
        return begun.rpartition(",")[2].lstrip()

    def what_changed(self, turn: Turn) -> str:
        complaints = turn.job.base.complaints
        if turn.job.complaints_offered:
            return f"May be: {'; '.join(complaints[offered].name for offered in turn.job.complaints_offered)}"
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


def _almost(job: Job, text: str) -> tuple[Complaint, ...]:
    """The complaints with words like those typed, where no word is known."""
    complaints = job.base.complaints
    named = {c.id: " ".join((c.id, c.name, *c.words)) for c in complaints.values()}
    return tuple(complaints[found] for found in names_meant(text, named))


def _named(job: Job, text: str, offered: tuple[str, ...]) -> list[str]:
    """The complaints meant by number, by id, or word for word, several separated by commas; none if one is not.

    After a search only the numbers that it showed count.
    """
    ids = list(job.base.complaints)
    found = []
    for part in [text] if _word_for_word(job, text) else text.split(","):
        word = part.strip().casefold()
        chosen = _word_for_word(job, word) or pick(word, list(offered) if offered and word.isdecimal() else ids)
        if chosen is None:
            return []
        found.append(chosen)
    return found


def _word_for_word(job: Job, text: str) -> str | None:
    """The one complaint that these very words can mean: its name, or a phrase that is like no other."""
    words = " ".join(text.casefold().split())
    complaints = job.base.complaints.values()
    named = [complaint for complaint in complaints if complaint.name.casefold() == words]
    phrased = [c for c in complaints if " " in words and words in {phrase.casefold() for phrase in c.words}]
    if phrased and not named:
        named = list(complaints_meant(words, complaints))
    return named[0].id if len(named) == 1 else None
