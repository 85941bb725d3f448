"""What is checked over the whole rule base: of each check its codes, then its messages."""

from __future__ import annotations

# ------------------------------------------------------------ bench reach

OUT_OF_REACH = "No moves lead from the way a machine arrives to the bench state that is asked for."


def no_moves_lead_to(state: str, arrival: str) -> str:
    return f"no moves lead to {state} from a machine that arrives {arrival}"


MOVE_DOES_NOTHING = "A move makes only what it needs before it is made."


def asked_for_often(message: str, places: int) -> str:
    return f"{message}; {places} questions and repairs ask for it"


def needs_what_it_makes(move: str, state: str) -> str:
    return f"{move} makes {state}, and that is what it needs already; one of the two is wrong"


# ------------------------------------------------------------ circles


def lies_on_no_circle(name: str) -> str:
    return f"{name} lies on no circle"


# ------------------------------------------------------------ drawings

DRAWING_TOO_WIDE = "A line of the drawing is wider than the narrowest screen leaves room for."
UNKNOWN_PART_IN_DRAWING = "The drawing names a part in brackets that there is not."
MARK_NOT_IN_DRAWING = "The words that a mark points to do not stand in the drawing, or stand there twice."


def line_too_wide(columns: int, widest: int, line: str) -> str:
    return f"the line is {columns} columns wide; a drawing may have {widest}: {line}"


def no_part_of_that_name(name: object) -> str:
    return f"'[{name}]' is no part's name; without brackets it is plain text"


NOT_IN_THE_DRAWING = "does not stand in the drawing"


def stands_several_times(times: int) -> str:
    return f"stands {times} times in the drawing"


def mark_points_nowhere(mark: str, where: str) -> str:
    return f"'{mark}' {where}; a mark points to one place"


# ------------------------------------------------------------ feed cycles

FEED_CYCLE = "A feed comes, through other feeds, out of itself."


def feed_out_of_itself(feed: str, way: str) -> str:
    return f"the feed {feed} comes out of itself: {way}"


# ------------------------------------------------------------ forbidden steps

HINT_ON = "what needs that is a question or a proof in its own bench state"
HINT_DEVICE = "a protective device is tested off the machine or renewed, and never put out of its work"
STEP_ENERGISES = "A repair step or a 'how' switches on, heats or brings pressure where the plug is out."
DEFEATS_PROTECTION = "A sentence tells to bridge, block, adjust, remove or leave out a protective device."


def not_in_a_dead_machine(words: str, hint: str) -> str:
    return f"'{words}' in a dead machine; {hint}"


# ------------------------------------------------------------ formula cycles


def formulas_in_a_circle(way: str) -> str:
    return f"formulas go round in a circle: {way}"


# ------------------------------------------------------------ guarded states

CAUTION_MISSING = "A question, a move or a repair lacks a caution that its bench state or its steps need."
STATE_UNGUARDED = "A caution says who may work in a state, and the bench file lets others work there."
MOVE_INTO_DANGER = "A move leads into a bench state in which nobody may work."
HAND_ON_LIVE_PART = "A question in a live, open machine asks for a hand on a terminal, a wire or a joint."


def caution_in_state(state: str, caution: str) -> str:
    return f"in {state} the caution {caution} must be shown; put it under 'cautions'"


def caution_with_words(words: str, caution: str) -> str:
    return f"with '{words}' the caution {caution} must be shown; put it under 'cautions'"


def only_for_the_qualified(caution: str, state: str) -> str:
    return f"{caution} is for the qualified only, but 'qualified_only' does not name {state}"


def nobody_works_there(caution: str, state: str) -> str:
    return f"by {caution} nobody works in {state}, but 'passing_only' does not name it"


def move_may_lead_into(move: str, state: str) -> str:
    return f"{move} may lead into {state}; say under 'needs' what keeps it out"


def hand_in_live_machine(words: str) -> str:
    return f"'{words}' in a live, open machine; set it up with 'prepare', the plug out"


# ------------------------------------------------------------ hazards

