"""Changes of parameters: put a value, scale it, a leak to the body, a bad joint. Each can be applied and undone."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from expert.machine.build.mains_parts import Leak
from expert.machine.running.machine import Machine

T = TypeVar("T")
Value = float | str | bool | None
Worked = Callable[[Machine], Value]


def get_path(root: Any, path: str) -> Any:
    """The value at "part.field.field" below a value of dataclasses."""
    for name in path.split("."):
        root = getattr(root, name)
    return root


def with_path(root: T, path: str, value: Any) -> T:
    """The same value with one field, however deep, replaced. AttributeError for a name that is not there."""
    name, _, rest = path.partition(".")
    inner = getattr(root, name)
    return replace(root, **{name: with_path(inner, rest, value) if rest else value})  # type: ignore[type-var]


@dataclass(frozen=True, slots=True)
class Set:
    """Put a value at a path below the machine; a function works the value out from the machine."""

    path: str
    value: Value | Worked

    def apply(self, machine: Machine) -> Machine:
        """The machine with the change."""
        value = self.value(machine) if callable(self.value) else self.value
        return with_path(machine, self.path, value)

    def undo(self, machine: Machine, sound: Machine) -> Machine:
        """The machine with what a sound one has at that path."""
        return with_path(machine, self.path, get_path(sound, self.path))


@dataclass(frozen=True, slots=True)
class Scale:
    """Multiply a value at a path below the machine."""

    path: str
    factor: float

    def apply(self, machine: Machine) -> Machine:
        """The machine with the change."""
        return with_path(machine, self.path, get_path(machine, self.path) * self.factor)

    def undo(self, machine: Machine, sound: Machine) -> Machine:
        """The machine with what a sound one has at that path."""
        return with_path(machine, self.path, get_path(sound, self.path))


@dataclass(frozen=True, slots=True)
class LeakToBody:
    """An insulation path of a point to the body. Resistances [ohm] at a plate of 230 V; they go with the voltage, so
    that the current is the same on every supply. steady: they do not (a figure for the 500 V test)."""

    point: str
    cold: float
    hot: float
    damp: float = float("inf")
    from_volts: float = 0.0
    steady: bool = False

    def apply(self, machine: Machine) -> Machine:
        """The machine with the leak."""
        scale = 1.0 if self.steady else machine.build.plate.volts / 230.0
        leak = Leak(self.point, self.cold * scale, self.hot * scale, self.damp, self.from_volts)
        old = machine.parts.mains.wiring.leaks
        return with_path(machine, "parts.mains.wiring.leaks", (*old, leak))

    def undo(self, machine: Machine, sound: Machine) -> Machine:
        """The machine with only a sound machine's leaks at that point."""
        order = sound.parts.mains.wiring.leaks
        kept = [leak for leak in machine.parts.mains.wiring.leaks if leak.point != self.point]
        back = [leak for leak in order if leak.point == self.point]
        leaks = sorted((*kept, *back), key=lambda leak: order.index(leak) if leak in order else len(order))
        return with_path(machine, "parts.mains.wiring.leaks", tuple(leaks))


@dataclass(frozen=True, slots=True)
class BadJoint:
    """A loose, burnt or parted joint, by the point its wire ends at [ohm] at a plate of 230 V.

    The resistance goes with the square of the voltage, so that the joint takes the same share of it on every supply.
    """

    point: str
    ohms: float
    burnt: bool = False

    def apply(self, machine: Machine) -> Machine:
        """The machine with the bad joint."""
        wiring, scale = machine.parts.mains.wiring, (machine.build.plate.volts / 230.0) ** 2
        burnt = (*wiring.burnt, self.point) if self.burnt else wiring.burnt
        worse = replace(wiring, joints=(*wiring.joints, (self.point, self.ohms * scale)), burnt=burnt)
        return with_path(machine, "parts.mains.wiring", worse)

    def undo(self, machine: Machine, sound: Machine) -> Machine:
        """The machine with that joint made good."""
        wiring = machine.parts.mains.wiring
        good = replace(
            wiring,
            joints=tuple(joint for joint in wiring.joints if joint[0] != self.point),
            burnt=tuple(point for point in wiring.burnt if point != self.point),
        )
        return with_path(machine, "parts.mains.wiring", good)


Change = Set | Scale | LeakToBody | BadJoint
