"""The keys of a circuit file: parts and faults, questions, findings, worked-out values, rules."""

from __future__ import annotations

from expert.language.keys.kinds import (
    Amount,
    Assumed,
    Formula,
    Holds,
    Id,
    Ids,
    Labels,
    Machines,
    Named,
    Number,
    One,
    Outcome,
    Outcomes,
    QuantityKind,
    Shape,
    State,
    Text,
    Texts,
    Unit,
    Weights,
    Word,
    YesNo,
    may,
    must,
)
from expert.language.keys.words import SEEN, STRENGTHS

REPAIR = Shape(
    "a repair",
    (
        must("minutes", Number(), "Minutes of work, the way to the bench state not counted."),
        must("steps", Texts(), "What to do, one sentence each; nothing in them energises, heats or pressurises."),
        may("parts", Texts(), "The spare parts that are fitted."),
        may("consumables", Texts(), "What is used up, such as seals and thread tape."),
        may("cautions", Ids("caution"), "Cautions shown before the first step."),
        may("bench", State(), "The state of the bench in which the work is done."),
    ),
)
FEED = Shape(
    "a feed",
    (
        must("name", Text(), "What arrives, in words."),
        must("through", Ids("feed", also=("part",)), "The feeds and parts that it comes through, the source first."),
        may("lacking", Outcomes("question"), "The answers where it does not arrive, by question."),
        may("arrives", Holds("never"), "What proves that it arrives."),
        may("explains", Ids("complaint"), "The complaints that its lack accounts for."),
        may("hides", Ids("question"), "What cannot be seen without it: looked at after the repair of what cut it."),
    ),
)
FAULT = Shape(
    "a fault",
    (
        must("name", Text(), "What the technician reads, after the name of the part."),
        must("seen", Word(SEEN), "How often this part fails in this way."),
        must("explains", Ids("complaint"), "The complaints it can account for."),
        must("repair", One((REPAIR,)), "What mends it."),
        must("prove", Ids("question", also=("finding",)), "Questions that must come out sound once it is mended."),
        may("shows", Outcomes("question", also=("finding",)), "The answers that it brings about, by question."),
        may(
            "caused_by",
            Ids("fault"),
            "Faults that may have brought it about: looked for before the new part is fitted.",
        ),
        may("cuts", Ids("feed"), "The feeds that do not arrive while it is there; what follows is worked out."),
        may("masks", Ids("question"), "What cannot be seen while it is there: looked at after its repair."),
        may("result", YesNo(), "Whether something else brings it about: never the end of a job."),
        may("dangerous", YesNo(), "Whether it can hurt somebody while it is there."),
    ),
)
PART = Shape(
    "a part",
    (
        must("name", Text(), "What the technician calls it."),
        must("faults", Named("fault", FAULT), "The ways in which it can fail."),
        may("needs", Ids("feed"), "The feeds without which it is dead whatever its own state."),
        may("where", Text(), "Where it sits and how it looks."),
        may("applies", Machines(), "Which machines have it; what the circuit says must hold too."),
    ),
)
PREPARATION = Shape(
    "a preparation",
    (
        must("bench", State(), "The state of the bench in which it is set up."),
        must("steps", Texts(), "What to set up, one sentence each."),
        may("leaves", State(), "What holds of the bench once it is set up, such as a wire taken off."),
    ),
)
DRAWING = Shape(
    "a drawing",
    (
        must("lines", Texts(), "What is joined to what, at most 57 columns wide; a part stands in [ ] by its name."),
        must("marks", Texts(), "The words in it between or at which is tested; arrows below them point there."),
    ),
)
CHOICE = Shape(
    "an answer by choice",
    (must("one_of", Labels(), "The outcomes, each with the label that the technician sees."),),
)
MEASUREMENT = Shape(
    "an answer by measuring",
    (
        must("measure", QuantityKind(), "The kind of quantity that is read.", field="kind"),
        must(
            "with",
            Id("instrument"),
            "The instrument; its accuracy decides what lies too near a limit.",
            field="instrument",
        ),
        may("unit", Unit(), "The unit of a number that is typed without one."),
        may("believable", Amount(span=True), "Beyond these two the technician is asked to look again."),
    ),
)
READING = Shape(
    "a reading",
    (
        must("limits", Formula(limits=True), "Which values have this name."),
        may("source", Text(), "Where the limits come from, if not from the source of the question."),
    ),
)
QUESTION = Shape(
    "a question",
    (
        must("ask", Text(), "What the technician is asked."),
        must("answer", One((CHOICE, MEASUREMENT), or_word="yes_no"), "The form of the answer."),
        must("how", Text(), "How the test is made."),
        must("minutes", Number(), "Minutes for the test, the way to the bench state not counted."),
        may("readings", Named("", READING, briefly=Formula(limits=True)), "Names for the values that are measured."),
        may("source", Text(), "Where the limits of its readings come from."),
        may("nominal", Id("worked-out value"), "The worked-out value that its limits lie around; told beside them."),
        may("sound", Outcomes(), "The outcomes that a sound machine shows; left out where none is good or bad."),
        may("expect", Text(), "What a sound machine shows, in words."),
        may("slip", Text(), "The customer's slip: what was measured, or the sentence that a sound answer makes true."),
        may("bench", State(), "The state of the bench in which it is put."),
        may("cautions", Ids("caution"), "Cautions shown before the test."),
        may("only_if", Holds(), "What must be known to be true before it is put."),
        may(
            "drawing", One((DRAWING,)), "Where it is tested; shown when the question is first met, and by the word how."
        ),
        may("applies", Machines(), "On which machines it is put; what the circuit says must hold too."),
        may("prepare", One((PREPARATION,)), "What must be set up first, in a bench state of its own."),
        may("alters", State(), "What the test itself changes of the bench, such as a lead pulled off."),
        may(
            "second_test",
            Ids("question"),
            "What to test where a reading lies too close to a limit, the best first.",
            field="second_tests",
        ),
        may("mends", Ids("fault"), "Faults that making the test puts right by itself, as drying does."),
    ),
)
FINDING = Shape(
    "a finding",
    (
        must("name", Text(), "What it is about, in words."),
        must("outcomes", Outcome(), "Its outcomes."),
    ),
)
WORK_OUT = Shape(
    "a worked-out value",
    (
        must("name", Text(), "What it is, in words."),
        must("gives", QuantityKind(), "The kind of quantity it gives.", field="kind"),
        must("unit", Unit(), "The unit it is shown in."),
        must("formula", Formula(), "How it is worked out."),
        must("source", Text(), "Where the formula comes from."),
        may("assume", Assumed(), "What stands in for readings that may be missing."),
    ),
)
CONCLUSIONS = Shape(
    "a conclusion",
    (
        may("confirm", Ids("fault"), "The fault is present."),
        may("clear", Ids("fault", also=("part",)), "The fault is absent; a part stands for all its faults."),
        may("conclude", Outcomes("finding"), "The finding has one of these outcomes."),
        may("check", Ids("fault", also=("part",)), "Look for these faults, in this order."),
        may("suspect", Ids("fault", also=("part",)), "These faults come under suspicion, in no order."),
        may("points_to", Weights(tuple(STRENGTHS)), "Evidence for a fault."),
        may("points_away", Weights(tuple(STRENGTHS)), "Evidence against a fault."),
        may("normal", Ids("complaint"), "This is how a sound machine behaves: the complaint is answered."),
        may("caution", Ids("caution"), "Show these cautions now."),
        may("stop_work", Texts(), "Stop the work, and say what the danger is."),
        may("advise", Texts(), "Tell the technician this."),
    ),
)
RULE = Shape(
    "a rule",
    (
        must("if", Holds(), "The condition.", field="when"),
        must("then", One((CONCLUSIONS,)), "What follows."),
        must("because", Text(), "Why, in the words that the technician reads."),
        may("source", Text(), "Where this is written down."),
        may(
            "rivals",
            Ids("fault", also=("part", "feed")),
            "What else would give the same answers; a feed stands for whatever cuts it.",
        ),
        may("in_this_order", Text(), "Why the check list stands so although another order would take fewer minutes."),
        may("despite_shows", Ids("fault"), "Faults whose weight here stands although their 'shows' say otherwise."),
    ),
)
_LISTS = (
    may("conditions", Named("condition", Holds()), "Conditions with a name, for use in others: `holds: NAME`."),
    may("lists", Named("list", Texts()), "Lists with a name, for use in others: `{list: NAME}`."),
    may("feeds", Named("feed", FEED), "What arrives through what."),
    may("parts", Named("part", PART), "Its parts with their faults."),
    may("questions", Named("question", QUESTION), "What can be looked at, tried and measured."),
    may("findings", Named("finding", FINDING), "What rules conclude and other rules build on."),
    may("work_out", Named("worked-out value", WORK_OUT), "Values computed from plate and readings."),
    may("rules", Named("rule", RULE), "What follows from what."),
)
CIRCUIT_FILE = Shape(
    "a circuit file",
    (
        must("circuit", Id("circuit", own=True), "The id of the circuit."),
        must("title", Text(), "What the technician reads above its questions."),
        may("applies", Machines(), "Which machines have such a circuit."),
        *_LISTS,
    ),
)
CIRCUIT_PART_FILE = Shape("a further file of a circuit", _LISTS)
