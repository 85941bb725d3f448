"""What can be asked of the machine, one frozen value each.

Points are those of `mains/wiring.py` (POINTS): "plug.live", "element.a", "relay.control +", "chassis" and so on.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ResistanceBetween:
    """Ohms between two points, unplugged, nothing lifted but what hands have lifted. tester: "multimeter" or
    "low-ohm tester" (for earth bonds and contacts)."""

    one: str
    other: str
    tester: str = "multimeter"


@dataclass(frozen=True, slots=True)
class PartResistance:
    """Ohms of one part alone, its wires pulled off and put back: "element", "pump coil", "fill solenoid coil",
    "sensor", "high limit 1", "high limit 2", "mains fuse", "board fuse", "main switch live", "main switch neutral"
    (closed), "brew switch lever up", "brew switch lever down", "tank float full", "tank float empty", "pump limiter",
    "level probe to body", "relay output", "live core", "neutral core", "earth core"."""

    part: str


@dataclass(frozen=True, slots=True)
class DiodeTest:
    """A meter's diode range [V]: plus lead on one point, minus on the other; infinite where nothing conducts."""

    plus: str
    minus: str


@dataclass(frozen=True, slots=True)
class Insulation:
    """500 V test between points (joined) and the body [ohm], unplugged, main switch on. alone: a part with its wires
    off ("element", "pump", "fill solenoid", "board", "controller", "wiring"), else all that the points lead to."""

    points: tuple[str, ...] = ("plug.live", "plug.neutral")
    alone: str = ""
    volts: float = 500.0


@dataclass(frozen=True, slots=True)
class Volts:
    """Alternating volts between two points, live. loaded: with a test lamp across them. "earth" is true earth."""

    one: str
    other: str
    loaded: bool = False


@dataclass(frozen=True, slots=True)
class SocketVolts:
    """Volts of the socket itself, measured in it."""


@dataclass(frozen=True, slots=True)
class ControlVolts:
    """Direct volts between two points of the relay's control: "controller.out +/-", "board.heat in/out",
    "relay.control +/-"."""

    plus: str = "relay.control +"
    minus: str = "relay.control -"


@dataclass(frozen=True, slots=True)
class BoardVolts:
    """The board's own direct supply, at its marked test point [V]: 12 V on a sound board with its mains."""


@dataclass(frozen=True, slots=True)
class Amps:
    """Current [A, RMS] in "lead", "element", "pump" or "board", by a clamp."""

    where: str = "lead"


@dataclass(frozen=True, slots=True)
class LeakageAmps:
    """Protective-conductor current [mA] by a leakage clamp, switched on."""


@dataclass(frozen=True, slots=True)
class PressureOn:
    """A gauge's reading [bar gauge]: "boiler gauge", "pump gauge" (the machine's own, error and all), "second gauge on
    boiler", "gauge in basket" (a blind basket with a gauge; `Basket("blind")` first), "gauge on fill line" (between
    solenoid and non-return valve), "second gauge at tee"."""

    gauge: str


@dataclass(frozen=True, slots=True)
class TemperatureOf:
    """Temperature [degC] by contact thermometer: "boiler wall", "sensor pocket", "group", "thermosyphon feed",
    "thermosyphon return", "suction hose", "fill line", "pump body", "fill coil", "relay body", "main switch", "element
    end"; or "brew water" in the stream of a flush."""

    place: str


@dataclass(frozen=True, slots=True)
class Display:
    """The controller's display: a Reading [degC], or a Sight "dark", "no sensor", "low resistance"."""


@dataclass(frozen=True, slots=True)
class Lamp:
    """A lamp: "mains", "heating" (the relay's), "fill call", "tank empty", "alarm". Words: "on", "off"."""

    which: str


@dataclass(frozen=True, slots=True)
class Look:
    """A look at a place, as it is now; see `sights.LOOKS` for places and words."""

    place: str


@dataclass(frozen=True, slots=True)
class Listen:
    """Listen or feel: "pump", "fill solenoid", "vacuum valve", "boiler"; see `sights.SOUNDS` for words."""

    to: str


@dataclass(frozen=True, slots=True)
class Inspect:
    """A part opened or in the hand, machine cold and unplugged; see `inspections.INSPECTIONS` for parts and words."""

    part: str


@dataclass(frozen=True, slots=True)
class ActsAt:
    """At what a part acts, taken out and heated or pressed up on the bench: "high limit 1", "high limit 2", "pump
    limiter" [degC], "safety valve", "over-pressure valve" [bar gauge]."""

    part: str


@dataclass(frozen=True, slots=True)
class SensorInBath:
    """Ohms of the temperature sensor with its tip at a known temperature [degC]; behind_plug: measured at the sensor's
    own ends, its plug left out."""

    temperature: float
    behind_plug: bool = False


@dataclass(frozen=True, slots=True)
class Collect:
    """Water caught [ml] in some seconds (the clock runs) at "group", "return hose", "exhaust", "steam tip",
    "water tip", "opened line", "tank outlet"."""

    outlet: str
    seconds: float = 10.0


@dataclass(frozen=True, slots=True)
class Drained:
    """Water that comes out when the boiler is drained cold [ml]; it is empty afterwards."""


@dataclass(frozen=True, slots=True)
class Conductivity:
    """Conductivity of the tank's water [uS/cm]."""


@dataclass(frozen=True, slots=True)
class Watch:
    """Stand and watch for some seconds; the clock runs. Brings back a Course."""

    seconds: float


Observation = (
    ResistanceBetween
    | PartResistance
    | DiodeTest
    | Insulation
    | Volts
    | SocketVolts
    | ControlVolts
    | Amps
    | BoardVolts
    | LeakageAmps
    | PressureOn
    | TemperatureOf
    | Display
    | Lamp
    | Look
    | Listen
    | Inspect
    | ActsAt
    | SensorInBath
    | Collect
    | Drained
    | Conductivity
    | Watch
)
