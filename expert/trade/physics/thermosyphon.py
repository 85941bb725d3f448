"""The flow that a thermosyphon loop drives by itself, from the weights of its hot and its cold leg."""

from __future__ import annotations

import math
from collections.abc import Callable

from expert.trade.errors import above, in_order, within
from expert.trade.physics.brew_path import water_viscosity
from expert.trade.physics.water_properties import liquid_density

GRAVITY = 9.80665  # m/s2
FITTINGS = 10.0  # loss coefficients of bends, entries and exits together (common practice, no source)
_LOOP = "the balance of buoyancy and friction in a loop"
_LAMINAR = 2300.0


def thermosyphon_flow(
    hot: float, cold: float, height: float, bore: float, length: float, fittings: float = FITTINGS
) -> float:
    """Flow round a thermosyphon loop, in [ml/s]. Scale bites hard: half the bore leaves a sixteenth at best.

    hot, cold: means of the rising and the falling leg [degC], 0 to 110, hot not below cold; height: between heat
    exchanger and group [m], 0 to 5; bore: of the pipes [mm], 1 to 50; length: of the whole loop [m], above 0, at most
    50; fittings: sum of loss coefficients, restrictor included, 0 to 1e6; else OutOfRange.
    Source: buoyancy (rho_cold - rho_hot) g h against (f L/D + K) rho v^2/2; f 64/Re, above Re 2300 Blasius.
    >>> round(thermosyphon_flow(95.0, 85.0, 0.3, 8.0, 1.2), 1)      # fluids and CoolProp, solved: 2.4
    2.4
    """
    within("hot leg", hot, "degC", 0.0, 110.0, _LOOP)
    within("cold leg", cold, "degC", 0.0, 110.0, _LOOP)
    in_order("cold leg", cold, "hot leg", hot, "degC")
    within("height", height, "m", 0.0, 5.0, _LOOP)
    within("bore", bore, "mm", 1.0, 50.0, _LOOP)
    above("length", length, "m", 0.0, _LOOP)
    within("length", length, "m", 0.0, 50.0, _LOOP)
    within("fittings", fittings, "", 0.0, 1e6, _LOOP)
    pressure = 1.01325 if hot < 99.0 else 2.5  # liquid all round; a bar more changes the density by 0.005 %
    drive = (liquid_density(cold, pressure) - liquid_density(hot, pressure)) * GRAVITY * height
    middle = (hot + cold) / 2
    density, viscosity = liquid_density(middle, pressure), water_viscosity(middle) / 1000
    width = bore / 1000

    def resists(speed: float) -> float:
        reynolds = density * speed * width / viscosity
        friction = 64 / reynolds if reynolds < _LAMINAR else 0.3164 / reynolds**0.25
        return (friction * length / width + fittings) * density * speed**2 / 2

    return _speed(resists, drive) * math.pi / 4 * bore**2  # m/s times mm2 is ml/s


def _speed(resists: Callable[[float], float], drive: float) -> float:
    """The speed [m/s] at which the resistance, which only grows, takes up the drive [Pa]."""
    if drive <= 0:
        return 0.0
    low, high = 1e-9, 10.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if resists(middle) < drive else (low, middle)
    return low
