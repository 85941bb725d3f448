"""What an owner would complain of after using a machine, in plain words, found by a trial use."""

from __future__ import annotations

from collections.abc import Callable

from expert.machine.running.machine import Machine
from expert.machine.seeing.trial import Trial, trial

Noticed = Callable[[Trial], bool]


def _powered(t: Trial) -> bool:
    return t.lamp and t.tripped_at > 1e6


def _heats(t: Trial) -> bool:
    return t.hot_at < 1e6


def _stays_hot(t: Trial) -> bool:
    return _heats(t) and t.boiler >= t.hottest - 12.0


# In the order in which an owner would name them: the worst first.
COMPLAINTS: dict[str, Noticed] = {
    "the body tingles": lambda t: t.body_volts > 50.0,
    "trips the protection at once": lambda t: t.tripped_at <= 30.0,
    "trips the protection when warm": lambda t: 30.0 < t.tripped_at < 1e6,
    "nothing lights": lambda t: not t.lamp and t.tripped_at > 1e6,
    "display dark": lambda t: _powered(t) and t.display == "dark",
    "display shows an error": lambda t: _powered(t) and t.display in ("no sensor", "low resistance"),
    "alarm": lambda t: t.alarm,
    "tank lamp with the tank full": lambda t: t.empty_lamp,
    "does not heat": lambda t: _powered(t) and not t.alarm and not _heats(t) and t.boiler < 45.0,
    "stays lukewarm": lambda t: _powered(t) and not t.alarm and not _heats(t) and t.boiler >= 45.0,
    "heats slowly": lambda t: _heats(t) and t.hot_at > 780.0,
    "safety valve blows": lambda t: t.lifted or t.look("safety valve outlet") == "blows",
    "heats up and then goes cold": lambda t: _heats(t) and _powered(t) and t.boiler < t.hottest - 12.0,
    "pressure too high": lambda t: _heats(t) and max(t.gauge, t.highest) > 1.4,
    "pressure too low": lambda t: _stays_hot(t) and t.gauge < 0.85,
    "boiler gauge not at zero when cold": lambda t: t.gauge_cold > 0.2,
    "steam weak": lambda t: _stays_hot(t) and t.steam in ("weak steam", "nothing"),
    "water with the steam": lambda t: t.steam == "water with the steam",
    "hisses on top and does not stop": lambda t: t.vacuum in ("blows steadily", "hisses") and _heats(t),
    "pump does not run with the lever up": lambda t: (
        _powered(t) and not t.alarm and t.pump_sound == "silent" and t.pump_alone < 15.0
    ),
    "pump runs with the lever down": lambda t: t.pump_alone > 15.0,
    "pump loud": lambda t: t.pump_sound in ("loud and uneven", "loud, moves nothing", "very loud"),
    "pump only hums": lambda t: t.pump_sound == "faint hum",
    "no water at the group": lambda t: t.pump_sound != "silent" and t.free_flow < 0.3,
    "little water at the group": lambda t: 0.3 <= t.free_flow < 5.6,
    "brew pressure low": lambda t: t.pump_sound not in ("silent", "") and t.free_flow >= 0.3 and t.blind < 8.0,
    "brew pressure high": lambda t: t.blind > 11.0,
    "pump gauge not at zero at rest": lambda t: t.idle_pump_gauge > 0.6 and t.pump_alone < 15.0,
    "steam before water at the group": lambda t: t.look("first flush") == "steam and spitting before water",
    "coffee cold": lambda t: _stays_hot(t) and t.group < 82.0,
    "coffee too hot": lambda t: _heats(t) and t.group > 97.5,
    "group drips with the lever down": lambda t: t.look("shower") == "drips",
    "leaks at the rim of the group": lambda t: t.look("group rim") == "leaks",
    "water at the exhaust while brewing": lambda t: t.look("exhaust") == "runs",
    "pressure stays on the coffee": lambda t: t.blind > 5.0 and t.look("exhaust on lowering") == "nothing",
    "steam tip drips": lambda t: t.look("steam tip") in ("drips", "weak steam", "strong steam"),
    "water tip drips": lambda t: t.look("water tip") == "drips",
    "hot water weak": lambda t: _heats(t) and t.look("water tap open") == "weak",
    "steam knob leaks": lambda t: t.look("steam knob") == "leaks",
    "water knob leaks": lambda t: t.look("water knob") == "leaks",
    "safety valve drips": lambda t: t.look("safety valve outlet") == "drips",
    "water or steam underneath": lambda t: t.look("underneath") not in ("dry", ""),
    "water under the tank": lambda t: t.look("under tank") == "wet",
}


def complaints(machine: Machine) -> tuple[str, ...]:
    """What its owner would complain of, worst first; nothing for a machine that does what a sound one does.

    >>> from expert.machine import Build, fault, with_faults
    >>> complaints(with_faults(Build(), [fault("pump", "worn")], 1))
    ('little water at the group', 'brew pressure low')
    """
    used = trial(machine)
    return tuple(word for word, noticed in COMPLAINTS.items() if noticed(used))
