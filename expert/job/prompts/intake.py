"""Intake: who, which machine, its plate, the complaints, live work, how it stands; in this order."""

from __future__ import annotations

from expert.job.prompts.arrives import Arrives
from expert.job.prompts.complaints import Complaints
from expert.job.prompts.intake_prompt import IntakePrompt, taken_in
from expert.job.prompts.machine import MachineType
from expert.job.prompts.plate import Plate, set_machine
from expert.job.prompts.qualified import Qualified
from expert.job.prompts.technician import Technician
from expert.job.state.job import Phase, Turn, phase_after
from expert.trace.records import Worker

INTAKE: tuple[IntakePrompt, ...] = (Technician(), MachineType(), Plate(), Complaints(), Qualified(), Arrives())
BY_NAME = {prompt.name: prompt for prompt in INTAKE}


def intake_on(turn: Turn) -> None:
    """Put the next prompt of the intake, or go on to the next phase."""
    for prompt in INTAKE:
        if prompt.name not in turn.job.intake_settled:
            prompt.put(turn)
            return
    turn.add(taken_in(turn.job))
    turn.job.workers = (turn.job.technician,)
    turn.add(Worker(turn.job.technician, turn.job.qualified))
    turn.job.phase = phase_after(Phase.INTAKE)


def take_what_is_known(turn: Turn) -> None:
    """In a shop that only one type of machine comes to, the type need not be asked."""
    job = turn.job
    types = job.shop.machines or tuple(job.base.machines)
    if job.shop.people and len(types) == 1:
        set_machine(turn, job.base.machines[types[0]])
        job.intake_settled = (*job.intake_settled, MachineType.name)
