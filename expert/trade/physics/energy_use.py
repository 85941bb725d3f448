"""What heating up and idling take from the mains, and what that costs."""

from __future__ import annotations

from expert.trade.errors import in_order, within
from expert.trade.physics.heat_up import WATER_DENSITY, WATER_HEAT

_ENERGY = "the energy of heating up and idling"
_HOUR = 3600.0


def heat_up_energy(volume: float, start: float, end: float) -> float:
    """Energy that heating water takes, no losses and no metal, in [kWh].

    volume: filled cold [ml], 0 to 1e6; start, end [degC], 0 to 150, end not below start; else OutOfRange. With its
    metal a boiler takes half as much again and more (common practice, no source).
    Source: heat balance; water 998.2 kg/m3, 4186 J/(kg K) at 20 degC; within 1 % of IF97.
    >>> round(heat_up_energy(1800.0, 20.0, 120.0), 3)      # IF97: 0.2096 kWh
    0.209
    """
    within("volume", volume, "ml", 0.0, 1e6, _ENERGY)
    within("start", start, "degC", 0.0, 150.0, _ENERGY)
    within("end", end, "degC", 0.0, 150.0, _ENERGY)
    in_order("start", start, "end", end, "degC")
    return volume * WATER_DENSITY * WATER_HEAT * (end - start) / 1000 / _HOUR


def idle_energy(holding_power: float, time: float) -> float:
    """Energy that a hot machine takes while it only stands, in [kWh].

    holding_power: mean over whole cycles [W], 0 to 100000; time [s], 0 or more; else OutOfRange.
    Source: definition.
    >>> idle_energy(200.0, 10 * 3600.0)
    2.0
    """
    within("holding power", holding_power, "W", 0.0, 1e5, _ENERGY)
    within("time", time, "s", 0.0, 1e10, _ENERGY)
    return holding_power * time / 1000 / _HOUR


def energy_cost(energy: float, price: float) -> float:
    """What an energy costs, in the money of the price.

    energy [kWh], 0 or more; price: of one kilowatt hour, 0 or more; else OutOfRange.
    Source: definition.
    >>> round(energy_cost(2.0, 0.35), 2)
    0.7
    """
    within("energy", energy, "kWh", 0.0, 1e9, _ENERGY)
    within("price", price, "", 0.0, 1e6, _ENERGY)
    return energy * price
