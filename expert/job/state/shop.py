"""What a job knows of the shop that it is done in; it does not change while jobs do."""

from __future__ import annotations

from dataclasses import replace

from expert.job.state.costs import Rates
from expert.language.model import Machine
from expert.trade.frozen import dataclass
from expert.trade.limits.countries import COUNTRIES, Country
from expert.trade.quantities.units import Quantity
from expert.trade.quantities.wire_gauge import awg_section

USUAL_GAUGE = 16  # of a machine's cord in North America (common practice, no source)


@dataclass(frozen=True, slots=True)
class Person:
    """A technician of the shop. `by_word_of`: who says that this person may do live work; '' when nobody has."""

    name: str
    qualified: bool = False
    by_word_of: str = ""


@dataclass(frozen=True, slots=True)
class Shop:
    """Instruments owned (ids), units shown, and what the shop's profile says where there is one.

    `country`: a key of COUNTRIES, or '' when nobody has said. `machines`: the types (ids) that come in; none: any.
    `people`: who works here. `rates`: what it charges, None where it wants no costs.
    """

    instruments: frozenset[str]
    system: str = "metric"
    country: str = ""
    machines: tuple[str, ...] = ()
    people: tuple[Person, ...] = ()
    rates: Rates | None = None

    @property
    def home(self) -> Country | None:
        return COUNTRIES.get(self.country)

    def person(self, text: str) -> Person | None:
        """The technician meant by a name, its beginning, or its number in the list; None: not one of the shop's."""
        word = text.strip().casefold()
        if word.isdecimal() and 1 <= int(word[:4]) <= len(self.people):
            return self.people[int(word[:4]) - 1]
        exact = [person for person in self.people if person.name.casefold() == word]
        begun = [person for person in self.people if word and person.name.casefold().startswith(word)]
        return exact[0] if exact else begun[0] if len(begun) == 1 else None


def at_home(shop: Shop, machine: Machine) -> Machine:
    """The machine type as it is built for the shop's country: its limits, and its ratings at the mains there.

    Power is the same in every country; what is wound for a voltage has a resistance that goes with its square. These
    are assumptions of the type, as all its ratings are: the plate on the bench wins.
    """
    home = shop.home
    if home is None:
        return machine
    features = {**machine.features, "limits": home.limits} if "limits" in machine.features else machine.features
    rated = machine.plate.get("rated_voltage")
    if rated is None or not rated.value or abs(rated.value - home.voltage) <= 0.1 * home.voltage:
        return replace(machine, features=features)
    ratio = home.voltage / rated.value
    plate = dict(machine.plate) | {"rated_voltage": Quantity(home.voltage, rated.kind)}
    if home.limits in ("us", "canada") and "cord_section" in plate:
        plate["cord_section"] = Quantity(awg_section(USUAL_GAUGE), "area")
    coil = machine.plate.get("fill_coil")
    if coil is not None:
        plate["fill_coil"] = Quantity(float(f"{coil.value * ratio**2:.2g}"), coil.kind)
    return replace(machine, features=features, plate=plate)
