"""The dialogue that asks for the shop's profile. Pure: `ask` puts a question and gives the line, `tell` says something.

Whoever types nothing keeps what stands in brackets. Nothing is written here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from expert.desk.profile.reading import Profile
from expert.desk.profile.writing import people_entries, price_entries, profile_text
from expert.desk.sentences import profile as say
from expert.language.model import RuleBase
from expert.language.yaml.writing import Data
from expert.trade.errors import WrongArguments
from expert.trade.limits.countries import COUNTRIES, Country, country_named

Ask = Callable[[str], str]
Tell = Callable[[str], None]
YES, NO = frozenset({"yes", "y"}), frozenset({"no", "n"})


def set_up(ask: Ask, tell: Tell, base: RuleBase, before: Profile | None) -> str:
    """Ask for everything and give the text of the profile; `before`: what holds now."""
    home = _country(ask, tell, before)
    entries: dict[str, Data] = {
        "country": home.id,
        "units": _one_of(ask, tell, "Units shown", ("metric", "us"), before.units if before else home.system),
        "name": _text(ask, say.NAME_OF_THE_SHOP, before.name if before else ""),
        "phone": _text(ask, say.TELEPHONE, before.phone if before else ""),
        "technicians": people_entries(_people(ask, tell, before)),
        "machines": _machines(ask, tell, base, before),
        "instruments": _instruments(ask, tell, base, before),
    }
    currency = _text(ask, say.CURRENCY, before.currency if before else "")
    if currency:
        entries["currency"] = currency
        entries["hourly_rate"] = _number(ask, tell, say.what_an_hour_costs(currency), before)
        entries["prices"] = price_entries(_prices(ask, tell, before))
        now = before.costs_on_slip if before else False
        if _yes(ask, tell, say.COSTS_ON_SLIP, default=now):
            entries["costs_on_slip"] = "yes"
    return profile_text(entries)


def _country(ask: Ask, tell: Tell, before: Profile | None) -> Country:
    tell(f"Countries: {', '.join(country.name for country in COUNTRIES.values())}.")
    while True:
        text = _text(ask, say.WHICH_COUNTRY, before.country if before else "")
        try:
            home = country_named(text)
        except WrongArguments as problem:
            tell(say.no_other_limits_instead(problem))
            continue
        tell(f"Limits of {home.name}:")
        for what, basis in (("earth", home.earth), ("insulation", home.insulation), ("leakage", home.leakage)):
            tell(f"  {what}: {basis}")
        tell(f"  mains: {home.mains}")
        return home


def _people(ask: Ask, tell: Tell, before: Profile | None) -> list[tuple[str, bool, str]]:
    people = [(p.name, p.qualified, p.by_word_of) for p in before.technicians] if before else []
    if people and _yes(ask, tell, say.technicians_are_still(", ".join(p[0] for p in people))):
        return people
    people = []
    while True:
        name = ask(say.NEXT_TECHNICIAN).strip()
        if not name and people:
            return people
        if not any(map(str.isalpha, name)):
            tell(say.A_NAME_IS_NEEDED)
            continue
        qualified = _yes(ask, tell, say.is_qualified(name))
        by = ""
        while qualified and not by:
            by = ask("By whose word? ").strip()
        people.append((name[:60], qualified, by[:60]))


def _machines(ask: Ask, tell: Tell, base: RuleBase, before: Profile | None) -> list[Data]:
    if len(base.machines) == 1:
        return list(base.machines)
    return _chosen(
        ask, tell, say.WHICH_MACHINE_TYPES, [(m.id, m.title) for m in base.machines.values()],
        list(before.machines) if before else list(base.machines),
    )  # fmt: skip


def _instruments(ask: Ask, tell: Tell, base: RuleBase, before: Profile | None) -> list[Data]:
    owned = list(before.instruments or {}) if before and before.instruments is not None else list(base.instruments)
    chosen = _chosen(ask, tell, say.WHICH_INSTRUMENTS, [(i.id, i.name) for i in base.instruments.values()], owned)
    days = before.calibrated if before else {}
    entries: list[Data] = []
    for instrument in chosen:
        assert isinstance(instrument, str)
        known = days.get(instrument)
        entries.append({"use": instrument, "calibrated": known.isoformat()} if known else {"use": instrument})
    if entries and _yes(ask, tell, say.NOTE_CALIBRATIONS, default=False):
        entries = [_with_day(ask, tell, base, entry) for entry in entries]
    return entries


def _with_day(ask: Ask, tell: Tell, base: RuleBase, entry: Data) -> Data:
    assert isinstance(entry, dict)
    while True:
        text = _text(ask, say.day_of_calibration(base.instruments[entry["use"]].name), entry.get("calibrated", ""))
        if not text:
            return entry
        try:
            return {**entry, "calibrated": date.fromisoformat(text).isoformat()}
        except ValueError:
            tell(say.HOW_A_DAY_IS_TYPED)


def _chosen(ask: Ask, tell: Tell, question: str, listed: Sequence[tuple[str, str]], now: list[str]) -> list[Data]:
    """Several of a numbered list; nothing keeps what is marked."""
    tell(question)
    for number, (key, name) in enumerate(listed, 1):
        tell(f"  {'*' if key in now else ' '}{number:>3}  {name}")
    while True:
        text = ask(say.TYPE_NUMBERS_OR_NOTHING).replace(",", " ").strip()
        if not text:
            return [key for key, _ in listed if key in now]
        numbers = [int(word) if word.isdecimal() else 0 for word in text.split()]
        if all(1 <= number <= len(listed) for number in numbers):
            return [key for number, (key, _) in enumerate(listed, 1) if number in numbers]
        tell(say.type_numbers_up_to(len(listed)))


def _text(ask: Ask, question: str, now: str) -> str:
    return ask(f"{question} [{now}]: " if now else f"{question}: ").strip() or now


def _one_of(ask: Ask, tell: Tell, question: str, words: Sequence[str], now: str) -> str:
    while (text := _text(ask, f"{question} ({' or '.join(words)})", now).casefold()) not in words:
        tell(f"Type {' or '.join(words)}.")
    return text


def _yes(ask: Ask, tell: Tell, question: str, default: bool | None = None) -> bool:
    hint = "yes / no" if default is None else "YES / no" if default else "yes / NO"
    while True:
        word = ask(f"{question} ({hint}) ").strip().casefold()
        if not word and default is not None:
            return default
        if word in YES | NO:
            return word in YES
        tell(say.TYPE_YES_OR_NO)


def _prices(ask: Ask, tell: Tell, before: Profile | None) -> dict[str, float]:
    """The price list: what holds now, and what is typed on top of it. A price of 0 takes a part off the list."""
    prices = dict(before.prices) if before else {}
    for listed, each in prices.items():
        tell(f"  {listed} {each:g}")
    while True:
        text = ask(say.A_PART_AND_ITS_PRICE).strip()
        if not text:
            return {part: each for part, each in prices.items() if each}
        part, _, typed = text.rpartition(" ")
        price = _price(typed)
        if price is None or not part.strip():
            tell(say.TYPE_PART_AND_NUMBER)
            continue
        prices[part.strip()[:80]] = price


def _price(typed: str) -> float | None:
    try:
        price = float(typed.replace(",", "."))
    except ValueError:
        return None
    return round(price, 2) if 0 <= price < 1e6 else None


def _number(ask: Ask, tell: Tell, question: str, before: Profile | None) -> str:
    now = f"{before.hourly_rate:g}" if before and before.hourly_rate else ""
    while True:
        text = _text(ask, question, now).replace(",", ".")
        try:
            if 0 <= float(text) < 1e6:
                return text
        except ValueError:
            pass
        tell(say.TYPE_A_NUMBER)
