"""What hands can do, one frozen value each. `hands.do` carries them out."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Plug:
    """Put the plug in (`in_socket`) or pull it. Plugging in also resets a tripped residual-current device."""

    in_socket: bool = True


@dataclass(frozen=True, slots=True)
class Switch:
    """Work the main switch."""

    on: bool = True


@dataclass(frozen=True, slots=True)
class Covers:
    """Take the covers off or put them on."""

    off: bool = True


@dataclass(frozen=True, slots=True)
class Wait:
    """Let it stand or run as it is for some seconds."""

    seconds: float


@dataclass(frozen=True, slots=True)
class HeatUp:
    """Switch on, and wait until the display stands at the set point or the minutes are over, then `settle` minutes."""

    minutes: float = 25.0
    settle: float = 0.0


@dataclass(frozen=True, slots=True)
class CoolDown:
    """Switch off and wait until boiler and group are below a temperature [degC], at most a night."""

    below: float = 40.0


@dataclass(frozen=True, slots=True)
class Dry:
    """Dry the inside with warm air for two hours, plug out: what is damp dries, what is broken stays broken."""


@dataclass(frozen=True, slots=True)
class Vent:
    """Open the steam tap until nothing comes, close it again; let the pressure out at the group."""


@dataclass(frozen=True, slots=True)
class Lever:
    """Lift or lower the brew lever."""

    up: bool = True


@dataclass(frozen=True, slots=True)
class Basket:
    """Put in a basket: "none", "blind" or "coffee"."""

    kind: str


@dataclass(frozen=True, slots=True)
class Tap:
    """Open the "steam" or "water" tap by a share, 0 shut to 1 open."""

    which: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class FillTank:
    """Fill the tank to the brim, or to litres; 0 empties it."""

    litres: float | None = None


@dataclass(frozen=True, slots=True)
class SeatTank:
    """Press the tank home on its valve."""


@dataclass(frozen=True, slots=True)
class DrainBoiler:
    """Let the boiler's water out (cold)."""


@dataclass(frozen=True, slots=True)
class PourIntoBoiler:
    """Put tap water into the boiler by hand, cold, up to a volume [l]."""

    litres: float


@dataclass(frozen=True, slots=True)
class Alter:
    """Alter something for a test. kind: "lift" a wire (joint), "loosen" a line, "pinch" a hose, "bypass", "cap" an
    outlet, "take tip off" ("steam", "water"), "remove" a part, "feed" a part from the mains. Names as in `bench.py`."""

    kind: str
    what: str


@dataclass(frozen=True, slots=True)
class PutBack:
    """Undo an `Alter` of the same kind and name."""

    kind: str
    what: str


@dataclass(frozen=True, slots=True)
class Link:
    """Lay a wire, resistor or test lamp between two points [ohm]."""

    one: str
    other: str
    ohms: float = 0.05


@dataclass(frozen=True, slots=True)
class Battery:
    """Put a battery across two points, plus first; 0 V takes it away."""

    plus: str
    minus: str
    volts: float = 9.0


@dataclass(frozen=True, slots=True)
class PutAllBack:
    """Everything altered for tests is put back: wires, lines, links, hoses, caps, tips, parts in the hand."""


@dataclass(frozen=True, slots=True)
class ResetLimit:
    """Press the reset button of high limit 1 or 2; it takes only when its wall has cooled 30 K."""

    number: int


@dataclass(frozen=True, slots=True)
class NewFuse:
    """Fit a fuse of the same rating: "mains" or "board"."""

    which: str


@dataclass(frozen=True, slots=True)
class Settings:
    """Change the controller's settings: set point, offset [degC], sensor type; None leaves one alone."""

    set_point: float | None = None
    offset: float | None = None
    expects: str | None = None


@dataclass(frozen=True, slots=True)
class PrimePump:
    """Push water through the pump with a syringe."""


@dataclass(frozen=True, slots=True)
class KnockPump:
    """Tap the running pump with a screwdriver handle."""


@dataclass(frozen=True, slots=True)
class Flush:
    """Lever up for some seconds without a basket, then down."""

    seconds: float = 10.0


@dataclass(frozen=True, slots=True)
class Mend:
    """Put a part right (clean, adjust or replace): its parameters and its own damage become those of a sound one."""

    part: str


Action = (
    Plug
    | Switch
    | Covers
    | Wait
    | HeatUp
    | CoolDown
    | Dry
    | Vent
    | Lever
    | Basket
    | Tap
    | FillTank
    | SeatTank
    | DrainBoiler
    | PourIntoBoiler
    | Alter
    | PutBack
    | Link
    | Battery
    | PutAllBack
    | ResetLimit
    | NewFuse
    | Settings
    | PrimePump
    | KnockPump
    | Flush
    | Mend
)
