"""Who is at the bench."""

from __future__ import annotations

from expert.job.answers.mistyped import is_no_name
from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt
from expert.job.prompts.owner import Unattended
from expert.job.prompts.plate import Plate, plate_prompt, take_plate
from expert.job.prompts.qualified import Qualified, work_by
from expert.job.sentences import intake as say
from expert.job.state.job import Job, Turn
from expert.job.state.shop import Person

LONGEST_NAME = 60
QUALIFIED = Qualified()


def _introduced(person: Person) -> str:
    """A technician as listed, with what this person may do and by whose word."""
    by = say.by_the_word_of(person.by_word_of) if person.by_word_of else ""
    return say.technician_listed(person.name, person.qualified, by)


def _names(job: Job) -> tuple[str, ...]:
    return tuple(person.name for person in job.shop.people)


class Technician(IntakePrompt):
    name = "technician"
    not_known = say.NAME_NEEDED
    because = say.WHY_TECHNICIAN

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        people = job.shop.people
        if not people:
            return say.WHO_IS_THERE, ()
        lines = [f"  {number}  {_introduced(person)}" for number, person in enumerate(people, 1)]
        if job.machine is None:
            return "\n".join([say.WHO_OF_THESE_IS_THERE, *lines]), _names(job)
        head = say.WHO_IS_THERE_AND_WHAT_DIFFERS
        plate, _ = plate_prompt(job)
        machine = say.machine_with_its_plate(job.machine.title)
        return "\n".join([head, *lines, machine, *plate.splitlines()[1:]]), _names(job)

    def settle(self, turn: Turn, text: str) -> bool:
        job = turn.job
        before = job.technician
        self._take(turn, text)
        if job.technician != before:  # whoever it is now has not read what was shown before
            job.cautions_read.clear()
            job.cautions_told.clear()
            job.moves_told.clear()
        return True

    def _take(self, turn: Turn, text: str) -> None:
        job = turn.job
        who, *instead = (part.strip() for part in text.split(","))
        # Anything with a letter may be a name, but for a command that only lacks its space.
        person = job.shop.person(who)
        if person is None and (is_no_name(who) or is_no_name(text)):
            raise NotAnAnswer(self.not_known)
        # Of somebody else it was not said what may be done.
        job.intake_settled = tuple(name for name in job.intake_settled if name != Qualified.name)
        if not job.shop.people:
            job.technician = text[:LONGEST_NAME]
            return
        for line in instead if job.machine else ():
            take_plate(turn, line)
            job.plate_told = (*job.plate_told, line)
        job.technician = person.name if person else who[:LONGEST_NAME]
        if person is not None:
            job.qualified = person.qualified
            job.intake_settled = (*job.intake_settled, "qualified")
        if job.machine is not None and not instead:
            job.intake_settled = (*job.intake_settled, "plate")

    def corrected(self, turn: Turn) -> None:
        """Somebody else by name is somebody else: what may be done is asked, unless the shop has said it."""
        job = turn.job
        known = job.shop.person(job.technician)
        job.qualified = known is not None and known.qualified
        work_by(turn)
        if job.technician not in job.workers:  # who was there before has worked at it, whatever the name
            job.workers = (*job.workers, job.technician)
        if known is None:
            QUALIFIED.put(turn)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        if not job.shop.people or job.machine is None:
            return ["unattended"]
        # One value behind the name, and the plate is asked for; it gets them all. No comma may stand in it.
        first = Plate().unattended(job, at_hand)[:-1][:1]
        return [", ".join(["unattended", *(line.replace(",", ".") for line in first)])]
