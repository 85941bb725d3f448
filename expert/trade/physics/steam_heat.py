"""What steam costs in heat: latent heat, steam from a heater's power, flashing when hot water is let down."""

from __future__ import annotations

from expert.trade.errors import above, within
from expert.trade.physics.altitude import STANDARD_AIR, air_pressure
from expert.trade.physics.steam import boiler_temperature, saturation_temperature
from expert.trade.physics.water_properties import liquid_heat, steam_heat

_SOURCE = "the heat balance of a steam boiler"


def latent_heat(gauge_pressure: float, altitude: float = 0.0) -> float:
    """Heat that turns one kilogram of boiling water into dry steam, in [kJ].

    gauge_pressure: of the boiler [bar gauge], from vacuum to 14.5; altitude: of the place [m]; else OutOfRange.
    Source: IAPWS R7-97(2012), regions 1, 2 and 4.
    >>> round(latent_heat(1.2), 1)      # IF97 with a reference library: 2192.5 within 0.05
    2192.5
    """
    temperature = boiler_temperature(gauge_pressure, altitude)
    return steam_heat(temperature) - _boiling_liquid(temperature, gauge_pressure + air_pressure(altitude))


def steam_in_an_hour(power: float, gauge_pressure: float, feed_temperature: float, altitude: float = 0.0) -> float:
    """Dry steam that a heater makes in one hour from feed water, no losses, in [kg].

    power: of the heater [W], above 0; gauge_pressure: of the boiler [bar gauge]; feed_temperature [degC], 0 up to
    boiling; altitude [m]. Else OutOfRange.
    Source: heat balance with IAPWS R7-97(2012), regions 1 and 2.
    >>> round(steam_in_an_hour(1000.0, 1.2, 20.0), 2)      # 1.370 kg per hour and kilowatt
    1.37
    """
    above("power", power, "W", 0.0, _SOURCE)
    boiling = boiler_temperature(gauge_pressure, altitude)
    within("feed temperature", feed_temperature, "degC", 0.0, boiling, _SOURCE)
    if feed_temperature == boiling:
        return power / 1000 * 3600 / latent_heat(gauge_pressure, altitude)
    return power / 1000 * 3600 / (steam_heat(boiling) - liquid_heat(feed_temperature))


def steam_in_an_hour_from_boiling(power: float, gauge_pressure: float, altitude: float = 0.0) -> float:
    """Dry steam that a heater makes in one hour from water that boils already, no losses, in [kg].

    power: of the heater [W], above 0; gauge_pressure: of the boiler [bar gauge]; altitude [m]; else OutOfRange.
    Source: heat balance with IAPWS R7-97(2012), regions 1 and 2.
    >>> round(steam_in_an_hour_from_boiling(1000.0, 1.2), 3)      # 1.642 kg per hour and kilowatt
    1.642
    """
    above("power", power, "W", 0.0, _SOURCE)
    return power / 1000 * 3600 / latent_heat(gauge_pressure, altitude)


def flash_share(gauge_pressure: float, altitude: float = 0.0) -> float:
    """Share of boiler water that turns to steam when it is let down to the open air, in [%] by mass.

    gauge_pressure: of the boiler [bar gauge], 0 to 14.5; altitude [m]; else OutOfRange.
    Source: constant enthalpy, IAPWS R7-97(2012), regions 1 and 2.
    >>> round(flash_share(1.2), 1)      # 4.4 within 0.1
    4.4
    """
    within("gauge pressure", gauge_pressure, "bar", 0.0, 14.5, _SOURCE)
    air = air_pressure(altitude)
    hot = _boiling_liquid(boiler_temperature(gauge_pressure, altitude), gauge_pressure + air)
    return 100 * (hot - _boiling_liquid(saturation_temperature(air), air)) / latent_heat(0.0, altitude)


def _boiling_liquid(temperature: float, pressure: float) -> float:
    """Heat content of boiling water; the pressure is the boiling pressure, the default covers only the open air up."""
    return liquid_heat(temperature, pressure * (1 + 1e-12)) if pressure < STANDARD_AIR else liquid_heat(temperature)
