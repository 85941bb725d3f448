"""What the customer noticed: one complaint or several, by number, by id, or as the customer says it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from expert.job.answers.complaint_search import complaints_meant
from expert.job.answers.mistyped import names_meant
from expert.job.answers.reading import NO, YES, NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt, pick
from expert.job.prompts.owner import Unattended
from expert.job.sentences import intake as say
from expert.job.state.complaints_now import complaints_now
from expert.job.state.inference import conclude
from expert.job.state.job import Job, Phase, Turn
from expert.job.state.situation import look_again
from expert.language.model import Complaint
from expert.trace.records import Told
from expert.trade.quantities.units import echo

DENIED = re.compile(r"not (.+)")


class Complaints(IntakePrompt):
    name = "complaints"
    not_known = say.WHAT_THE_CUSTOMER_SAID
    because = say.WHY_COMPLAINTS
    offers_at_once = True

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        if self.name in job.asked_back and job.complaints and not job.complaints_offered:
            noted = (f"  {number}  {job.base.complaints[one].name}" for number, one in enumerate(job.complaints, 1))
            return "\n".join([say.NOTED_IS, *noted, say.ANOTHER_OR_NOT]), ("ok", "list", *job.base.complaints)
        if job.complaints_offered:
            which = say.WHICH_OF_THESE if len(job.complaints_offered) > 1 else say.IS_IT_THIS
            return say.which_or_other_words(which), (*job.complaints_offered, "list")
        asked = say.WHAT_IS_THE_COMPLAINT if not job.complaints else say.ANOTHER_COMPLAINT
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
        elif denied := DENIED.fullmatch(word):
            take_complaint_back(turn, denied[1])
        elif chosen := _named(job, text, offered):
            add_complaints(turn, chosen)
            # A shop that has its profile is asked for all complaints at once.
            if job.shop.people and self.name not in job.asked_back:
                rule_out_the_rest(turn)
                return True
        elif word in YES and len(offered) == 1:
            add_complaints(turn, list(offered))
        elif offered and word in {"ok", "", "none", "none of these"} | NO:
            turn.tell(say.NONE_OF_THESE)
        elif word in {"ok", "", "none"} | NO | YES:
            raise NotAnAnswer(self._more(job, offered))
        else:
            self._offer(turn, text, offered)
        return False

    def corrected(self, turn: Turn) -> None:
        look_again(turn.job)

    def _more(self, job: Job, offered: tuple[str, ...]) -> str:
        if offered:
            return say.number_of_the_one(say.OTHER_WORDS)
        return say.IN_A_FEW_WORDS if job.complaints else self.not_known

    def _offer(self, turn: Turn, text: str, offered: tuple[str, ...]) -> None:
        """Show what a sentence may mean; it is taken only when the technician says which. Raises NotAnAnswer."""
        job = turn.job
        if text.isdecimal():
            there = f"1 to {len(offered)}" if offered else say.numbers_as_in_list(len(job.base.complaints))
            raise NotAnAnswer(say.no_number_of_a_complaint(echo(text), there))
        meant = complaints_meant(text, job.base.complaints.values(), job.base.same_words) or _almost(job, text)
        if not meant:
            others = say.OTHER_WORDS_OR_GO_ON if job.complaints else say.OTHER_WORDS
            raise NotAnAnswer(say.fits_no_complaint(echo(text), others))
        turn.tell(*(f"{number:>3}  {complaint.name}" for number, complaint in enumerate(meant, 1)))
        job.complaints_offered = tuple(complaint.id for complaint in meant)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        named = ", ".join(at_hand.answers.complaints)
        # A shop with a profile is asked once, and takes them all.
        return [named] if job.shop.people and self.name not in job.asked_back else [named, "ok"]

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        complaints = job.base.complaints
        return ((choice, complaints[choice].name if choice in complaints else "") for choice in job.prompt.choices)

    def offers_for(self, job: Job, begun: str) -> Iterable[tuple[str, str]]:
        meant = complaints_meant(self.part_typed(begun), job.base.complaints.values(), job.base.same_words)
        return ((complaint.id, complaint.name) for complaint in meant)

    def part_typed(self, begun: str) -> str:
        return begun.rpartition(",")[2].lstrip()

    def what_changed(self, turn: Turn) -> str:
        complaints = turn.job.base.complaints
        if turn.job.complaints_offered:
            return say.may_be("; ".join(complaints[offered].name for offered in turn.job.complaints_offered))
        return " ".join(record.text for record in turn.records if isinstance(record, Told))


def add_complaints(turn: Turn, chosen: list[str]) -> None:
    """Take complaints as reported."""
    job = turn.job
    for complaint in chosen:
        if complaint not in job.complaints:
            job.complaints = (*job.complaints, complaint)
            turn.tell(say.complaint_noted(job.base.complaints[complaint].name))
            conclude(turn, job.state.narrow(f"complaint {complaint}", f"complaint.{complaint}", ("yes",)))
        else:
            turn.tell(say.complaint_noted_already(job.base.complaints[complaint].name))


def take_complaint_back(turn: Turn, which: str) -> None:
    """A complaint that was not the customer's: by its number among those noted, or by its words. Raises NotAnAnswer."""
    job = turn.job
    noted = [job.base.complaints[complaint] for complaint in job.complaints]
    meant = pick(which, list(job.complaints)) or _word_for_word(job, which)
    if meant not in job.complaints:
        meant = next((complaint.id for complaint in complaints_meant(which, noted, job.base.same_words)), None)
    if meant is None:
        there = "; ".join(f"{number} {complaint.name}" for number, complaint in enumerate(noted, 1)) or "none"
        raise NotAnAnswer(say.not_among_the_complaints(echo(which), there))
    name = job.base.complaints[meant].name
    after_intake = job.phase is not Phase.INTAKE
    if after_intake and len(job.complaints) == 1:
        raise NotAnAnswer(say.the_only_complaint(name))
    job.complaints = tuple(complaint for complaint in job.complaints if complaint != meant)
    turn.tell(say.complaint_no_longer_at_work(name) if after_intake else say.complaint_taken_back(name))
    if meant not in complaints_now(job):
        conclude(turn, job.state.narrow(f"complaint {meant}", f"complaint.{meant}", ("no",)))


def rule_out_the_rest(turn: Turn) -> None:
    """Once the complaints are taken, every other one is known not to be there: rules may rest on that.

    But for what the bench has seen itself, which goes by no word of the customer.
    """
    job = turn.job
    standing = complaints_now(job)
    for complaint in job.base.complaints:
        if complaint not in standing:
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
        named = list(complaints_meant(words, complaints, job.base.same_words))
    return named[0].id if len(named) == 1 else None
