"""The keys of the bench file: how a machine can stand, and the moves between these states."""

from __future__ import annotations

from expert.language.keys.kinds import (
    Holds,
    Id,
    Ids,
    Listed,
    Named,
    Number,
    One,
    Shape,
    State,
    States,
    Text,
    Texts,
    YesNo,
    may,
    must,
)

ARRIVAL = Shape(
    "an arrival",
    (
        must("say", Text(), "What the technician chooses."),
        must("state", State(), "The state that follows, one for every dimension."),
        may("unsure", YesNo(), "Whether this is what counts when nobody knows how the machine stands."),
    ),
)
IN_TIME = Shape(
    "an entry of 'in_time'",
    (
        must("while", State(), "The state in which it happens.", field="holds"),
        must("becomes", State(), "What holds afterwards."),
    ),
)
AFTER_OPENING = Shape(
    "'after_opening'",
    (
        must("when", State(), "The states that count as opened."),
        must("prove", Ids("question"), "What is put before an opened machine goes back."),
    ),
)
HAND_BACK = Shape(
    "'hand_back'",
    (
        must("state", State(), "How a machine stands that goes back as fine."),
        must("prove", Ids("question"), "What must come out sound before, whatever the complaint was."),
    ),
)
READ_TWICE = Shape(
    "'read_twice'",
    (
        must("longest", Number(), "Minutes: a test that takes longer is not made twice."),
        must("looks", Number(), "How many looks that cleared are repeated at most before a search ends open."),
    ),
)
MOVE = Shape(
    "a move",
    (
        must("say", Text(), "What the technician reads first."),
        must("makes", State(), "What holds afterwards."),
        must("minutes", Number(), "Minutes it takes."),
        must("steps", Texts(), "What to do, one sentence each."),
        must("confirm", Text(), "What the technician confirms; the answer is recorded."),
        may("word", Text(), "What is typed to confirm it; without it, yes."),
        may("otherwise", State(), "What holds when the answer is no, for a move that measures."),
        may("needs", State(any_of=True), "What must hold before; of several states any will do."),
        may("cautions", Ids("caution"), "Cautions shown before the steps."),
        may("first", Ids("question"), "Questions put before the move unless they have an answer."),
        may("unless", Holds("never"), "While this is true the move cannot be made."),
        may("look_instead", Ids("question"), "Questions put, the first that can be, when the move cannot be made."),
    ),
)
BENCH_FILE = Shape(
    "the bench file",
    (
        must("states", Named("bench dimension", Texts()), "The dimensions of the bench, each with its states."),
        must("arrives", Named("arrival", ARRIVAL), "How machines come in."),
        must("safe", State(), "What a machine is brought to before it is left alone."),
        must("moves", Named("move", MOVE), "The ways from state to state."),
        may("qualified_only", States(), "Combinations only for those qualified for live work."),
        may("passing_only", States(), "Combinations in which nothing is tested or repaired."),
        may("service", Ids("question"), "What every repaired machine must pass before it goes back."),
        may("after_opening", One((AFTER_OPENING,)), "What every opened machine must pass before it goes back."),
        may("hand_back", One((HAND_BACK,)), "What every machine must pass that goes back as fine."),
        may("danger_met", Id("question"), "The question that tells at any prompt what danger was just met."),
        may("check_out", Ids("question"), "What a machine does at work: put before it goes back as fine."),
        may("read_twice", One((READ_TWICE,)), "What is read a second time before a fault is named."),
        may("in_time", Listed(IN_TIME), "What happens by itself."),
    ),
)