RELEASE_NOT_DEAD = "A test that is to release a hazard is itself in a state that the hazard forbids."
RELEASE_BY_ITSELF = "A hazard is released by asking the very question again that opened it."
NOT_IN_HAZARD = "The 'while' of a hazard contains 'not'; read with suspicion it would hold of everything unknown."
STOP_WITHOUT_HAZARD = "A rule stops the work and opens no hazard: nothing would hold once it is dealt with."
DANGER_UNGUARDED = "A dangerous fault opens no hazard."
DANGER_NOT_MARKED = "A fault opens a hazard, but is not marked as dangerous."


def while_contains_not(hazard: str) -> str:
    return f"'while' of {hazard} contains 'not'; name the outcomes that are dangerous"


def cannot_release(test: str, hazard: str) -> str:
    return f"{test} cannot release {hazard}: it is asked in a state that the hazard forbids"


def asked_again_at_once(question: str, hazard: str) -> str:
    return f"{question} opens {hazard} and would be asked again at once; put first what changes it"


def stops_and_nothing_stands(rule: str) -> str:
    return f"{rule} stops the work, but no hazard stands then; give one with 'while' and 'released_by'"


def stops_and_no_hazard_names(rule: str, premise: str) -> str:
    return f"{rule} stops the work at {premise}, which no hazard that stands then names under 'while'"


def dangerous_without_hazard(fault: str) -> str:
    return f"{fault} is dangerous and opens no hazard; name it under 'while' of one"


def hazard_without_danger(fault: str) -> str:
    return f"{fault} opens a hazard, so it is dangerous; write dangerous: yes"


# ------------------------------------------------------------ instrument kinds

WRONG_INSTRUMENT = "The instrument does not measure the kind of quantity that the question asks for."


def would_do(instruments: str) -> str:
    return f"; {instruments} would do"


def shows_another_kind(instrument: str, shows: str, wanted: str, instead: str) -> str:
    return f"{instrument} shows {shows}; {wanted} is asked for{instead}"


# ------------------------------------------------------------ live tests

LIVE_WITHOUT_SET_UP = "A measurement in a live, open machine is not set up with the plug out."
TELLS_NOTHING = "A test made while something runs, or with a part on trial, does not ask whether it can tell."
LIVE_BEFORE_DEAD = "A live test stands before one on a dead machine that is put for the same reading."


def set_up_with_plug_out(question: str) -> str:
    return f"{question} is measured in a live, open machine; clip on with 'prepare', the plug out"


def say_what_shows_it(words: str) -> str:
    return f"'{words}': say under 'only_if' which answers show that it is so, or that what it needs arrives"


def live_before_dead_test(live: str, dead: str) -> str:
    return f"{live} is live work and stands before {dead}, which is not; put {dead} first"


# ------------------------------------------------------------ machine features

MISSING_FEATURE = "A machine type does not say which value of a feature it has."


def must_state_feature(machine: str, feature: str, values: str) -> str:
    return f"{machine} must state the feature '{feature}': one of {values}"


# ------------------------------------------------------------ plate values

MISSING_RATING = "A machine type does not state a rating that a question needs on it."


def must_state_rating(machine: str, rating: str, question: str) -> str:
    return f"{machine} must state the rating '{rating}'; the question {question} needs it"


# ------------------------------------------------------------ reading order


def limits_reversed(reading: str) -> str:
    return f"'{reading}': the lower limit is not below the upper one"


def reading_never_comes_out(reading: str) -> str:
    return f"'{reading}' can never come out: the readings above it take its whole span"


# ------------------------------------------------------------ rule cycles

CYCLE = "Rules, or formulas, go round in a circle: something rests on itself."


def rule_leads_to(rules: str, fact: str) -> str:
    return f"rule {rules} -> {fact}"


def rules_in_a_circle(way: str) -> str:
    return f"rules argue in a circle: {way}"


# ------------------------------------------------------------ values in texts


def names_no_value(name: str, instead: str) -> str:
    return f"'{{{name}}}' names no rating or worked-out value{instead}"


# ------------------------------------------------------------ unfolding


def nothing_in_common(finding: str) -> str:
    return f"rules conclude {finding} in ways that have no question in common; name the questions"
