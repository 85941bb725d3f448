"""What a safety valve can carry off: steam through its bore, and the heater power that makes as much."""

from __future__ import annotations

import math

from expert.trade.errors import above, within
from expert.trade.physics.altitude import air_pressure
from expert.trade.physics.steam import saturation_temperature
from expert.trade.physics.steam_heat import latent_heat
from expert.trade.physics.water_properties import steam_density

DISCHARGE = 0.5  # of small spring-loaded valves whose own figure is not known (common practice, no source)
OVERPRESSURE = 1.1  # full lift at 10 % above the set pressure; ISO 4126-1
_ISENTROPIC = 1.135  # of saturated steam in equilibrium; 1.3, that of superheated steam, gives 5 % too much
_SOURCE = "the steam capacity of a safety valve (ISO 4126-1, critical flow)"


def relief_capacity(set_pressure: float, bore: float, discharge: float = DISCHARGE, altitude: float = 0.0) -> float:
    """Dry steam that a safety valve lets out in one hour at 10 % above its set pressure, in [kg].

    set_pressure: on the valve [bar gauge], 0.9 to 14 (below, the flow is not critical); bore: narrowest diameter [mm],
    above 0, at most 50; discharge: the valve's own coefficient, derated, 0.1 to 0.9; altitude [m]; else OutOfRange.
    Source: ISO 4126-1, qm = 0.2883 C A K sqrt(p / v) with C for an isentropic exponent of 1.135 (from memory, to
    be confirmed; compared with isentropic flow from CoolProp, and with API 520 in the library fluids: 3 % more).
    >>> round(relief_capacity(2.0, 8.0, 0.7))      # isentropic flow from CoolProp: 60.7; API 520: 59.3
    61
    """
    within("set pressure", set_pressure, "bar", 0.9, 14.0, _SOURCE)
    above("bore", bore, "mm", 0.0, _SOURCE)
    within("bore", bore, "mm", 0.0, 50.0, _SOURCE)
    within("discharge coefficient", discharge, "", 0.1, 0.9, _SOURCE)
    relieving = OVERPRESSURE * set_pressure + air_pressure(altitude)
    k = _ISENTROPIC
    critical = 3.948 * math.sqrt(k * (2 / (k + 1)) ** ((k + 1) / (k - 1)))
    density = steam_density(saturation_temperature(relieving))
    return 0.2883 * critical * math.pi / 4 * bore**2 * discharge * math.sqrt(relieving * density)


def relief_power(set_pressure: float, bore: float, discharge: float = DISCHARGE, altitude: float = 0.0) -> float:
    """Heater power whose whole steam a safety valve carries off at 10 % above its set pressure, in [W].

    A heater of more than this can raise the pressure further although the valve blows. All as in `relief_capacity`;
    else OutOfRange.
    Source: ISO 4126-1 (as in `relief_capacity`), heat of evaporation by IAPWS R7-97(2012).
    >>> round(relief_power(2.0, 8.0, 0.7) / 1000)      # 60.7 kg/h of 2157 kJ/kg
    36
    """
    grams_a_second = relief_capacity(set_pressure, bore, discharge, altitude) / 3.6
    return grams_a_second * latent_heat(OVERPRESSURE * set_pressure, altitude)
