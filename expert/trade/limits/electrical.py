"""Limits for earth bond, insulation and leakage, as sets of which the country decides one.

Local codes and licensed practice take precedence over every set. `design` is the type test of a new household machine
without its cord, `routine` its end-of-line test; the others are in-service limits. Which numbers are from memory
stands in the source line of each function.
"""

from __future__ import annotations

import math

from expert.trade import sentences as say
from expert.trade.errors import WrongArguments, above, within
from expert.trade.quantities.quantity import article

NATIONAL = ("uk", "germany", "australia", "us", "canada", "japan")
# Held by whoever has not said in which country the shop is: no national limit is looser.
STRICTEST = "strictest"
EARTH_SETS = ("design", "routine", *NATIONAL, STRICTEST)
INSULATION_SETS = (*NATIONAL, STRICTEST)
LEAKAGE_SETS = ("design", "catering", "uk_4th", *NATIONAL, STRICTEST)
CLASSES = ("class_1", "class_1_portable", "class_1_motor", "class_0", "class_2", "class_3")
HEATING = ("heating", "no_heating")
# Most resistance of a core at 20 degC [ohm/km]; IEC 60228, class 5, plain copper.
_CORES = {0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98}
SECTIONS = tuple(_CORES)
_CORE = "IEC 60228, class 5 plain copper,"
_ANY = "every set"
# Set, class -> limit [mA] where power plays no part.
_LEAKAGE = {
    ("design", "class_2"): 0.25,
    ("design", "class_0"): 0.5,
    ("design", "class_3"): 0.5,
    ("design", "class_1_portable"): 0.75,
    ("design", "class_1_motor"): 3.5,
    ("uk", "class_1"): 5.0,
    ("uk", "class_2"): 5.0,
    ("uk_4th", "class_1_portable"): 0.75,
    ("uk_4th", "class_1_motor"): 3.5,
    ("uk_4th", "class_2"): 0.25,
    ("germany", "class_2"): 0.5,
    ("australia", "class_1"): 5.0,
    ("australia", "class_2"): 1.0,
    **{(nation, "class_1_portable"): 0.5 for nation in ("us", "canada")},
    **{(nation, "class_1"): 0.75 for nation in ("us", "canada")},
    **{(nation, "class_2"): 0.5 for nation in ("us", "canada")},
    ("japan", "class_1"): 1.0,
    ("japan", "class_2"): 1.0,
}


def cord_core_resistance(cord_length: float, cord_section: float) -> float:
    """Highest resistance of one sound core of a mains cord at 20 degC, in [ohm].

    cord_length [m], 0 to 100; cord_section: 0.75, 1, 1.5 or 2.5 mm2; else OutOfRange or WrongArguments.
    Source: IEC 60228, class 5, plain copper.
    >>> round(cord_core_resistance(2.0, 1.5), 4)      # 0.0266
    0.0266
    """
    within("cord length", cord_length, "m", 0.0, 100.0, _CORE)
    if cord_section not in _CORES:
        sections = ", ".join(f"{size:g}" for size in SECTIONS)
        raise WrongArguments(say.core_not_in_table(cord_section, sections))
    return _CORES[cord_section] / 1000 * cord_length


def earth_limit(limit_set: str, cord_length: float, cord_section: float) -> float:
    """Highest earth bond resistance that passes, cord included, in [ohm]. Class I only.

    limit_set: design, us, canada or japan (cord left out), routine, uk, germany, australia, strictest (the lowest of
    all nations), else WrongArguments; cord_length [m], 0 to 100 (0: measured without the cord); cord_section: 0.75,
    1, 1.5 or 2.5 mm2, of no account where the cord is left out; else OutOfRange.
    Source: design IEC 60335-1 27.5; routine EN 50106:2008 A.1 (0.2 or 0.1 plus cord: the lesser is taken); uk IET Code
    of Practice 5th edition 2020; germany DGUV 203-071 annex 5 (above 1.5 mm2: the computed cord value); australia
    AS/NZS 3760 from memory, to be confirmed; us as UL 507 clause 42.1 has it, for this product
    UL 197 from memory, to be confirmed; canada and japan from memory, to be confirmed. Where these leave the cord out,
    the path with its cord is held to the same 0.1 ohm: a sound cord of 2 m takes 0.03 ohm of it, and it errs to safety.
    >>> round(earth_limit("uk", 2.0, 1.5), 3), round(earth_limit("germany", 6.0, 1.5), 3)
    (0.127, 0.4)
    """
    _known(limit_set, EARTH_SETS, "earth limit")
    within("cord length", cord_length, "m", 0.0, 100.0, _CORE)
    if limit_set == STRICTEST:
        return min(earth_limit(nation, cord_length, cord_section) for nation in NATIONAL)
    if limit_set in ("design", "us", "canada", "japan"):
        return 0.1
    core = cord_core_resistance(cord_length, cord_section)
    if limit_set == "routine":
        return min(0.2, 0.1 + core)
    if limit_set == "uk":
        return 0.1 + core
    if limit_set == "australia":
        return 1.0
    return _german_earth_limit(cord_length, cord_section, core)


