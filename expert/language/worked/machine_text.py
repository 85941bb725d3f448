"""A machine type written as its file, so that a job can carry a machine of its own in its first line."""

from __future__ import annotations

from decimal import Decimal

from expert.language import model
from expert.language.yaml.writing import Data, yaml_text
from expert.trade.quantities.units import KINDS, Quantity


def machine_text(machine: model.Machine) -> str:
    """The text of one machine's file, such that reading it gives the same machine."""
    data: dict[str, Data] = {
        "machine": machine.id,
        "title": machine.title,
        "layout": machine.layout,
        "features": dict(machine.features),
        "plate": {name: quantity_text(value) for name, value in machine.plate.items()},
        "wiring": {feed: list(way) for feed, way in machine.wiring.items()},
    }
    return yaml_text({key: value for key, value in data.items() if value})


def quantity_text(quantity: Quantity) -> str:
    """The quantity in its base unit with every digit, so that reading it gives the same value.

    >>> quantity_text(Quantity(0.1, "gauge_pressure")), quantity_text(Quantity(1e-7, "number"))
    ('0.1 bar', '0.0000001')
    """
    if quantity.value == float("inf"):
        return "OL"
    return f"{Decimal(repr(quantity.value)).normalize():f} {KINDS[quantity.kind].base}".strip()
