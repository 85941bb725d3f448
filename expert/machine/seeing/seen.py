"""What an observation brings back."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Reading:
    """A number off an instrument. value may be infinite (over range). uncertainty: as the instrument states it, in
    the same unit; true: what a perfect instrument would have shown (for tests, never for a bench)."""

    value: float
    unit: str
    uncertainty: float
    instrument: str
    true: float


@dataclass(frozen=True, slots=True)
class Sight:
    """What is seen, heard or felt, as one of the words that the observation's docstring lists."""

    word: str


@dataclass(frozen=True, slots=True)
class Unseen:
    """Nothing can be observed, and why: plugged in, unplugged, covers on, too cold, too hot, not fitted."""

    why: str


@dataclass(frozen=True, slots=True)
class Moment:
    """The machine at one moment of a watch. Pressures [bar gauge] true, flows [ml/s], temperatures [degC]."""

    second: float
    boiler_temperature: float
    boiler_pressure: float
    boiler_litres: float
    tank_litres: float
    display: str
    element_watts: float
    pump_volts: float
    pump_flow: float
    tee_pressure: float
    fill_flow: float
    group_temperature: float
    solenoid_on: bool
    call_lamp: bool
    alarm_lamp: bool
    empty_lamp: bool
    heat_lamp: bool


@dataclass(frozen=True, slots=True)
class Course:
    """What happened during a watch: moments in order, first and last included, and events (second, words).

    Events: "fill call starts/ends", "alarm", "pump starts/stops", "heating starts/stops", "limit 1 opens", "limit 2
    opens", "safety valve lifts", "fuse blows", "board fuse blows", "residual-current device trips", "pump limiter
    opens", "vacuum valve shuts", "tank empty", "element burns out", "boiler full".
    """

    moments: tuple[Moment, ...]
    events: tuple[tuple[float, str], ...]

    def happened(self, event: str) -> float | None:
        """Second at which an event first happened; None if it did not."""
        return next((second for second, word in self.events if word == event), None)


Seen = Reading | Sight | Unseen | Course
