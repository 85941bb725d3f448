"""How long heating takes and how hot flowing water gets: loss-free, with losses, with metal, at another supply."""

from __future__ import annotations

import math

from expert.trade import sentences as say
from expert.trade.errors import OutOfRange, WrongArguments, above, in_order, within
from expert.trade.physics.steam import boiler_temperature

WATER_DENSITY = 0.9982  # g/ml, 20 degC fill
WATER_HEAT = 4.186  # J/(g K), 20 degC
# J/(g K); Mechanical Engineer's Data Handbook 3.4.4 (stainless: austenitic).
_METAL_HEAT = {"brass": 0.377, "copper": 0.384, "aluminium": 0.897, "stainless": 0.500}
METALS = tuple(_METAL_HEAT)
_SOURCE = "the heat balance with constant heat capacity"
_LEAST, _MOST = 0.0, 150.0


def heat_up_time(volume: float, power: float, start: float, end: float) -> float:
    """Loss-free time to heat water, t = V rho cp (T2 - T1) / P, in [s].

    volume: of water filled cold [ml], above 0; power: of the heater [W], above 0; start, end: of the water [degC], 0 to
    150, end not below start; else OutOfRange. Constant cp and rho: within 1 % of the enthalpy from IF97.
    Source: heat balance; rho 998.2 kg/m3 and cp 4186 J/(kg K) at 20 degC.
    >>> round(heat_up_time(300.0, 1000.0, 20.0, 93.0), 1)      # reference: 91.5 s
    91.5
    """
    return _loss_free(_water(volume), power, start, end)


def heat_up_time_with_metal(volume: float, power: float, start: float, end: float, mass: float, metal: str) -> float:
    """Loss-free time to heat water and the metal around it, in [s].

    mass: of the metal that gets as hot as the water [g], 0 or more; metal: brass, copper, aluminium or stainless, else
    WrongArguments; the others as in `heat_up_time`; else OutOfRange.
    Source: heat balance; metals: Mechanical Engineer's Data Handbook 3.4.4.
    >>> round(heat_up_time_with_metal(300.0, 1000.0, 20.0, 93.0, 2000.0, "brass"))      # reference: 147 s
    147
    """
    if metal not in _METAL_HEAT:
        raise WrongArguments(say.no_metal_of_the_table(metal[:40], ", ".join(METALS)))
    within("mass of metal", mass, "g", 0.0, 1e6, _SOURCE)
    return _loss_free(_water(volume) + mass * _METAL_HEAT[metal], power, start, end)


def heat_up_time_losing(
    volume: float, power: float, start: float, end: float, holding_power: float, surroundings: float = 20.0
) -> float:
    """Time to heat water in a boiler that loses heat, in [s].

    holding_power: that keeps the water at its end temperature [W], 0 up to just below power (at or above, the end is
    never reached); surroundings [degC], -20 to 60 and below end; the others as in `heat_up_time`; else OutOfRange.
    Source: heat balance with a loss in proportion to the excess over the surroundings.
    >>> round(heat_up_time_losing(1914.6, 1000.0, 20.0, 120.0, 200.0))      # 8 kJ/K, 2 W/K: 892.6 s
    893
    """
    capacity = _water(volume)
    _check_span(power, start, end)
    within("surroundings", surroundings, "degC", -20.0, min(60.0, end - 0.1), _SOURCE)
    above("holding power", holding_power, "W", -1e-9, _SOURCE)
    in_order("holding power", holding_power, "power of the heater", power, "W")
    return heat_up_time_of(capacity, holding_power / (end - surroundings), power, start, end, surroundings)


def heat_up_time_of(
    heat_capacity: float, loss: float, power: float, start: float, end: float, surroundings: float
) -> float:
    """Time to heat a body of a heat capacity that loses heat, (C/UA) ln{[P - UA(T1-Ta)]/[P - UA(T2-Ta)]}, in [s].

    heat_capacity: C [J/K], above 0; loss: UA [W/K], 0 or more; power [W], above 0 and above the loss at the end, else
    OutOfRange (the end is never reached); start, end [degC], 0 to 150; surroundings [degC].
    Source: heat balance with a loss in proportion to the excess over the surroundings.
    >>> round(heat_up_time_of(8000.0, 2.0, 1000.0, 20.0, 120.0, 20.0), 1)      # reference: 892.6 s
    892.6
    """
    above("heat capacity", heat_capacity, "J/K", 0.0, _SOURCE)
    _check_span(power, start, end)
    if loss == 0:
        return heat_capacity * (end - start) / power
    above("loss", loss, "W/K", 0.0, _SOURCE)
    left_at_start, left_at_end = (power - loss * (t - surroundings) for t in (start, end))
    if left_at_end <= 0:
        raise OutOfRange("power", power, "W", loss * (end - surroundings), None, "reaching that temperature")
    return heat_capacity / loss * math.log(left_at_start / left_at_end)


