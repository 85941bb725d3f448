"""Whole jobs in a shop of the United States: nothing on the screen is in another country's words, volts or units."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from expert.desk.profile.reading import read_profile
from expert.desk.profile.using import shop_from
from expert.desk.unattended import Player, with_machine
from expert.job.beginning import begin
from expert.job.prompts.owner import Unattended
from expert.job.state.job import Job
from expert.job.steps import step
from expert.job.wording.records import lines_of
from expert.language.shipped import shipped
from expert.language.worked.cases import load_cases
from expert.trace.records import Record
from tests.dialogue.shipped_desk import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
PROFILE = read_profile("shop.yaml", "country: us\nname: Corner Workshop (invented)\n", KNOWLEDGE.base)
# One for each circuit, and what is asked most by hand: supply, insulation, sensors, flow, a danger.
CASES = (
    "element_leaks_cold",
    "tingle_with_a_sound_machine",
    "coil_changed_and_proved",
    "pump_worn_out",
    "sensor_right_at_boiling_point",
    "needle_stands_still_in_a_boiler_without_pressure",
    "loose_supply_wire_of_the_board",
    "nothing_wrong_here_tank_lamp_wrong",
)
FOREIGN = re.compile(
    r"\bRCDs?\b|\bearth(ed|ing|s)?\b|\bunearthed\b|\bmains\b|\b2[0-4][0-9](\.\d+)? V\b|\bmm2\b|\ban g(round|fci)"
    r"|IEC 60038|\bIET\b|\bDGUV\b|AS/NZS|°C|[0-9] degrees\b(?! \()|[0-9] bar\b(?! \()|[0-9] m?L(/s)?(?![/\w]| \()",
    re.IGNORECASE,
)
NOT_THE_CORD = re.compile(r"sensor|contact|controller|board's|core by core|test lead|from end to end", re.IGNORECASE)
CORD = re.compile(r"\b(the|power|mains|a|changed|through|along|look at) lead\b(?!s)", re.IGNORECASE)


def shown_in(name: str) -> Iterator[str]:
    """Every line of a worked case played in this shop, with `why` and `how` asked wherever they can be."""
    case = next(case for case in load_cases(shipped("rules"), KNOWLEDGE.base) if case.id == name)
    own, shop = shop_from(with_machine(KNOWLEDGE, case.job.machine_type), PROFILE)
    job, records = begin(own, shop, "1")
    lines: list[str] = []
    now = [job]

    def note(job: Job, records: tuple[Record, ...]) -> None:
        lines.extend(text for record in records for _, text in lines_of(job, record))

    def say(line: str) -> tuple[Job, tuple[Record, ...]]:
        for word in ("why", "how") if now[0].prompt.kind in ("question", "proof") else ():
            note(*step(now[0], word))
        now[0], made = step(now[0], line)
        note(now[0], made)
        return now[0], made

    note(job, records)
    Player(Unattended(case.job), say, list(records)).play(job)
    yield from lines


@pytest.mark.parametrize("name", CASES)
def test_nothing_of_another_country_is_shown(name: str) -> None:
    lines = list(shown_in(name))
    assert len(lines) > 100
    assert sorted({line for line in lines if FOREIGN.search(line)}) == []
    assert sorted({line for line in lines if CORD.search(line) and not NOT_THE_CORD.search(line)}) == []


def test_what_is_looked_for_would_be_found() -> None:
    for line in ("Plug in through an RCD.", "the lead", "230 V at the inlet", "8 mL/s on most", "123 degrees"):
        assert FOREIGN.search(line) or CORD.search(line)
    assert "fl oz/min" in " ".join(shown_in("pump_worn_out"))
