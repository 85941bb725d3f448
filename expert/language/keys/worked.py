"""The keys of worked cases and answers files."""

from __future__ import annotations

from expert.language.keys.kinds import Id, Ids, Named, One, Shape, Text, Values, Word, YesNo, may, must
from expert.language.keys.words import ENDS

_MACHINE = must("machine", Id("machine"), "A machine type, or the path of a machine file.")
_COMPLAINTS = must("complaints", Ids("complaint"), "What the customer says.")
_JOB = (
    may("plate", Values(("plate value", "feature", "question")), "What is typed at the plate prompt."),
    may("qualified_for_live_work", YesNo(), "Whether the technician is qualified for live work."),
    may("arrives", Id("arrival"), "How the machine comes in."),
    may("answers", Values(("question",)), "Answers as typed at the prompt."),
    may("rest", Word(("sound",)), "How everything else comes out; left out: nothing else can be told."),
    may("after_repair", Values(("question",)), "Answers that hold once anything was repaired."),
    may("after", Values(("fault",), each=("question",)), "By fault, the answers that hold once it is really mended."),
)
ANSWERS_FILE = Shape("an answers file", (_MACHINE, _COMPLAINTS, *_JOB))
EXPECTATION = Shape(
    "an expectation",
    (
        must("outcome", Word(ENDS), "How the job ends."),
        may("faults", Ids("fault"), "The faults that are found, or the list that is left."),
        may("never_asks", Ids("question"), "Questions that must not be put."),
        may("asks", Ids("question"), "Questions that must be put, in this order, others between them allowed."),
        may("cautions", Ids("caution"), "Cautions that must be shown."),
        may("normal", Ids("complaint"), "Complaints that are how a sound machine behaves."),
    ),
)
CASE = Shape(
    "a case",
    (
        must("says", Text(), "What the case shows, in a sentence."),
        must("source", Text(), "Where its truth comes from."),
        _MACHINE,
        _COMPLAINTS,
        must("expect", One((EXPECTATION,)), "What should come of it."),
        *_JOB,
    ),
)
CASES_FILE = Shape(
    "a cases file",
    (
        may("cases", Named("case", CASE), "Worked cases."),
        may("readings", Values(("question",), each=("outcome",)), "By question and outcome, numbers that mean it."),
    ),
)
