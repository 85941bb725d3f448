"""What a job knows of the shop that it is done in; it does not change while jobs do."""

from __future__ import annotations

from dataclasses import replace

from expert.job.state.costs import Rates
from expert.language.model import Machine, RuleBase
from expert.trade.frozen import dataclass
from expert.trade.limits.countries import COUNTRIES, Country
from expert.trade.quantities.units import Quantity
from expert.trade.quantities.wire_gauge import awg_section


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


def at_home(shop: Shop, base: RuleBase, machine: Machine) -> Machine:
    """The machine type as it is built for the shop's country, in what the rules mark with `by_country`.

    Power is the same in every country; what is wound for a voltage has a resistance that goes with its square. These
    are assumptions of the type, as all its ratings are: the plate on the bench wins.
    """
    home = shop.home
    if home is None:
        return machine
    limits = {name: home.limits for name in machine.features if base.features[name].by_country}
    rated = next((value for name, value in machine.plate.items() if _by_country(base, name) == "voltage"), None)
    plate = dict(machine.plate)
    if rated is not None and rated.value and abs(rated.value - home.voltage) > 0.1 * home.voltage:
        plate |= {name: _built_for(home, _by_country(base, name), value, rated) for name, value in plate.items()}
    return replace(machine, features={**machine.features, **limits}, plate=plate)


def _by_country(base: RuleBase, name: str) -> str:
    return base.plate_values[name].by_country


def _built_for(home: Country, by_country: str, value: Quantity, rated: Quantity) -> Quantity:
    match by_country:
        case "voltage":
            return Quantity(home.voltage, value.kind)
        case "winding":
            return Quantity(float(f"{value.value * (home.voltage / rated.value) ** 2:.2g}"), value.kind)
        case "lead" if home.lead_gauge is not None:
            return Quantity(awg_section(home.lead_gauge), value.kind)
    return value
