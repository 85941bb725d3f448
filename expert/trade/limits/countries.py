"""What the country of a shop decides: limits, mains, units and words. Each limit with its source and how sure it is.

There is no silent fall back: a country that is not listed has no entry, and a shop without a country is held to the
strictest limit of all that are. Local codes and licensed practice come before every one of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from expert.trade import sentences as say
from expert.trade.errors import WrongArguments
from expert.trade.frozen import dataclass

Mark = Literal["published", "from memory, to be confirmed", "common practice, no source"]
PUBLISHED: Mark = "published"
MEMORY: Mark = "from memory, to be confirmed"
PRACTICE: Mark = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Basis:
    """Where a limit comes from, and how sure that is."""

    source: str
    mark: Mark

    def __str__(self) -> str:
        return self.source if self.mark == PUBLISHED else f"{self.source} ({self.mark})"


@dataclass(frozen=True, slots=True)
class Country:
    """One country. `limits`: the set in `electrical`; `voltage` [V] and `frequency` [Hz] of a household socket.

    `band`: lowest and highest voltage at the socket [V]. `system`: units. `words`: what the trade says there, by what
    the rules say. `lead_gauge`: usual wire gauge of an appliance's lead there (common practice, no source), or None.
    """

    id: str
    name: str
    limits: str
    voltage: float
    frequency: tuple[float, ...]
    band: tuple[float, float]
    earth: Basis
    insulation: Basis
    leakage: Basis
    mains: Basis
    system: str = "metric"
    words: Mapping[str, str] = field(default_factory=dict)
    lead_gauge: int | None = None


# Where the rules say lead and mean the one to the socket. Leads of parts and of meters stay leads.
_OF_THE_CORD = (
    "lead or plug", "lead and plug", "lead, plug", "changed lead", "behind lead", "through lead",
    "look at lead", "lead, switch", "lead and switch", "path: lead", "lead, terminals", "finds the lead",
    "the lead through", "along the lead", "bend the lead", "the lead was bent", "the lead at both ends",
    "the lead is flexed", "flex the lead", "the lead is not what keeps", "only the lead",
    "the lead was looked over", "the lead is changed", "insulation on a lead", "the new lead", "the old lead",
    "the lead was scorched", "if the lead is", "look at the lead", "of the lead both", "lead included",
    "neutral of the lead", "a lead of",
)  # fmt: skip
_AMERICAN = {
    **{phrase: phrase.replace("lead", "cord") for phrase in _OF_THE_CORD},
    "lead, earth": "cord, ground",
    "earth path with its lead": "ground path with its cord",
    "earth tester": "ground tester",
    "an RCD": "a GFCI",
    "an earth": "a ground",
    "an earthed": "a grounded",
    "RCD": "GFCI",
    "RCDs": "GFCIs",
    "mains lead": "power cord",
    "mains cord": "power cord",
    "mains fuse": "line fuse",
    "mains voltage": "line voltage",
    "earth": "ground",
    "earthed": "grounded",
    "earthing": "grounding",
    "unearthed": "ungrounded",
    "earth-leakage": "ground-fault",
    "mains": "line power",
}
_AUSTRALIAN = {"RCD": "safety switch (RCD)"}
_IEC_MAINS = Basis("IEC 60038: 230 V plus or minus 10 percent", PUBLISHED)
_EN = "EN 50678 and EN 50699, annex 5 of DGUV 203-071"
_CODE = "IET Code of Practice, 5th edition 2020"
_UL = "UL standards of other appliances (UL 507 clause 42, UL 8750 clause 8.7); for this product UL 197 and UL 101"
_AS = "AS/NZS 3760"
_NO_LIMIT = Basis("1 Mohm at 500 V DC; no national limit in service is known here", PRACTICE)


def _european(id: str, name: str, mark: Mark) -> Country:
    basis = Basis(_EN, mark)
    return Country(id, name, "germany", 230.0, (50.0,), (207.0, 253.0), basis, basis, basis, _IEC_MAINS)


def _of_the_union(id: str, name: str) -> Country:
    """The European standards hold; what a nation adds to them is not known here."""
    return _european(id, name, MEMORY)


def _antipodean(id: str, name: str) -> Country:
    basis = Basis(_AS, MEMORY)
    return Country(
        id, name, "australia", 230.0, (50.0,), (216.2, 253.0), basis, basis, basis,
        Basis("AS 60038 and AS/NZS 3112: 230 V, +10 to -6 percent", MEMORY), words=_AUSTRALIAN,
    )  # fmt: skip


COUNTRIES: Mapping[str, Country] = {
    country.id: country
    for country in (
        Country(
            "us", "United States", "us", 120.0, (60.0,), (114.0, 126.0),
            Basis(_UL, MEMORY), _NO_LIMIT, Basis(_UL, MEMORY),
            Basis("120 V plus or minus 5 percent at the service", PUBLISHED), "us", _AMERICAN, 16,
        ),
        Country(
            "canada", "Canada", "canada", 120.0, (60.0,), (110.0, 125.0),
            Basis("CSA C22.2, as UL", MEMORY), _NO_LIMIT, Basis("CSA C22.2, as UL", MEMORY),
            Basis("CSA C235: 110 to 125 V", MEMORY), "metric", {**_AMERICAN, "mains": "mains"}, 16,
        ),
        Country(
            "japan", "Japan", "japan", 100.0, (50.0, 60.0), (95.0, 107.0),
            Basis("JIS C 9335-1, as IEC 60335-1 27.5", MEMORY),
            Basis("Electrical Appliance and Material Safety Act, table 8", MEMORY),
            Basis("Electrical Appliance and Material Safety Act, table 8: 1 mA", MEMORY),
            Basis("Electricity Business Act: 101 V plus or minus 6 V", MEMORY), "metric",
            {"RCD": "earth-leakage breaker (ELB)"},
        ),
        Country(
            "uk", "United Kingdom", "uk", 230.0, (50.0,), (216.2, 253.0),
            Basis(say.earth_with_lead(_CODE), PUBLISHED),
            Basis(say.leakage_to_be_confirmed(_CODE), PUBLISHED),
            Basis(_CODE, PUBLISHED),
            Basis("Electricity Safety, Quality and Continuity Regulations 2002: 230 V, +10 to -6 percent", MEMORY),
        ),
        _european("germany", "Germany", PUBLISHED),
        _of_the_union("austria", "Austria"),
        _of_the_union("belgium", "Belgium"),
        _of_the_union("czechia", "Czechia"),
        _of_the_union("denmark", "Denmark"),
        _of_the_union("finland", "Finland"),
        _of_the_union("france", "France"),
        _of_the_union("greece", "Greece"),
        _of_the_union("hungary", "Hungary"),
        _of_the_union("ireland", "Ireland"),
        _of_the_union("italy", "Italy"),
        _of_the_union("netherlands", "Netherlands"),
        _of_the_union("poland", "Poland"),
        _of_the_union("portugal", "Portugal"),
        _of_the_union("spain", "Spain"),
        _of_the_union("sweden", "Sweden"),
        _antipodean("australia", "Australia"),
        _antipodean("new_zealand", "New Zealand"),
    )
}  # fmt: skip
# Besides its short name, a country is known by these.
ALSO = {"usa": "us", "america": "us", "united_states": "us", "united_kingdom": "uk", "great_britain": "uk", "gb": "uk"}


def country_named(text: str) -> Country:
    """The country meant by its name or short name. Raises WrongArguments, which names those that are known.

    >>> country_named("United States").limits, country_named("New Zealand").limits
    ('us', 'australia')
    """
    word = text.strip().casefold().replace(" ", "_").replace("-", "_")
    word = ALSO.get(word, word)
    if word not in COUNTRIES:
        raise WrongArguments(say.country_not_known(text[:40], ", ".join(COUNTRIES)))
    return COUNTRIES[word]
