"""The rating plate, the sensor fitted, the place and its water: what differs between sound machines of one layout."""

from __future__ import annotations

from dataclasses import dataclass, replace

SENSORS = ("ntc 10k", "ntc 50k", "pt1000")
PUMP_WATTS = 50.0
USUAL_CONDUCTIVITY = 350.0  # uS/cm; drinking water has 50 to 500


@dataclass(frozen=True, slots=True)
class Plate:
    """What is stamped on the rating plate: nominal mains [V], [Hz], and power input of the whole machine [W]."""

    volts: float
    hertz: float
    watts: float

    @property
    def element_watts(self) -> float:
        """Power of the heating element alone [W]: the plate's power less the pump's."""
        return self.watts - PUMP_WATTS


# Invented ratings, each within what a domestic socket of its country gives.
PLATES = {
    "100/50": Plate(100.0, 50.0, 1300.0),
    "100/60": Plate(100.0, 60.0, 1300.0),
    "120/60": Plate(120.0, 60.0, 1400.0),
    "230/50": Plate(230.0, 50.0, 1400.0),
    "240/50": Plate(240.0, 50.0, 1500.0),
}


@dataclass(frozen=True, slots=True)
class Build:
    """A machine as it was made and where it stands.

    sensor: one of SENSORS. altitude [m], -400 to 3000. room [degC], 5 to 35. conductivity of the water in the tank
    [uS/cm], 0.5 to 2000. supply_volts, supply_hertz: what the socket gives; None is the plate's value. rcd_amps: rated
    residual current of the socket's protection. Raises ValueError for what is outside.
    """

    plate: Plate = PLATES["230/50"]
    sensor: str = "ntc 10k"
    altitude: float = 0.0
    room: float = 20.0
    conductivity: float = USUAL_CONDUCTIVITY
    supply_volts: float | None = None
    supply_hertz: float | None = None
    rcd_amps: float = 0.030

    def __post_init__(self) -> None:
        if self.sensor not in SENSORS:
            raise ValueError(f"{self.sensor!r} is not a sensor of this layout; {', '.join(SENSORS)} would do")
        for name, value, low, high in (
            ("altitude", self.altitude, -400.0, 3000.0),
            ("room", self.room, 5.0, 35.0),
            ("conductivity", self.conductivity, 0.5, 2000.0),
        ):
            if not low <= value <= high:
                raise ValueError(f"{name} {value:g} is outside {low:g} to {high:g}")

    @property
    def as_it_should_be(self) -> Build:
        """The same machine on water that its probe sees and on the supply that its plate asks for."""
        return replace(self, conductivity=USUAL_CONDUCTIVITY, supply_volts=None, supply_hertz=None)

    @property
    def mains_volts(self) -> float:
        """Voltage at the socket, nothing connected [V]."""
        return self.plate.volts if self.supply_volts is None else self.supply_volts

    @property
    def mains_hertz(self) -> float:
        """Frequency at the socket [Hz]."""
        return self.plate.hertz if self.supply_hertz is None else self.supply_hertz
