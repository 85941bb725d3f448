"""From the text of a profile to its values, or all problems with line and column."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from expert.desk.profile import keys
from expert.desk.sentences import profile as say
from expert.job.state.costs import Rates
from expert.job.state.shop import Person
from expert.language.folder import file_text
from expert.language.keys.short_files import RANGE
from expert.language.load import tree_of
from expert.language.model import NOWHERE, RuleBase
from expert.language.problems import Problem, RulesRefused
from expert.language.reading.quantities import read_named
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.records.short_files import read_range
from expert.language.worked.job_answers import names_of
from expert.trade.limits.countries import COUNTRIES
from expert.trade.quantities.quantity import difference_of
from expert.trade.sensors.instruments import Instrument

_ACCURACY = ("ranges", "class", "full_scale", "plus_minus", "percent", "leads")


@dataclass(frozen=True, slots=True)
class Profile:
    """The shop. `instruments`: those it owns, with their accuracy; None: those of the rules. `calibrated`: by id.

    `text`: the file as it was read, for the trace.
    """

    country: str
    units: str
    name: str = ""
    phone: str = ""
    technicians: tuple[Person, ...] = ()
    machines: tuple[str, ...] = ()
    instruments: Mapping[str, Instrument] | None = None
    calibrated: Mapping[str, date] = field(default_factory=dict)
    currency: str = ""
    hourly_rate: float = 0.0
    prices: tuple[tuple[str, float], ...] = ()
    costs_on_slip: bool = False
    text: str = ""

    @property
    def rates(self) -> Rates | None:
        """None for a shop that wants no costs: it names no currency."""
        return Rates(self.currency, self.hourly_rate, self.prices, self.costs_on_slip) if self.currency else None


def load_profile(file: Path, base: RuleBase) -> Profile:
    """The profile in a file. Raises RulesRefused with every problem."""
    text, problems = file_text(file)
    if problems:
        raise RulesRefused(problems)
    return read_profile(str(file), text, base)


def read_profile(path: str, text: str, base: RuleBase) -> Profile:
    """The profile from its text. Raises RulesRefused with every problem."""
    problems: list[Problem] = []
    _, root = tree_of(path, text, problems)
    profile = None
    if root is not None:
        names = names_of(base)
        names.places["instrument"] = dict.fromkeys(base.instruments, NOWHERE)
        reader = Reader(path, names, problems)
        profile = _profile(Record(reader, root, keys.PROFILE), base, text)
    if problems or profile is None:
        raise RulesRefused(problems)
    return profile


def _profile(record: Record, base: RuleBase, text: str) -> Profile:
    country = record.word("country", tuple(COUNTRIES))
    home = COUNTRIES.get(country)
    for key in ("hourly_rate", "prices", "costs_on_slip"):
        if key in record.written and "currency" not in record.written:
            record.reader.refuse(record.key_node(key), "missing-key", say.in_which_currency(key))
    owned = [Record(record.reader, item, keys.OWNED) for item in record.list_of("instruments")]
    used = [(instrument, one) for one in owned if (instrument := base.instruments.get(one.name("use", "instrument")))]
    return Profile(
        country=country,
        units=record.word("units", keys.SYSTEMS) or (home.system if home else "metric"),
        name=record.text("name"),
        phone=record.text("phone"),
        technicians=tuple(_person(Record(record.reader, i, keys.TECHNICIAN)) for i in record.list_of("technicians")),
        machines=record.names("machines", "machine"),
        instruments={i.id: _with_accuracy(i, one) for i, one in used} if "instruments" in record.written else None,
        calibrated={i.id: day for i, one in used if (day := _day(one)) is not None},
        currency=record.text("currency"),
        hourly_rate=record.number("hourly_rate") or 0.0,
        prices=tuple(_price(Record(record.reader, i, keys.PRICE)) for i in record.list_of("prices")),
        costs_on_slip=record.yes("costs_on_slip"),
        text=text,
    )


def _price(record: Record) -> tuple[str, float]:
    return record.text("part"), record.number("price") or 0.0


def _person(record: Record) -> Person:
    qualified = record.yes("live_work")
    by = record.text("by_word_of")
    if qualified and not by:
        message = say.NOBODY_SAYS_SO
        record.reader.refuse(record.key_node("live_work"), "missing-key", message)
    return Person(record.text("name"), qualified, by)


def _day(record: Record) -> date | None:
    node = record.node_of("calibrated")
    if node is None:
        return None
    try:
        return date.fromisoformat(record.text("calibrated"))
    except ValueError:
        record.reader.refuse(node, "not-a-number", say.HOW_A_DAY_IS_WRITTEN)
        return None


def _with_accuracy(instrument: Instrument, record: Record) -> Instrument:
    """The instrument with the accuracy of the shop's own, where the profile states one."""
    if not set(record.written) & set(_ACCURACY):
        return replace(instrument, owned=True)
    kind, difference = instrument.measures, difference_of(instrument.measures)
    return replace(
        instrument,
        owned=True,
        ranges=tuple(read_range(Record(record.reader, i, RANGE), kind) for i in record.list_of("ranges")),
        class_percent=record.number("class"),
        full_scale=read_named(record, "full_scale", kind),
        plus_minus=read_named(record, "plus_minus", difference),
        percent=record.number("percent"),
        leads=read_named(record, "leads", difference),
    )
