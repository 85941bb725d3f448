"""Brew water on its way: what a vibration pump gives against a pressure, and what a bed of coffee lets through."""

from __future__ import annotations

import math

from expert.trade.errors import above, within

_PUMP = "the straight-line model of a vibration pump"
_PUCK = "Kozeny-Carman's equation"
_VISCOSITY = "the viscosity of water at 1 bar (IAPWS SR6-08)"


def vibration_pump_flow(
    pressure: float,
    free_flow: float,
    shut_pressure: float,
    voltage: float,
    rated_voltage: float,
    frequency: float = 50.0,
    rated_frequency: float = 50.0,
) -> float:
    """Flow of a sound vibration pump against a pressure, in [ml/s].

    pressure [bar], 0 to 25; free_flow: without any, rated supply [ml/s], above 0; shut_pressure: against a shut
    outlet, rated supply [bar], above 0; voltage, rated_voltage [V], above 0; frequency, rated_frequency [Hz], 40 to
    70; else OutOfRange. One stroke a period; the magnet's force goes with (U / f)^2. A quarter out at best.
    Source: common practice, no source.
    >>> round(vibration_pump_flow(9.0, 10.0, 15.0, 230.0, 230.0), 1)
    4.0
    """
    within("pressure", pressure, "bar", 0.0, 25.0, _PUMP)
    for name, value, unit in (
        ("free flow", free_flow, "ml/s"),
        ("shut pressure", shut_pressure, "bar"),
        ("voltage", voltage, "V"),
        ("rated voltage", rated_voltage, "V"),
    ):
        above(name, value, unit, 0.0, _PUMP)
    within("frequency", frequency, "Hz", 40.0, 70.0, _PUMP)
    within("rated frequency", rated_frequency, "Hz", 40.0, 70.0, _PUMP)
    faster = frequency / rated_frequency
    shut = shut_pressure * (voltage / rated_voltage / faster) ** 2
    return max(0.0, free_flow * faster * (1 - pressure / shut))


def water_viscosity(temperature: float) -> float:
    """Viscosity of liquid water near 1 bar, in [mPa s].

    temperature [degC], -20 to 110, else OutOfRange.
    Source: IAPWS SR6-08(2011), equation for the dynamic viscosity at 0.1 MPa.
    >>> round(water_viscosity(298.15 - 273.15), 4)      # table 3 of the release: 0.889996773679
    0.89
    """
    within("temperature", temperature, "degC", -20.0, 110.0, _VISCOSITY)
    reduced = (temperature + 273.15) / 300
    terms = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))
    return math.fsum(a * math.pow(reduced, b) for a, b in terms) / 1000


def puck_flow(
    pressure_drop: float, basket: float, depth: float, grain: float, voids: float, temperature: float = 93.0
) -> float:
    """Flow through a wet bed of ground coffee, in [ml/s].

    pressure_drop: over the bed [bar], 0 to 20; basket: its diameter [mm], 20 to 80; depth: of the bed [mm], 3 to 40;
    grain: surface-mean diameter of the grounds [mm], 0.01 to 2; voids: share between the grains [%], 5 to 60;
    temperature [degC], 0 to 110; else OutOfRange. Real pucks swell and shed fines: it shows what a change does, not
    what a shot will run.
    Source: Kozeny and Carman (1937), v = dp d^2 e^3 / (180 mu L (1 - e)^2).
    >>> round(puck_flow(9.0, 58.0, 12.0, 0.02, 12.0), 1)      # Carman's correlation in the library fluids: 3.23
    3.2
    """
    within("pressure drop", pressure_drop, "bar", 0.0, 20.0, _PUCK)
    within("basket", basket, "mm", 20.0, 80.0, _PUCK)
    within("depth", depth, "mm", 3.0, 40.0, _PUCK)
    within("grain", grain, "mm", 0.01, 2.0, _PUCK)
    within("voids", voids, "%", 5.0, 60.0, _PUCK)
    share = voids / 100
    within("temperature", temperature, "degC", 0.0, 110.0, _PUCK)
    viscosity = water_viscosity(temperature) / 1000
    gradient = pressure_drop * 1e5 / (depth / 1000)
    speed = gradient * (grain / 1000) ** 2 * share**3 / (180 * viscosity * (1 - share) ** 2)
    return speed * math.pi / 4 * basket**2  # m/s times mm2 is ml/s
