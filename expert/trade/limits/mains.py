"""Mains voltage bands. The country decides which band holds."""

from __future__ import annotations

from expert.trade import sentences as say
from expert.trade.errors import WrongArguments

# Band: (lowest, highest [V], source, mark).
_BANDS = {
    "europe": (207.0, 253.0, "IEC 60038: 230 V +-10 % at the supply point", "pub"),
    "europe_in_use": (198.0, 253.0, "IEC 60038:1983 as amended to 1997: 10 % at the terminals, 4 % more inside", "pub"),
    "europe_old": (216.2, 253.0, "230 V +10 % -6 %: Europe before its change to 10 %, the United Kingdom still", "pub"),
    "north_america": (114.0, 126.0, "120 V +-5 % at the service, ANSI C84.1 as its users quote it", "pub"),
    "north_america_in_use": (
        *(
            110.0,
            126.0,
            "ANSI C84.1, range A in use: 110 V up to about 2006, 108 V later; from memory, to be confirmed",
        ),
        "mem",
    ),
}
BANDS = tuple(_BANDS)


def mains_lowest(band: str) -> float:
    """Lowest mains voltage that is within a band, in [V].

    band: europe, europe_in_use, europe_old, north_america or north_america_in_use, else WrongArguments.
    Source: `mains_source(band)`.
    >>> mains_lowest("europe"), mains_lowest("europe_old")
    (207.0, 216.2)
    """
    return _band(band)[0]


def mains_highest(band: str) -> float:
    """Highest mains voltage that is within a band, in [V].

    band: as in `mains_lowest`, else WrongArguments.
    Source: `mains_source(band)`.
    >>> mains_highest("europe"), mains_highest("north_america")
    (253.0, 126.0)
    """
    return _band(band)[1]


def mains_source(band: str) -> str:
    """Where a band comes from. Raises WrongArguments for an unknown band.

    >>> mains_source("north_america")
    '120 V +-5 % at the service, ANSI C84.1 as its users quote it'
    """
    return _band(band)[2]


def _band(band: str) -> tuple[float, float, str, str]:
    if band not in _BANDS:
        raise WrongArguments(say.no_mains_band(band[:40], ", ".join(BANDS)))
    return _BANDS[band]
