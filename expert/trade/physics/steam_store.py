"""A boiler as a store of heat: steam that one draw gives, how long it takes to recover, the swing of a pressurestat."""

from __future__ import annotations

import math

from expert.trade.errors import above, in_order, within
from expert.trade.physics.steam import boiler_pressure, boiler_temperature
from expert.trade.physics.water_properties import liquid_density, liquid_heat, steam_heat

_STORE = "the heat balance of boiling water in a boiler"
_STEPS = 20
ROOM = 20.0  # degC


def steam_drawn(volume: float, start_pressure: float, end_pressure: float, altitude: float = 0.0) -> float:
    """Steam that boiling water gives while its pressure falls, heater off, in [g].

    volume: of water in the boiler, hot [ml], above 0; start_pressure, end_pressure [bar gauge], 0 to 14.5, end not
    above start; altitude [m]; else OutOfRange. The steam space is left out: it adds about 1 g a litre and bar.
    Source: heat balance dM / M = dh / r with IAPWS R7-97(2012).
    >>> round(steam_drawn(1500.0, 1.2, 0.8))      # 1.41 kg of water, 6.3 K, 4.25 kJ/(kg K) over 2200 kJ/kg
    17
    """
    above("volume", volume, "ml", 0.0, _STORE)
    high, low = _span(*_falling(start_pressure, end_pressure), altitude)
    mass = volume * liquid_density(high) / 1000
    width = (high - low) / _STEPS
    given = 0.0
    for step in range(_STEPS):
        warm, middle, cool = high - step * width, high - (step + 0.5) * width, high - (step + 1) * width
        evaporation = steam_heat(middle) - liquid_heat(middle)
        given += (liquid_heat(warm) - liquid_heat(cool)) / evaporation
    return mass * (1 - math.exp(-given))


def steam_recovery_time(
    volume: float, power: float, start_pressure: float, end_pressure: float, altitude: float = 0.0
) -> float:
    """Loss-free time in which a heater brings a boiler back from a lower to a higher pressure, in [s].

    volume: of hot water [ml], above 0; power [W], above 0; start_pressure, end_pressure [bar gauge], 0 to 14.5, start
    not above end; altitude [m]; else OutOfRange. Cold water filled in meanwhile comes on top (`heat_up_time`).
    Source: heat balance with IAPWS R7-97(2012).
    >>> round(steam_recovery_time(1500.0, 1400.0, 0.8, 1.2))      # 1.42 kg x 26.8 kJ/kg / 1.4 kW
    27
    """
    above("power", power, "W", 0.0, _STORE)
    in_order("start pressure", start_pressure, "end pressure", end_pressure, "bar")
    return _stored(volume, start_pressure, end_pressure, altitude) / power


def pressurestat_off_time(
    volume: float, holding_power: float, cut_in: float, cut_out: float, altitude: float = 0.0
) -> float:
    """How long a pressurestat stays off in an idle boiler, in [s]. Metal that cools with the water makes it longer.

    volume: of hot water [ml], above 0; holding_power: mean power that the idle boiler loses [W], above 0; cut_in,
    cut_out [bar gauge], 0 to 14.5, in not above out; altitude [m]; else OutOfRange.
    Source: heat balance with IAPWS R7-97(2012).
    >>> round(pressurestat_off_time(6000.0, 300.0, 0.9, 1.1))      # 5.7 kg x 13.3 kJ/kg / 0.3 kW
    252
    """
    above("holding power", holding_power, "W", 0.0, _STORE)
    in_order("cut-in", cut_in, "cut-out", cut_out, "bar")
    return _stored(volume, cut_in, cut_out, altitude) / holding_power


def pressurestat_swing(cut_in: float, cut_out: float, altitude: float = 0.0) -> float:
    """By how much a pressurestat lets the boiler's temperature swing, in [K].

    cut_in, cut_out [bar gauge], 0 to 14.5, in not above out; altitude [m]; else OutOfRange.
    Source: IAPWS R7-97(2012), ISO 2533:1975.
    >>> round(pressurestat_swing(0.9, 1.1), 1)      # IF97: 121.96 - 118.82
    3.1
    """
    in_order("cut-in", cut_in, "cut-out", cut_out, "bar")
    high, low = _span(cut_out, cut_in, altitude)
    return high - low


