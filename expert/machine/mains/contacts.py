"""Positions of every contact and values of every changing resistance at one instant: what the wiring is solved for."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Contacts:
    """Open or closed now, whoever opened or closed it; temperatures [degC] and resistances [ohm] that go with them.

    relay_conducts: the solid-state relay passes current. pump_out, fill_out, release: the board's three contacts.
    rod_to_body: from the level probe's rod through water to the boiler. sensor: of the sensor's own element.
    """

    switch: bool = False
    fuse: bool = True
    board_fuse: bool = True
    limit_1: bool = True
    limit_2: bool = True
    limiter: bool = True
    element: bool = True
    relay_conducts: bool = False
    pump_out: bool = False
    fill_out: bool = False
    release: bool = False
    brew: bool = False
    float_: bool = True
    controller_out: bool = False
    rod_to_body: float = float("inf")
    sensor: float = 10e3
    boiler: float = 20.0
    coil: float = 20.0
    pump_coil: float = 20.0
    moisture: float = 0.0