def flow_through_temperature(
    inlet: float, power: float, flow: float, outlet_pressure: float = 0.0, altitude: float = 0.0
) -> float:
    """Temperature of water leaving a flow heater, T_in + P / (rho q cp), in [degC].

    inlet [degC], 0 to 100; power [W], 0 or more; flow [ml/s], above 0; outlet_pressure [bar gauge], 0 to 20; altitude
    [m]; else OutOfRange. Capped at boiling at the outlet: a result there means steam, not hotter water.
    Source: heat balance; rho 998.2 kg/m3 and cp 4186 J/(kg K) at 20 degC; boiling IAPWS R7-97(2012), equation 31.
    >>> round(flow_through_temperature(20.0, 1200.0, 4.0), 1)      # rise 71.8 K
    91.8
    """
    within("inlet temperature", inlet, "degC", 0.0, 100.0, _SOURCE)
    within("power", power, "W", 0.0, 1e6, _SOURCE)
    above("flow", flow, "ml/s", 0.0, _SOURCE)
    within("outlet pressure", outlet_pressure, "bar", 0.0, 20.0, _SOURCE)
    water_only = inlet + power / (WATER_DENSITY * flow * WATER_HEAT)
    return min(water_only, boiler_temperature(outlet_pressure, altitude))


def flow_through_power(flow: float, rise: float) -> float:
    """Power that a flow heater needs, P = rho q cp (T2 - T1), in [W].

    flow [ml/s], 0 or more; rise: of the water [K], 0 to 150; else OutOfRange.
    Source: heat balance; rho 998.2 kg/m3 and cp 4186 J/(kg K) at 20 degC.
    >>> round(flow_through_power(1.5, 73.0))      # reference: 458 W within 1
    458
    """
    within("flow", flow, "ml/s", 0.0, 1e4, _SOURCE)
    within("rise", rise, "K", 0.0, _MOST, _SOURCE)
    return WATER_DENSITY * flow * WATER_HEAT * rise


def flow_through_most_flow(power: float, rise: float) -> float:
    """Most flow that a heater can raise by a wanted temperature, in [ml/s].

    power [W], 0 or more; rise: of the water [K], above 0, at most 150; else OutOfRange.
    Source: heat balance; rho 998.2 kg/m3 and cp 4186 J/(kg K) at 20 degC.
    >>> round(flow_through_most_flow(1200.0, 73.0), 2)      # reference: 3.93 ml/s
    3.93
    """
    within("power", power, "W", 0.0, 1e6, _SOURCE)
    above("rise", rise, "K", 0.0, _SOURCE)
    within("rise", rise, "K", 0.0, _MOST, _SOURCE)
    return power / (WATER_DENSITY * WATER_HEAT * rise)


def time_at_voltage(time: float, rated_voltage: float, voltage: float) -> float:
    """Time that heating takes on another voltage than the rated one, t (Un / U)^2, in [s].

    time: at the rated voltage [s], 0 or more; rated_voltage, voltage: actual [V], above 0; else OutOfRange.
    Source: Joule's law, losses left out.
    >>> round(time_at_voltage(100.0, 230.0, 207.0), 1)      # 1.235 times as long
    123.5
    """
    within("time", time, "s", 0.0, 1e9, _SOURCE)
    above("rated voltage", rated_voltage, "V", 0.0, _SOURCE)
    above("voltage", voltage, "V", 0.0, _SOURCE)
    return time * (rated_voltage / voltage) ** 2


def standing_loss(power: float, on_time: float, off_time: float) -> float:
    """Mean power that keeps an idle boiler hot, P on / (on + off), in [W].

    power: of the heater [W], 0 or more; on_time, off_time: of one or more whole cycles [s], 0 or more and not both 0;
    else OutOfRange.
    Source: mean over a cycle.
    >>> standing_loss(2000.0, 60.0, 240.0)
    400.0
    """
    within("power", power, "W", 0.0, 1e6, _SOURCE)
    within("on time", on_time, "s", 0.0, 1e9, _SOURCE)
    within("off time", off_time, "s", 0.0, 1e9, _SOURCE)
    above("cycle time", on_time + off_time, "s", 0.0, _SOURCE)
    return power * on_time / (on_time + off_time)


def _water(volume: float) -> float:
    above("volume", volume, "ml", 0.0, _SOURCE)
    return volume * WATER_DENSITY * WATER_HEAT


def _check_span(power: float, start: float, end: float) -> None:
    above("power", power, "W", 0.0, _SOURCE)
    within("start temperature", start, "degC", _LEAST, _MOST, _SOURCE)
    within("end temperature", end, "degC", _LEAST, _MOST, _SOURCE)
    in_order("start temperature", start, "end temperature", end, "degC")


def _loss_free(heat_capacity: float, power: float, start: float, end: float) -> float:
    _check_span(power, start, end)
    return heat_capacity * (end - start) / power