def _german_earth_limit(length: float, section: float, core: float) -> float:
    if section > 1.5:
        return max(0.1, core)
    begun = math.ceil((length - 5.0) / 7.5) if length > 5.0 else 0
    return min(1.0, 0.3 + 0.1 * begun)


def insulation_limit(limit_set: str, protection_class: str, heating: str, power: float) -> float:
    """Lowest insulation resistance at 500 V DC that passes, in [Mohm].

    limit_set: a nation or strictest (the highest of all nations); protection_class: class_1, class_2 or class_3;
    heating: heating or no_heating; else WrongArguments. power: of the heaters [W], 0 to 100000, else OutOfRange.
    Source: uk IET Code of Practice 5th edition (heating eased to 0.3 below 3 kW; sources disagree for which rating);
    germany DGUV 203-071 annex 5 (heating above 3.5 kW that misses 0.3 may still pass on its protective conductor
    current); australia AS/NZS 3760 from memory, to be confirmed; us and canada common practice, no source; japan
    Electrical Appliance and Material Safety Act from memory, to be confirmed.
    >>> insulation_limit("germany", "class_1", "heating", 2000.0), insulation_limit("uk", "class_2", "no_heating", 0.0)
    (0.3, 2.0)
    """
    _known(limit_set, INSULATION_SETS, "insulation limit")
    _known(protection_class, CLASSES, "protection class")
    _known(heating, HEATING, "kind of load")
    within("power", power, "W", 0.0, 1e5, _ANY)
    if limit_set == STRICTEST:
        return max(insulation_limit(nation, protection_class, heating, power) for nation in NATIONAL)
    if limit_set == "australia":
        return 1.0
    if limit_set == "japan" and protection_class == "class_2":
        return 3.0
    if protection_class == "class_2":
        return 2.0
    if protection_class == "class_3":
        return 0.25
    if protection_class == "class_0":
        raise WrongArguments(say.no_insulation_limit(limit_set))
    eased = heating == "heating" and (limit_set == "germany" or (limit_set == "uk" and power < 3000))
    return 0.3 if eased else 1.0


def leakage_limit(limit_set: str, protection_class: str, power: float) -> float:
    """Highest leakage or protective conductor current that passes, in [mA].

    limit_set: design, catering, uk_4th, a nation or strictest (the lowest of all nations); protection_class: class_1
    (stationary, heating),
    class_1_portable, class_1_motor, class_0, class_2, class_3; a pair without a limit raises WrongArguments. power: of
    the heaters [W], 0 to 100000, else OutOfRange.
    Source: design IEC 60335-1 13.2 up to edition 5; catering IEC 60335-2-75 from memory; uk IET Code of Practice 5th
    (uk_4th: 4th) edition; germany DGUV 203-071 annex 5; australia AS/NZS 3760, canada and japan
    from memory; us UL wording.
    >>> leakage_limit("design", "class_1", 2000.0), leakage_limit("germany", "class_1", 2000.0)
    (1.5, 3.5)
    """
    _known(limit_set, LEAKAGE_SETS, "leakage limit")
    _known(protection_class, CLASSES, "protection class")
    within("power", power, "W", 0.0, 1e5, _ANY)
    kilowatts = power / 1000
    if limit_set == STRICTEST:
        return min(leakage_limit(nation, protection_class, power) for nation in _nations_with(protection_class))
    fixed = _LEAKAGE.get((limit_set, protection_class))
    if fixed is not None:
        return fixed
    if protection_class == "class_1" and limit_set in ("design", "uk_4th"):
        return min(5.0, max(0.75, 0.75 * kilowatts))
    if protection_class == "class_1" and limit_set == "catering":
        return min(10.0, kilowatts)
    if protection_class == "class_1" and limit_set == "germany":
        return min(10.0, kilowatts) if power > 3500 else 3.5
    with_limit = [name for name in CLASSES if (limit_set, name) in _LEAKAGE or name == "class_1"]
    would_do = ", ".join(with_limit)
    raise WrongArguments(say.no_leakage_limit(limit_set, protection_class, would_do))


def _nations_with(protection_class: str) -> tuple[str, ...]:
    """The nations whose set has a leakage limit for a class."""
    held = [nation for nation in NATIONAL if (nation, protection_class) in _LEAKAGE]
    return tuple({*held, *(("germany",) if protection_class == "class_1" else ())}) or ("germany",)


def insulation_shown(limit: float, error_percent: float = 30.0) -> float:
    """What an insulation tester must show so that its error cannot hide a fail, limit / (1 - error), in [Mohm].

    limit [Mohm], above 0; error_percent: of the tester in use [%], 0 to 90; else OutOfRange.
    Source: IEC 61557-2 allows 30 % in use.
    >>> round(insulation_shown(1.0), 2)      # 1.43
    1.43
    """
    above("insulation limit", limit, "Mohm", 0.0, "IEC 61557-2")
    within("tester error", error_percent, "%", 0.0, 90.0, "IEC 61557-2")
    return limit / (1 - error_percent / 100)


def _known(word: str, words: tuple[str, ...], meaning: str) -> None:
    if word not in words:
        raise WrongArguments(say.word_not_known(word[:40], article(meaning), ", ".join(words)))
