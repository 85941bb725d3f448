"""Which machine type it is."""

from __future__ import annotations

from collections.abc import Iterable

from expert.job.answers.mistyped import names_meant
from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt, numbered_meant, numbers_up_to, pick
from expert.job.prompts.owner import Unattended
from expert.job.prompts.plate import forget_machine, set_machine
from expert.job.sentences import intake as say
from expert.job.state.job import Job, Turn
from expert.language.model import Machine
from expert.trade.quantities.units import echo


def _that_come_in(job: Job) -> list[Machine]:
    """The types that come to this shop; all where it does not say."""
    return [machine for machine in job.base.machines.values() if machine.id in (job.shop.machines or (machine.id,))]


class MachineType(IntakePrompt):
    name = "machine"
    not_known = say.TYPE_NEEDED
    because = say.WHY_MACHINE

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        machines = _that_come_in(job)
        lines = [f"  {number}  {machine.title}" for number, machine in enumerate(machines, 1)]
        return "\n".join([say.WHICH_MACHINE, *lines]), tuple(m.id for m in machines)

    def settle(self, turn: Turn, text: str) -> bool:
        machines = _that_come_in(turn.job)
        chosen = pick(text, [machine.id for machine in machines])
        if chosen is None:
            meant = names_meant(text, {machine.id: f"{machine.id} {machine.title}" for machine in machines})
            hint = numbered_meant([(machine.id, machine.title) for machine in machines], meant)
            raise NotAnAnswer(say.no_machine_type(echo(text), hint, numbers_up_to(len(machines))))
        if turn.job.machine is not None:
            forget_machine(turn)
        set_machine(turn, turn.job.base.machines[chosen])
        return True

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [at_hand.answers.machine_type.id]

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        return ((choice, job.base.machines[choice].title) for choice in job.prompt.choices)

    def what_changed(self, turn: Turn) -> str:
        return turn.job.machine.title if turn.job.machine else ""
