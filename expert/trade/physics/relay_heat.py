"""Heat of a solid-state relay, and what its heat sink makes of it."""

from __future__ import annotations

from expert.trade.errors import in_order, within

DROP = 1.2  # V across a conducting triac or thyristor pair, 1.0 to 1.6 by data sheet (common practice, no source)
_SINK = "a solid-state relay on its heat sink"


def relay_loss(current: float, forward_drop: float = DROP) -> float:
    """Heat that a conducting solid-state relay gives off, U I, in [W].

    current: through it, effective [A], 0 to 125; forward_drop [V], 0.5 to 3; else OutOfRange. Times the duty where it
    cycles.
    Source: makers' data sheets: about 1.2 W per ampere.
    >>> round(relay_loss(10.0))
    12
    """
    within("current", current, "A", 0.0, 125.0, _SINK)
    within("forward drop", forward_drop, "V", 0.5, 3.0, _SINK)
    return current * forward_drop


def relay_base_temperature(
    current: float, sink_resistance: float, surroundings: float = 40.0, forward_drop: float = DROP
) -> float:
    """Steady temperature of a solid-state relay's base plate, T = Ta + U I Rth, in [degC].

    current: effective [A], 0 to 125; sink_resistance: of sink and paste, in K/W as a plain number, 0 to 50;
    surroundings: air inside the machine [degC], -20 to 90; forward_drop [V], 0.5 to 3; else OutOfRange. The hottest
    part inside lies some 0.5 to 1.5 K/W above; makers allow 110 to 125 degC there.
    Source: thermal resistances in series, as in makers' data sheets.
    >>> round(relay_base_temperature(8.7, 4.0))      # 10.4 W on 4 K/W above 40 degC
    82
    """
    within("sink resistance", sink_resistance, "K/W", 0.0, 50.0, _SINK)
    within("surroundings", surroundings, "degC", -20.0, 90.0, _SINK)
    return surroundings + relay_loss(current, forward_drop) * sink_resistance


def sink_resistance(
    current: float, base_temperature: float = 85.0, surroundings: float = 40.0, forward_drop: float = DROP
) -> float:
    """Highest thermal resistance of sink and paste that keeps a relay's base plate cool enough, in K/W.

    current: effective [A], above 0.01, at most 125; base_temperature: allowed [degC], surroundings to 125;
    surroundings [degC], -20 to 90; forward_drop [V], 0.5 to 3; else OutOfRange.
    Source: thermal resistances in series, as in makers' data sheets.
    >>> round(sink_resistance(8.7), 1)      # 45 K over 10.4 W
    4.3
    """
    within("current", current, "A", 0.01, 125.0, _SINK)
    within("surroundings", surroundings, "degC", -20.0, 90.0, _SINK)
    within("base temperature", base_temperature, "degC", -20.0, 125.0, _SINK)
    in_order("surroundings", surroundings, "base temperature", base_temperature, "degC")
    return (base_temperature - surroundings) / relay_loss(current, forward_drop)