def pressure_after(
    volume: float, start_pressure: float, holding_power: float, time: float, altitude: float = 0.0
) -> float:
    """Gauge pressure of a shut, sound boiler some time after its heater went off, in [bar]. Lower means a loss.

    volume: of hot water [ml], above 0; start_pressure [bar gauge], 0 to 14.5; holding_power: mean power that kept it
    there [W], 0 or more; time: since [s], 0 to 100000; altitude [m]; else OutOfRange. Room of 20 degC; metal left out,
    with which it falls more slowly; below boiling in the open a vacuum relief valve ends it.
    Source: cooling in proportion to the excess over the room; IAPWS R7-97(2012).
    >>> round(pressure_after(1500.0, 1.2, 150.0, 600.0), 2)      # an ODE solver on CoolProp's data: 0.39
    0.39
    """
    within("time", time, "s", 0.0, 1e5, _STORE)
    within("holding power", holding_power, "W", 0.0, 1e5, _STORE)
    above("volume", volume, "ml", 0.0, _STORE)
    hot, _ = _span(start_pressure, start_pressure, altitude)
    capacity = volume * liquid_density(hot) / 1000 * 4.24  # J/K, 4.24 J/(g K) between 100 and 125 degC
    left = math.exp(-holding_power / (hot - ROOM) * time / capacity)
    return boiler_pressure(ROOM + (hot - ROOM) * left, altitude)


def steam_loss(
    volume: float, start_pressure: float, end_pressure: float, time: float, holding_power: float, altitude: float = 0.0
) -> float:
    """Steam that a boiler lost beyond its cooling while its pressure fell, heater off, in one hour, in [g].

    volume: of hot water [ml], above 0; start_pressure, end_pressure [bar gauge], 0 to 14.5, end not above start; time:
    that the fall took [s], above 0; holding_power: that a sound boiler of this kind loses at the start [W], 0 or
    more; altitude [m]; else OutOfRange. Room of 20 degC. Below 0: it cooled more slowly than that, and nothing leaks.
    Source: heat balance with IAPWS R7-97(2012).
    >>> round(steam_loss(1500.0, 1.2, 0.39, 300.0, 150.0))      # 84.5 kJ lost, 41.9 by cooling; CoolProp
    230
    """
    above("time", time, "s", 0.0, _STORE)
    within("holding power", holding_power, "W", 0.0, 1e5, _STORE)
    high, low = _span(*_falling(start_pressure, end_pressure), altitude)
    middle = (high + low) / 2
    cooling = holding_power * (middle - ROOM) / (high - ROOM)  # what it loses to the room goes down with it
    lost = _stored(volume, end_pressure, start_pressure, altitude) - cooling * time
    return lost / (steam_heat(middle) - liquid_heat(middle)) * 3600 / time


def _stored(volume: float, low: float, high: float, altitude: float) -> float:
    """Heat between two pressures in a volume of hot water, in [J]."""
    above("volume", volume, "ml", 0.0, _STORE)
    hot, cool = _span(high, low, altitude)
    return volume * liquid_density(hot) / 1000 * (liquid_heat(hot) - liquid_heat(cool))


def _falling(start: float, end: float) -> tuple[float, float]:
    """The two pressures, which must not rise."""
    in_order("end pressure", end, "start pressure", start, "bar")
    return start, end


def _span(high: float, low: float, altitude: float) -> tuple[float, float]:
    """The two boiling temperatures."""
    within("higher pressure", high, "bar", 0.0, 14.5, _STORE)
    within("lower pressure", low, "bar", 0.0, high, _STORE)
    return boiler_temperature(high, altitude), boiler_temperature(low, altitude)
