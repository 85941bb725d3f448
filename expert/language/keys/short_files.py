"""The keys of the short files: features and ratings, complaints, cautions, instruments, machines."""

from __future__ import annotations

from expert.language.keys.kinds import (
    Amount,
    Holds,
    Id,
    IdsOf,
    Listed,
    Named,
    Number,
    Outcome,
    Outcomes,
    QuantityKind,
    Shape,
    State,
    States,
    Text,
    Texts,
    Unit,
    Values,
    Word,
    YesNo,
    may,
    must,
)
from expert.language.keys.words import BY_COUNTRY, WORK

FEATURE = Shape(
    "a feature",
    (
        must("name", Text(), "What machines differ in, in words."),
        must("values", Outcome(), "The values that it can have."),
        may("by_country", YesNo(), "Whether the shop's country gives its value: the set of its electrical limits."),
    ),
)
PLATE_VALUE = Shape(
    "a plate value",
    (
        must("name", Text(), "The rating in words."),
        must("measure", QuantityKind(), "The kind of quantity.", field="kind"),
        must("unit", Unit(), "The unit of a number that is typed without one."),
        may("part_of", Id("plate value"), "The rating of the whole to which it adds up with others."),
        may(
            "by_country",
            Word(tuple(BY_COUNTRY)),
            "What it is in the shop's country: its mains voltage, wound for that, or its usual lead.",
        ),
        may("believable", Amount(span=True), "A plate beyond these two is not taken: other limits rest on it."),
    ),
)
FEATURES_FILE = Shape(
    "the features file",
    (
        may("features", Named("feature", FEATURE), "What machines differ in."),
        may("plate", Named("plate value", PLATE_VALUE), "The ratings that machines state."),
    ),
)
COMPLAINT = Shape(
    "a complaint",
    (
        must("name", Text(), "What the technician chooses at intake."),
        may("words", Texts(), "How customers put it, for searching."),
        may("seen", Outcomes("question"), "The answers that show it here, by question."),
        may("raised_when", Holds("never"), "When the bench raises it itself, though nobody reported it."),
        may("gone_when", Outcomes("question"), "Its re-test: the answers that close it; the first that can be put."),
    ),
)
COMPLAINTS_FILE = Shape(
    "the complaints file",
    (
        must("complaints", Named("complaint", COMPLAINT), "What customers say."),
        may("same_words", Texts(), "Rows of words and phrases that customers use for one another, with commas."),
    ),
)
CAUTION = Shape(
    "a caution",
    (
        must("text", Text(), "The sentence."),
        may("again", Text(), "The same in a few words, for whoever has read the whole sentence in this job."),
        may("lasts", State(any_of=True), "While the bench stays so, it is not said again."),
        may("needed_in", States(), "Bench states in which every question and repair has it."),
        may("needed_with", Texts(), "Words: every question and repair whose steps speak of one has it."),
        may("work", Word(WORK), "Who may work in these states at all: the qualified, or nobody."),
    ),
)
CAUTIONS_FILE = Shape(
    "the cautions file",
    (must("cautions", Named("caution", CAUTION, briefly=Text()), "The sentences shown before a dangerous step."),),
)
RANGE = Shape(
    "a range",
    (
        must("percent", Number(), "Per cent of the reading."),
        must("digits", Number(), "Counts of the last digit."),
        must("step", Amount(), "What the last digit is worth."),
        may("up_to", Amount(), "The end of the range; the last has none."),
    ),
)
INSTRUMENT = Shape(
    "an instrument",
    (
        must("name", Text(), "What the technician calls it."),
        must("measures", QuantityKind(), "The kind of quantity that it shows."),
        may("ranges", Listed(RANGE), "Its ranges, each with its accuracy, the smallest first."),
        may("class", Number(), "Its class: per cent of full scale.", field="class_percent"),
        may("full_scale", Amount(), "The end of its scale."),
        may("plus_minus", Amount(), "Its accuracy as a quantity."),
        may("percent", Number(), "Its accuracy in per cent of the reading."),
        may("leads", Amount(), "What its own leads may add."),
        may("owned", YesNo(), "Whether the shop has it; yes unless it says no."),
    ),
)
INSTRUMENTS_FILE = Shape(
    "the instruments file",
    (must("instruments", Named("instrument", INSTRUMENT), "The shop's meters and gauges."),),
)
MACHINE_FILE = Shape(
    "a machine file",
    (
        must("machine", Id("machine", own=True), "The id of the machine type."),
        must("title", Text(), "What the technician chooses at intake."),
        must("layout", Text(), "How it is built, in words."),
        must("features", Values(("feature",)), "Every feature with its value on this machine."),
        may("plate", Values(("plate value",)), "Its ratings."),
        may("wiring", IdsOf("feed", ("feed", "part")), "Feeds that come through their parts in another order here."),
    ),
)
