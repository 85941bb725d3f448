"""The keys of the shop's profile."""

from __future__ import annotations

from expert.language.keys import Shape
from expert.language.keys.kinds import Amount, Id, Ids, Listed, Number, Text, Word, YesNo, may, must
from expert.language.keys.short_files import RANGE
from expert.trade.limits.countries import COUNTRIES

SYSTEMS = ("metric", "us")
TECHNICIAN = Shape(
    "a technician",
    (
        must("name", Text(), "As it stands in the record."),
        may("live_work", YesNo(), "Whether this person may do live work on mains; no unless it says yes."),
        may("by_word_of", Text(), "Who says so."),
    ),
)
OWNED = Shape(
    "an instrument of the shop",
    (
        must("use", Id("instrument"), "Its id in the rules' instruments file."),
        may("calibrated", Text(), "The day of its last calibration, such as 2026-01-31."),
        may("ranges", Listed(RANGE), "Its ranges, each with its accuracy, the smallest first."),
        may("class", Number(), "Its class: per cent of full scale."),
        may("full_scale", Amount(), "The end of its scale."),
        may("plus_minus", Amount(), "Its accuracy as a quantity."),
        may("percent", Number(), "Its accuracy in per cent of the reading."),
        may("leads", Amount(), "What its own leads may add."),
    ),
)
PRICE = Shape(
    "the price of a part",
    (
        must("part", Text(), "The part, as the repairs of the rules name it."),
        must("price", Number(), "What one costs the customer."),
    ),
)
PROFILE = Shape(
    "the shop's profile",
    (
        must("country", Word(tuple(COUNTRIES)), "Where the shop is; decides limits, mains and words."),
        may("units", Word(SYSTEMS), "Units shown; those of the country unless it says otherwise."),
        may("name", Text(), "Name of the shop, for the customer's slip."),
        may("phone", Text(), "Its telephone number, for the slip."),
        may("technicians", Listed(TECHNICIAN), "Who works here."),
        may("machines", Ids("machine"), "The machine types that come in; all unless it says which."),
        may("instruments", Listed(OWNED), "What the shop owns; the rules' instruments unless it says."),
        may("currency", Text(), "What costs are in."),
        may("hourly_rate", Number(), "What an hour of work costs."),
        may("prices", Listed(PRICE), "What parts cost. One that is not listed is named without a price."),
        may("costs_on_slip", YesNo(), "Whether the customer's slip says what it costs; no unless it says yes."),
    ),
)
