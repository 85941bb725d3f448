"""The heart of the practice: `step` takes one line. Pure: the same lines on the same machine give the same practice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from expert.job.answers.reading import NotAnAnswer
from expert.job.bench.moves import SET_UP
from expert.job.prompts.move import confirmed
from expert.job.state.job import NO_PROMPT, Phase, Turn
from expert.job.steps import go_on
from expert.practice import sentences as say
from expert.practice.choosing import allowed_now, bench_now, listed
from expert.practice.ending import expert_way, told_at_the_end
from expert.practice.finding import faults_meant_by, meant
from expert.practice.moving import choose_move, confirms, make_move
from expert.practice.naming import ask_whether, name_it
from expert.practice.practice import Offer, Practice, Stepped
from expert.practice.testing import GO, choose_test, in_words, make_test, set_up
from expert.trace.cleaning import clean
from expert.trade.counting import counted
from expert.trade.quantities.units import echo

LONGEST = 200
IT_IS = "it is"
GIVE_UP = "give up"
HELP = (
    say.HELP_WORDS,
    say.HELP_TESTS,
    say.HELP_READ,
    say.help_naming(IT_IS, GIVE_UP),
)


# What may be typed also where a word has to confirm something, which still waits afterwards.
LOOKING = ("help", "read", "hint", "suspects")


def step(practice: Practice, line: str) -> Stepped:
    """What one line from the junior does: the practice afterwards and what is said. Never raises for what is typed."""
    if practice.over:
        return practice, (say.PRACTICE_IS_OVER,)
    text = clean(line, LONGEST).strip()
    try:
        after, lines = _taken(practice, text)
    except NotAnAnswer as problem:
        return practice, (str(problem),)
    if after.over:
        lines = (*lines, *told_at_the_end(after, expert_way(after)))
    return after, lines


def _taken(practice: Practice, text: str) -> Stepped:
    word = text.casefold().rstrip(".!")
    if practice.waiting is not None and word not in LOOKING:
        leaves = word == GIVE_UP and practice.waiting.kind != "leave"
        return _leave(practice) if leaves else _confirmed(practice, practice.waiting, text)
    if word in COMMANDS:
        return COMMANDS[word](practice)
    if word.startswith(IT_IS):
        return _named(practice, text[len(IT_IS) :].strip(" :."))
    if word.isdecimal():
        if not (len(word) < 4 and 1 <= int(word) <= len(practice.offers)):
            upto = f"1 to {len(practice.offers)}" if practice.offers else say.NOTHING_LISTED
            return practice, (say.chooses_nothing(echo(text), upto),)
        return _chosen(practice, practice.offers[int(word) - 1])
    if not word:
        return practice, HELP[:1]
    return _searched(practice, text)


def _searched(practice: Practice, text: str) -> Stepped:
    offers = meant(practice, text)
    if not offers:
        return practice, (say.no_test_and_no_move(echo(text)),)
    if len(offers) == 1:
        return _chosen(practice, offers[0])
    return listed(practice, say.WHICH, offers)


def _chosen(practice: Practice, offer: Offer) -> Stepped:
    match offer.kind:
        case "test" | "set up":
            return choose_test(practice, offer.id)
        case "move":
            return choose_move(practice, offer.id)
        case "fault":
            return ask_whether(practice, offer.id)
        case "leave":
            return _leave(practice)


def _named(practice: Practice, words: str) -> Stepped:
    offers = faults_meant_by(practice.job, words)
    if not offers:
        return practice, (say.no_part_and_failure(IT_IS),)
    if len(offers) == 1:
        return ask_whether(practice, offers[0].id)
    return listed(practice, say.WHICH_OF_THESE, offers)


def _confirmed(practice: Practice, waiting: Offer, text: str) -> Stepped:
    """A line where a word has to confirm. Raises NotAnAnswer for anything but that word and no."""
    word = {"test": GO, "set up": SET_UP}.get(waiting.kind, "")
    if confirms(practice, waiting.id, text) if waiting.kind == "move" else confirmed(text, word):
        return DOES[waiting.kind](practice, waiting.id)
    return replace(practice, waiting=None), ("Left. What next?",)


def _left(practice: Practice, _: str = "") -> Stepped:
    return replace(practice, waiting=None, over=True), ("You gave up.",)


# What follows when the word for it was typed.
DOES: dict[str, Callable[[Practice, str], Stepped]] = {
    "test": make_test,
    "set up": set_up,
    "move": make_move,
    "fault": name_it,
    "leave": _left,
}


def _leave(practice: Practice) -> Stepped:
    return replace(practice, waiting=Offer("leave")), (say.SURE_TO_END,)


def given_up(practice: Practice) -> Stepped:
    """The practice when nothing more is typed: it counts as given up."""
    after, lines = _left(practice)
    return after, (*lines, *told_at_the_end(after, expert_way(after)))


def _helped(practice: Practice) -> Stepped:
    if practice.waiting is not None:
        return practice, (say.A_WORD_IS_WAITED_FOR,)
    return practice, HELP


def _read_so_far(practice: Practice) -> Stepped:
    base = practice.job.base
    lines = [
        f"  {number:2}  {base.questions[seen.question].ask} {in_words(base.questions[seen.question], seen.text)}"
        for number, seen in enumerate(practice.seen, 1)
    ]
    heading = say.so_far(counted(len(practice.seen), "test"), practice.minutes)
    return practice, (f"{heading}{'; '.join(practice.scenario.told)}.", *lines)


def _suspects(practice: Practice) -> Stepped:
    return practice, (say.NO_SUSPECTS_SHOWN,)


def _hinted(practice: Practice) -> Stepped:
    """What the real search would do next, knowing what the junior knows."""
    turn = Turn(practice.job.copy())
    turn.job.prompt = NO_PROMPT
    go_on(turn)
    kind, name = turn.job.prompt.at
    base = practice.job.base
    moves = {move.id: move.say for move in base.bench.moves}
    if kind in ("question", "proof"):
        said = say.would_look_here(base.questions[name].ask)
    elif kind == "move" and name in moves:
        said = say.would_do_this(moves[name])
        if turn.job.choice is not None:
            said += say.for_this_test(base.questions[turn.job.choice.best.asks].ask)
    elif kind == "danger":
        said = say.EXPERT_STOPS
    elif kind == "conflict":
        said = say.EXPERT_LOOKS_TWICE
    elif turn.job.phase in (Phase.SAFE, Phase.FIND):
        said = say.EXPERT_HAS_NO_TEST_LEFT
    else:
        said = say.EXPERT_ASKS_NO_MORE
    return replace(practice, hints=practice.hints + 1), (f"Hint {practice.hints + 1}: {said}",)


COMMANDS: dict[str, Callable[[Practice], Stepped]] = {
    "help": _helped,
    "tests": allowed_now,
    "bench": bench_now,
    "read": _read_so_far,
    "hint": _hinted,
    "suspects": _suspects,
    GIVE_UP: _leave,
}
