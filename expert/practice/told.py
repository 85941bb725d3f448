"""What a customer of the simulated machine says, and the complaint of the rules that stands for it."""

from __future__ import annotations

from collections.abc import Iterable

from expert.job.answers.complaint_search import complaints_meant
from expert.job.answers.mistyped import names_meant
from expert.language.model import RuleBase
from expert.machine import COMPLAINTS
from expert.trade.quantities.units import echo

MEANS = {
    "the body tingles": "tingles",
    "trips the protection at once": "trips_supply",
    "trips the protection when warm": "trips_supply",
    "nothing lights": "no_power",
    "display dark": "display_wrong",
    "display shows an error": "display_wrong",
    "alarm": "fill_runs_on",
    "tank lamp with the tank full": "tank_lamp_wrong",
    "does not heat": "no_heat",
    "stays lukewarm": "slow_heat",
    "heats slowly": "slow_heat",
    "safety valve blows": "safety_valve_blows",
    "heats up and then goes cold": "heat_cuts_out",
    "pressure too high": "overheats",
    "pressure too low": "weak_steam",
    "boiler gauge not at zero when cold": "boiler_gauge_odd",
    "steam weak": "weak_steam",
    "water with the steam": "boiler_overfills",
    "hisses on top and does not stop": "hisses_on_heat_up",
    "pump does not run with the lever up": "pump_silent",
    "pump runs with the lever down": "pump_will_not_stop",
    "pump loud": "pump_noisy",
    "pump only hums": "pump_noisy",
    "no water at the group": "no_water_at_group",
    "little water at the group": "low_flow",
    "brew pressure low": "low_brew_pressure",
    "brew pressure high": "high_brew_pressure",
    "pump gauge not at zero at rest": "pump_gauge_odd",
    "steam before water at the group": "steam_before_water",
    "coffee cold": "group_too_cool",
    "coffee too hot": "group_too_hot",
    "group drips with the lever down": "drips_at_shower",
    "leaks at the rim of the group": "leaks_at_rim",
    "water at the exhaust while brewing": "exhaust_runs_in_brew",
    "pressure stays on the coffee": "no_pressure_release",
    "steam tip drips": "steam_tap_drips",
    "water tip drips": "steam_tap_drips",
    "hot water weak": "weak_wand",
    "steam knob leaks": "leaks_at_knob",
    "water knob leaks": "leaks_at_knob",
    "safety valve drips": "safety_valve_blows",
    "water or steam underneath": "water_under_machine",
    "water under the tank": "water_under_machine",
}
MOST = 2  # complaints that a customer comes with


class NoSuchComplaint(ValueError):
    """Words that are no complaint; the message says what would do."""


def in_the_rules(told: Iterable[str]) -> tuple[str, ...]:
    """The complaints of the rules for what a customer says, the worst first.

    >>> in_the_rules(("steam tip drips", "water tip drips", "pump loud"))
    ('steam_tap_drips', 'pump_noisy')
    """
    return tuple(dict.fromkeys(MEANS[words] for words in told))[:MOST]


def wanted_words(base: RuleBase, asked_for: str) -> frozenset[str]:
    """What a customer may say when this complaint is asked for, by its words. Raises NoSuchComplaint.

    >>> from expert.language.shipped import shipped
    >>> from expert.language.load import load_rules
    >>> sorted(wanted_words(load_rules(shipped("rules")), "Stays cold"))
    ['does not heat']
    """
    known = asked_for.strip().casefold()
    if known in COMPLAINTS:
        return frozenset((known,))
    meant = (
        [known]
        if known in base.complaints
        else [c.id for c in complaints_meant(known, base.complaints.values(), base.same_words)]
    )
    found = [frozenset(words for words, id_ in MEANS.items() if id_ == one) for one in meant[:1]]
    found += [frozenset(names_meant(known, {words: words for words in COMPLAINTS})[:1])]
    best = next((words for words in found if words), None)
    if best is None:
        raise NoSuchComplaint(
            f"{echo(asked_for)} is no complaint here. Some that are: {', '.join(list(COMPLAINTS)[:12])}"
        )
    return best
