"""The dangers that stop the work on the shipped rules, and how a job comes to each of them."""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from dataclasses import dataclass
from functools import cache

from expert.desk.unattended import sound_answer
from expert.trace.records import Record
from tests.dialogue.shipped_desk import ShippedDesk

TECHNICIAN = "Ann"


@dataclass(frozen=True)
class Stop:
    """A danger: the complaint, the answers that show it (all else is as on a sound machine), the rule that stops."""

    complaint: str
    answers: Mapping[str, str]
    rule: str
    qualified: str = "no"


STOPS: Mapping[str, Stop] = {
    "failed earth": Stop("trips_supply", {"earth_bond": "OL"}, "earth_is_broken"),
    "leakage to the chassis": Stop("trips_supply", {"leakage_current": "8 mA"}, "leakage_is_high"),
    "bridged protective device": Stop("burnt_smell", {"high_limit_bridged": "yes"}, "limit_is_bridged"),
    "safety valve lifting": Stop("safety_valve_blows", {"safety_valve_outlet": "lifts"}, "safety_valve_lifts"),
    "runaway heat": Stop("overheats", {"runaway_heat": "yes"}, "heat_runs_away"),
    "burnt wiring": Stop("no_power", {"terminal_look": "scorched"}, "terminal_is_scorched"),
    "swollen parts": Stop("boiler_will_not_fill", {"board_looks": "burnt"}, "board_is_burnt"),
    "damaged cord": Stop("no_power", {"lead_looks": "damaged"}, "lead_is_damaged"),
    "plug without earth": Stop("no_power", {"lead_looks": "no_earth_pin"}, "plug_has_no_earth"),
}


def brought_to(stop: Stop) -> tuple[ShippedDesk, list[Record]]:
    """A job in which the danger has just been answered; and the records of that answer."""
    name = next(name for name, known in STOPS.items() if known is stop)
    first, records = _brought_to(name)
    desk = copy(first)  # every step works on a copy of the job: only the list of records is shared
    desk.records = list(first.records)
    return desk, list(records)


@cache
def _brought_to(name: str) -> tuple[ShippedDesk, list[Record]]:
    stop = STOPS[name]
    desk = ShippedDesk()
    desk.intake(complaint=stop.complaint, qualified=stop.qualified)
    for _ in range(120):
        prompt, before = desk.job.prompt, len(desk.records)
        match prompt.kind:
            case "move":
                desk.type(prompt.choices[0])
            case "question" | "proof":
                question = desk.job.base.questions[prompt.subject]
                desk.type(stop.answers.get(prompt.subject) or sound_answer(desk.job, question))
            case _:
                break
        if stop.rule in desk.job.dangers_met:
            return desk, desk.records[before:]
    raise AssertionError(f"{stop.rule} was not met; the job waits at {desk.job.prompt}")
