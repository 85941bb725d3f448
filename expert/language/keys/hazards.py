"""The keys of the hazards file: what can be forbidden, and the dangers that forbid it."""

from __future__ import annotations

from expert.language.keys.kinds import Holds, Ids, Listed, Named, Outcomes, Shape, States, Text, YesNo, may, must

ACT = Shape(
    "an act",
    (
        must("say", Text(), "What is forbidden, in words that follow on 'do not'."),
        must("states", States(), "The bench states that are the act; any of them."),
        may("left", YesNo(), "Whether it is judged only when somebody leaves the machine."),
    ),
)
RELEASE = Shape(
    "an entry of 'released_by'",
    (
        must("tests", Outcomes("question"), "Dead tests, in the order in which they are put, with what will do."),
        may("repair", Ids("fault"), "Faults of which one must be repaired before the tests.", field="repairs"),
    ),
)
HAZARD = Shape(
    "a hazard",
    (
        must("name", Text(), "The danger in words."),
        must("forbids", Ids("act"), "What must not be done while it stands."),
        must("until", Text(), "What ends it, in words."),
        must("released_by", Listed(RELEASE), "What ends it; any one entry."),
        may("while", Holds(), "What makes it stand, read with suspicion.", field="holds"),
        may("any_time", YesNo(), "Whether tests made earlier in the job count; else only those after it began."),
        may("after_repair", YesNo(), "Whether it stands after each repair that was made with the covers off."),
        may("suspected", Ids("fault"), "Faults that make it stand while a fired rule speaks for them."),
    ),
)
HAZARDS_FILE = Shape(
    "the hazards file",
    (
        must("acts", Named("act", ACT), "What can be forbidden."),
        must("hazards", Named("hazard", HAZARD), "The dangers."),
    ),
)
