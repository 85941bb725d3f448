"""The figures about a boiler as a store of steam: draws, recovery, pressurestat, pressure fall, safety valve."""

from __future__ import annotations

from expert.trade.figures.calculation import Figure, Input
from expert.trade.physics import leak_test, relief, steam_store

_ALTITUDE = Input("altitude", "length", "m", "of the place above sea level", 0.0)
_HOT_WATER = Input("volume", "volume", "ml", "of hot water in the boiler", needs_unit=True)
_FROM = Input("start_pressure", "gauge_pressure", "bar", "at the beginning")
_TO = Input("end_pressure", "gauge_pressure", "bar", "at the end")
_IN = Input("cut_in", "gauge_pressure", "bar", "at which it switches on")
_OUT = Input("cut_out", "gauge_pressure", "bar", "at which it switches off")
_HOLDING = Input("holding_power", "power", "W", "mean that keeps the idle boiler hot, as from standing_loss")
_SET = Input("set_pressure", "gauge_pressure", "bar", "on the valve")
_BORE = Input("bore", "length", "mm", "narrowest diameter of the valve")
_DISCHARGE = Input("discharge", "number", "", "the valve's own coefficient, derated", relief.DISCHARGE)
_IF97 = "heat balance with IAPWS R7-97(2012)"
_VALVE = "ISO 4126-1 from memory; compared with isentropic flow and API 520"

BOILER_FIGURES: tuple[Figure, ...] = (
    Figure(
        "steam_drawn",
        "Steam that boiling water gives while its pressure falls",
        "dM / M = dh / h_fg, from one pressure to the other",
        (
            _HOT_WATER,
            _FROM,
            _TO,
            _ALTITUDE,
        ),
        "mass",
        "g",
        _IF97,
        "lib",
        "0 to 14.5 bar gauge; heater off, steam space left out",
        steam_store.steam_drawn,
    ),
    Figure(
        "steam_recovery_time",
        "Loss-free time to bring a boiler back to a pressure",
        "t = M (h2 - h1) / P",
        (
            _HOT_WATER,
            Input("power", "power", "W", "of the heater"),
            _FROM,
            _TO,
            _ALTITUDE,
        ),
        "time",
        "s",
        _IF97,
        "lib",
        "0 to 14.5 bar gauge; no losses, no cold water meanwhile",
        steam_store.steam_recovery_time,
    ),
    Figure(
        "pressurestat_off_time",
        "How long a pressurestat stays off in an idle boiler",
        "t = M (h_out - h_in) / P_hold",
        (
            _HOT_WATER,
            _HOLDING,
            _IN,
            _OUT,
            _ALTITUDE,
        ),
        "time",
        "s",
        _IF97,
        "lib",
        "0 to 14.5 bar gauge; metal makes it longer",
        steam_store.pressurestat_off_time,
    ),
    Figure(
        "pressurestat_swing",
        "By how much a pressurestat lets the boiler's temperature swing",
        "T_sat(cut-out) - T_sat(cut-in)",
        (
            _IN,
            _OUT,
            _ALTITUDE,
        ),
        "temperature_difference",
        "K",
        "IAPWS R7-97(2012); ISO 2533:1975",
        "lib",
        "0 to 14.5 bar gauge; no air in the boiler",
        steam_store.pressurestat_swing,
    ),
    Figure(
        "pressure_after",
        "Pressure of a shut, sound boiler some time after its heater went off",
        "T = Ta + (T1 - Ta) exp(-UA t / C), p = p_sat(T)",
        (
            _HOT_WATER,
            _FROM,
            _HOLDING,
            Input("time", "time", "s", "since the heater went off", needs_unit=True),
            _ALTITUDE,
        ),
        "gauge_pressure",
        "bar",
        _IF97,
        "lib",
        "room of 20 degC; metal makes it fall more slowly",
        steam_store.pressure_after,
    ),
    Figure(
        "steam_loss",
        "Steam that a boiler loses beyond its cooling, in one hour",
        "m = [M (h1 - h2) - P_hold (Tm - Ta) / (T1 - Ta) t] / h_fg x 1 h / t",
        (
            _HOT_WATER,
            _FROM,
            _TO,
            Input("time", "time", "s", "that the fall took, heater off", needs_unit=True),
            _HOLDING,
            _ALTITUDE,
        ),
        "mass",
        "g",
        _IF97,
        "lib",
        "0 to 14.5 bar gauge, room of 20 degC; below 0: it only cooled",
        steam_store.steam_loss,
    ),
    Figure(
        "air_leak",
        "Air that leaks from a vessel under test, its cooling told apart",
        "q = (p1 / T1 - p2 / T2) V T2 / (p_air t)",
        (
            Input("volume", "volume", "ml", "of the air in the vessel", needs_unit=True),
            _FROM,
            _TO,
            Input("time", "time", "s", "between the two readings", needs_unit=True),
            Input("start_temperature", "temperature", "degC", "of the air at the beginning", 20.0),
            Input("end_temperature", "temperature", "degC", "of the air at the end", 20.0),
            _ALTITUDE,
        ),
        "flow",
        "ml/s",
        "gas law",
        "lib",
        "-0.9 to 10 bar gauge, dry air",
        leak_test.air_leak,
    ),
    Figure(
        "cooled_pressure",
        "Pressure that cooling alone leaves in a vessel of air",
        "p2 = p1 T2 / T1, absolute",
        (
            _FROM,
            Input("start_temperature", "temperature", "degC", "of the air at the beginning"),
            Input("end_temperature", "temperature", "degC", "of the air at the end"),
            _ALTITUDE,
        ),
        "gauge_pressure",
        "bar",
        "gas law",
        "lib",
        "-0.9 to 10 bar gauge, dry air",
        leak_test.cooled_pressure,
    ),
    Figure(
        "relief_capacity",
        "Steam that a safety valve lets out in one hour",
        "q = 0.2883 C A K sqrt(p / v) at 1.1 x set pressure",
        (
            _SET,
            _BORE,
            _DISCHARGE,
            _ALTITUDE,
        ),
        "mass",
        "kg",
        _VALVE,
        "mem",
        "0.9 to 14 bar gauge; within 5 % of isentropic flow",
        relief.relief_capacity,
    ),
    Figure(
        "relief_power",
        "Heater power whose whole steam a safety valve carries off",
        "P = q h_fg at 1.1 x set pressure",
        (
            _SET,
            _BORE,
            _DISCHARGE,
            _ALTITUDE,
        ),
        "power",
        "W",
        _VALVE,
        "mem",
        "0.9 to 14 bar gauge; a heater above it can raise the pressure though the valve blows",
        relief.relief_power,
    ),
)
