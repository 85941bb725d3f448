"""The figures about heating water."""

from __future__ import annotations

from expert.trade.figures.calculation import Figure, Input
from expert.trade.physics import energy_use, heat_up

_ALTITUDE = Input("altitude", "length", "m", "of the place above sea level", 0.0)
_START = Input("start", "temperature", "degC", "of the water when filled")
_END = Input("end", "temperature", "degC", "of the water when hot")
_VOLUME = Input("volume", "volume", "ml", "of water filled cold", needs_unit=True)
_POWER = Input("power", "power", "W", "of the heater")
_ON = Input("on_time", "time", "s", "on, over one or more whole cycles")
_OFF = Input("off_time", "time", "s", "off, over the same cycles")
_IF97 = "IAPWS R7-97(2012)"
_BALANCE = "heat balance; water 998.2 kg/m3, 4186 J/(kg K) at 20 degC"

HEATING_FIGURES: tuple[Figure, ...] = (
    Figure(
        "heat_up_time",
        "Loss-free time to heat water",
        "t = V rho cp (T2 - T1) / P",
        (_VOLUME, _POWER, _START, _END),
        "time",
        "s",
        _BALANCE,
        "lib",
        "0 to 150 degC; within 1 % of IF97",
        heat_up.heat_up_time,
    ),
    Figure(
        "heat_up_time_with_metal",
        "Loss-free time to heat water and the metal around it",
        "t = (V rho cp + m c) (T2 - T1) / P",
        (
            _VOLUME,
            _POWER,
            _START,
            _END,
            Input("mass", "mass", "g", "of metal that gets as hot as the water", needs_unit=True),
            Input("metal", "word", "", "of which it is made", None, heat_up.METALS),
        ),
        "time",
        "s",
        f"{_BALANCE}; metals: Mechanical Engineer's Data Handbook 3.4.4",
        "pub",
        "0 to 150 degC",
        heat_up.heat_up_time_with_metal,
    ),
    Figure(
        "heat_up_time_losing",
        "Time to heat water in a boiler that loses heat",
        "t = (C / UA) ln{[P - UA (T1 - Ta)] / [P - UA (T2 - Ta)]}, UA = P_hold / (T2 - Ta)",
        (
            _VOLUME,
            _POWER,
            _START,
            _END,
            Input("holding_power", "power", "W", "that keeps the water at its end temperature"),
            Input("surroundings", "temperature", "degC", "of the room", 20.0),
        ),
        "time",
        "s",
        _BALANCE,
        "lib",
        "holding power below the heater's",
        heat_up.heat_up_time_losing,
    ),
    Figure(
        "time_at_voltage",
        "Heating time on another voltage",
        "t (Un / U)^2",
        (
            Input("time", "time", "s", "at the rated voltage"),
            Input("rated_voltage", "ac_voltage", "V", "on the plate"),
            Input("voltage", "ac_voltage", "V", "measured"),
        ),
        "time",
        "s",
        "Joule's law, losses left out",
        "law",
        "any",
        heat_up.time_at_voltage,
    ),
    Figure(
        "flow_through_temperature",
        "Temperature of water leaving a flow heater; at boiling it is steam",
        "T = T_in + P / (rho q cp), at most T_sat(outlet)",
        (
            Input("inlet", "temperature", "degC", "of the water going in"),
            _POWER,
            Input("flow", "flow", "ml/s", "through the heater"),
            Input("outlet_pressure", "gauge_pressure", "bar", "behind the heater", 0.0),
            _ALTITUDE,
        ),
        "temperature",
        "degC",
        f"{_BALANCE}; boiling {_IF97}",
        "lib",
        "inlet 0 to 100 degC, outlet 0 to 20 bar gauge",
        heat_up.flow_through_temperature,
    ),
    Figure(
        "flow_through_power",
        "Power that a flow heater needs",
        "P = rho q cp (T2 - T1)",
        (
            Input("flow", "flow", "ml/s", "through the heater"),
            Input("rise", "temperature_difference", "K", "of the water"),
        ),
        "power",
        "W",
        _BALANCE,
        "lib",
        "rise 0 to 150 K",
        heat_up.flow_through_power,
    ),
    Figure(
        "flow_through_most_flow",
        "Most flow that a heater can raise by a temperature",
        "q = P / (rho cp (T2 - T1))",
        (_POWER, Input("rise", "temperature_difference", "K", "wanted")),
        "flow",
        "ml/s",
        _BALANCE,
        "lib",
        "rise up to 150 K",
        heat_up.flow_through_most_flow,
    ),
    Figure(
        "standing_loss",
        "Mean power that keeps an idle boiler hot",
        "P on / (on + off)",
        (_POWER, _ON, _OFF),
        "power",
        "W",
        "mean over a cycle",
        "law",
        "whole cycles",
        heat_up.standing_loss,
    ),
    Figure(
        "heat_up_energy",
        "Energy that heating water takes",
        "V rho cp (T2 - T1)",
        (_VOLUME, _START, _END),
        "energy",
        "kWh",
        _BALANCE,
        "lib",
        "0 to 150 degC; within 1 % of IF97; no losses, no metal",
        energy_use.heat_up_energy,
    ),
    Figure(
        "idle_energy",
        "Energy that a hot machine takes while it only stands",
        "P t",
        (
            Input("holding_power", "power", "W", "mean over whole cycles, as from standing_loss"),
            Input("time", "time", "s", "that it stands hot", needs_unit=True),
        ),
        "energy",
        "kWh",
        "definition",
        "law",
        "any",
        energy_use.idle_energy,
    ),
    Figure(
        "energy_cost",
        "What an energy costs, in the money of the price",
        "E x price",
        (
            Input("energy", "energy", "kWh", "taken from the mains", needs_unit=True),
            Input("price", "number", "", "of one kilowatt hour, as a plain number"),
        ),
        "number",
        "",
        "definition",
        "law",
        "any",
        energy_use.energy_cost,
    ),
)
