"""What the trade calls things in the shop's country, in sentences that were written for another."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from expert.trade.limits.countries import COUNTRIES


def in_words_of(country: str, text: str) -> str:
    """The text in the words of a country; as it is where none are listed. Ids, which have underscores, stay.

    >>> in_words_of("us", "Plug in through an RCD. Earth pin to the mains lead: earth_bond.")
    'Plug in through a GFCI. Ground pin to the power cord: earth_bond.'
    """
    home = COUNTRIES.get(country)
    if home is None or not home.words:
        return text
    return _pattern(country).sub(lambda found: _instead(found[0], home.words), text)


@cache
def _pattern(country: str) -> re.Pattern[str]:
    words = sorted(COUNTRIES[country].words, key=len, reverse=True)
    return re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, words))})(?!\w)", re.IGNORECASE)


def _instead(found: str, words: Mapping[str, str]) -> str:
    known = words.get(found) or words.get(found.lower()) or words.get(found[0].lower() + found[1:]) or found
    is_begun_large = found[0].isupper() and not found.isupper() and known[0].islower()
    return known[0].upper() + known[1:] if is_begun_large else known
