"""Leads and joints under load: what a core of copper and a bad contact drop, and the heat that this makes."""

from __future__ import annotations

from expert.trade.errors import above, within
from expert.trade.physics.copper import copper_resistance

RESISTIVITY = 1 / 58  # ohm mm2/m at 20 degC, annealed copper; IEC 60028
_CORE = "a core of copper"
_JOINT = "Joule's law at a joint"


def lead_resistance(length: float, section: float, temperature: float = 20.0) -> float:
    """Resistance of one core of copper, rho L / A, in [ohm].

    length [m], 0 to 1000; section: of the core [mm2] (a wire gauge such as 14 AWG may be typed), 0.001 to 1000;
    temperature [degC], -50 to 200; else OutOfRange. Stranded cores have up to 8 % more: a sound cord is judged by
    `cord_core_resistance`.
    Source: IEC 60028, annealed copper, 1/58 ohm mm2/m at 20 degC.
    >>> round(lead_resistance(304.8, 2.0808), 2)      # 14 AWG, 1000 ft: 2.525 ohm in wire tables
    2.53
    """
    within("length", length, "m", 0.0, 1000.0, _CORE)
    within("section", section, "mm2", 0.001, 1000.0, _CORE)
    if length == 0:
        return 0.0
    return copper_resistance(RESISTIVITY * length / section, temperature)


def lead_drop(current: float, length: float, section: float, temperature: float = 20.0) -> float:
    """Voltage that a two-core lead drops, there and back, in [V].

    current [A], 0 to 125; the others as in `lead_resistance`, length: of the lead, counted once; else OutOfRange.
    Source: Ohm's law, with `lead_resistance`.
    >>> round(lead_drop(13.0, 10.0, 1.5), 2)      # 2 x 10 m / (58 x 1.5 mm2) x 13 A
    2.99
    """
    within("current", current, "A", 0.0, 125.0, _CORE)
    return 2 * current * lead_resistance(length, section, temperature)


def joint_heat(current: float, voltage_drop: float) -> float:
    """Heat that a joint or a contact gives off, U I, in [W].

    current: through it [A], 0 to 125; voltage_drop: measured across it under load [V], 0 to 250; else OutOfRange.
    A push-on terminal that gives off more than some 2 W scorches (common practice, no source).
    Source: Joule's law.
    >>> joint_heat(10.0, 0.5)
    5.0
    """
    within("current", current, "A", 0.0, 125.0, _JOINT)
    within("voltage drop", voltage_drop, "V", 0.0, 250.0, _JOINT)
    return current * voltage_drop


def joint_resistance(current: float, voltage_drop: float) -> float:
    """Resistance of a joint or a contact from its voltage drop under load, U / I, in [ohm].

    current: through it [A], above 0, at most 125; voltage_drop [V], 0 to 250; else OutOfRange. No ohmmeter without
    four leads sees it.
    Source: Ohm's law.
    >>> joint_resistance(10.0, 0.5)
    0.05
    """
    above("current", current, "A", 0.0, _JOINT)
    within("current", current, "A", 0.0, 125.0, _JOINT)
    within("voltage drop", voltage_drop, "V", 0.0, 250.0, _JOINT)
    return voltage_drop / current
