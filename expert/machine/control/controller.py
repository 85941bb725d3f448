"""The temperature controller: what it shows, and whether it calls for heat."""

from __future__ import annotations

from dataclasses import dataclass

from expert.machine.build.mains_parts import Controller
from expert.machine.heat.sensing import SHORT_BELOW, shown_temperature

HYSTERESIS = 1.0  # K


@dataclass(frozen=True, slots=True)
class Display:
    """What the display shows: "dark", "low resistance" or "no sensor" (its two error messages), or a temperature."""

    message: str = ""
    temperature: float | None = None


def display(controller: Controller, powered: bool, ohms: float) -> Display:
    """What the controller shows with a resistance at its sensor terminals [ohm]."""
    if not (powered and controller.alive):
        return Display("dark")
    shown = shown_temperature(controller.expects, ohms)
    if shown is None:
        return Display("low resistance" if ohms < SHORT_BELOW[controller.expects] else "no sensor")
    return Display("", shown + controller.offset)


def calls_for_heat(controller: Controller, shown: Display, calls_now: bool) -> bool:
    """Whether the output is on: below the set point less the hysteresis, until the set point; never on an error."""
    if shown.message == "dark":
        return False
    if controller.output != "works":
        return controller.output == "stuck on"
    if shown.temperature is None:
        return False
    below = controller.set_point - (0.0 if calls_now else HYSTERESIS)
    return shown.temperature < below
