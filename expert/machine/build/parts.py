"""All parts of one machine, and a sound set of them for a build: nominal values with the spread of new parts."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

from expert.machine.build.mains_parts import Controller, Element, Leak, MainsParts, Sensor, Wiring
from expert.machine.build.plate import Build
from expert.machine.build.water_parts import FillSolenoid, Gauge, Pump, WaterParts

# At 230 V: cold winding of a 50 W vibration pump and of a 10 VA fill solenoid (common practice, no source). Copper
# resistance at equal power goes with the square of the voltage.
_PUMP_COIL_230, _SOLENOID_COIL_230 = 150.0, 1000.0

# Sound insulation to the body, by the point the part is measured at. A new dry element: 20 Mohm or more at 500 V
# (heater makers' tests); the rest is common practice, no source.
SOUND_LEAKS = (
    Leak("element.a", 150e6, 60e6),
    Leak("pump.a", 500e6, 300e6),
    Leak("fill coil.a", 500e6, 300e6),
    Leak("board.live", 400e6, 300e6),
    Leak("controller.live", 400e6, 300e6),
    Leak("switch.live out", 800e6, 500e6),
    Leak("inlet.live", 1000e6, 800e6),
)


@dataclass(frozen=True, slots=True)
class Parts:
    """Parameters of every part, in two halves: `mains` (what carries current) and `water` (what holds water)."""

    mains: MainsParts
    water: WaterParts


def chance(seed: int, *names: object) -> float:
    """A number from 0 to 1 (1 not included) that depends on the seed and the names and on nothing else.

    >>> chance(1, "a") == chance(1, "a"), chance(1, "a") == chance(2, "a")
    (True, False)
    """
    text = repr((seed, *names)).encode()
    return int.from_bytes(hashlib.blake2b(text, digest_size=6).digest(), "big") / 2**48


def spread(seed: int, name: str, share: float) -> float:
    """A factor around 1, within +-share: how far one new part may lie from the nominal."""
    return 1 + share * (2 * chance(seed, "spread", name) - 1)


def sound_parts(build: Build, seed: int = 0) -> Parts:
    """Parts of a sound machine of this build. The seed spreads them within the tolerance of new parts."""
    scale = (build.plate.volts / 230.0) ** 2
    hot = build.plate.volts**2 / build.plate.element_watts
    cold = hot / Element(1.0, 1.0).hot_factor * spread(seed, "element", 0.03)
    mains = MainsParts(
        element=Element(2 * cold, 2 * cold),
        sensor=Sensor(build.sensor, drift=0.4 * (2 * chance(seed, "sensor") - 1)),
        controller=Controller(build.sensor),
        wiring=Wiring(leaks=SOUND_LEAKS),
    )
    water = WaterParts(
        pump=Pump(_PUMP_COIL_230 * scale * spread(seed, "pump", 0.05)),
        fill_solenoid=FillSolenoid(_SOLENOID_COIL_230 * scale * spread(seed, "solenoid", 0.05)),
        boiler_gauge=Gauge(3.0, offset=0.03 * (2 * chance(seed, "boiler gauge") - 1)),
        pump_gauge=Gauge(16.0, offset=0.15 * (2 * chance(seed, "pump gauge") - 1)),
    )
    return Parts(mains, water)
