"""What `check` says of rules and questions: of each check its codes, then its messages."""

from __future__ import annotations

# ------------------------------------------------------------ what was checked


def rules_not_used(problems: str) -> str:
    return f"{problems}: the rules are not used"


def checked(rules: str, questions: str, faults: str, parts: str, problems: str, advice: str) -> str:
    return f"{rules}, {questions}, {faults} of {parts}: {problems}, {advice}"


NO_ANSWERS_LEAD_TO_IT = "no answers lead to it"

# ------------------------------------------------------------ ambivalence

CONFIRMS_AND_CLEARS = "One rule confirms a fault and clears it, or concludes what excludes itself."
CONTRADICTING_RULES = "Whenever the one rule fires, the other fires too, and they exclude each other."
FOR_AND_AGAINST = "The same answers give weight for a fault and against it."


def says_both(rule: str, fault: str, one: str, other: str) -> str:
    return f"{rule} says of {fault} both {one} and {other}"


def contradicts_another(rule: str, says: str, fault: str, other: str, at: object, other_says: str, witness: str) -> str:
    return f"{rule} {says} {fault}, but {other} at {at} {other_says} it on the same answers ({witness})"


def points_against_another(rule: str, way: str, fault: str, other: str, at: object, witness: str) -> str:
    return f"{rule} points {way} {fault}, but {other} at {at} points the other way on the same answers ({witness})"


# ------------------------------------------------------------ numbers

REVERSED_ON_PLATE = "On a shipped machine's plate the lower limit is not below the upper one."
NEVER_ON_PLATE = "On a shipped machine's plate the reading can never come out: those above it take everything."
OVERLAPPING_READINGS = "Two readings take part of each other's values, so the order decides what a value means."
HAIRLINE_GAP = "A small gap between two readings falls to `otherwise`, as if one limit were mistyped."
BEYOND_INSTRUMENT = "The limit lies beyond what the instrument can show."
BELOW_ACCURACY = "The limit is smaller than the error of the instrument there."
NARROWER_THAN_ACCURACY = "The reading is so narrow that the instrument can never decide for it."
BEYOND_BELIEVABLE = "The limit lies outside what the question calls believable."
EXPECTED_IS_NOT_SOUND = "The value that the limits are worked out from does not itself count as sound."


def limits_crossed(name: str, where: str, limits: str) -> str:
    return f"{name}: {where} the limits are {limits}; the lower is not below the upper"


def reading_never_comes_out(name: str, where: str, taken: str) -> str:
    return f"{name} can never come out {where}: the readings above it take {taken}"


def readings_overlap(question: str, names: str) -> str:
    return f"{question}: {names} overlap in part"


def gap_between_readings(question: str, names: str) -> str:
    return f"{question}: between {names} a small gap falls to 'otherwise'"


def the_limit_of(limit: str, outcome: str, question: str) -> str:
    return f"the limit {limit} of '{outcome}' in {question}"


def more_than_instrument_shows(limit: str, instrument: str, most: str) -> str:
    return f"{limit} is more than {instrument} shows ({most})"


def not_within_what_is_believable(limit: str, low: str, high: str) -> str:
    return f"{limit} is not within {low} to {high}"


def within_error(limit: str, instrument: str, error: str) -> str:
    return f"{limit} is within the error of {instrument} there ({error})"


def narrower_than_error(outcome: str, question: str, range: str, instrument: str, error: str) -> str:
    return f"'{outcome}' of {question} ({range}) is narrower than the error of {instrument} at both ends ({error})"


def nominal_value_is_not_sound(question: str, machine: str, value: str, shown: str, outcome: str, range: str) -> str:
    return f"{question}: on {machine} the expected value {value} is {shown}, and that is not '{outcome}' ({range})"


LIMIT_UNLIKE_OTHERS = "A limit differs by a power of ten, or by its side, from that of a question that is read alike."


def limit_is_unlike(question: str, outcome: str, limit: str, other: str, other_limit: str) -> str:
    return f"'{outcome}' of {question} is {limit}, and {other}, which is read alike otherwise, has {other_limit}"


# ------------------------------------------------------------ orders

DEAR_ORDER = "The check list takes clearly longer on the average than the same tests in another order."


def shorter_in_another_order(rule: str, minutes: float, best: float, order: str) -> str:
    return (
        f"{rule} looks in this order for {minutes:.0f} minutes on the average; {best:.0f} would do in the order {order}"
    )


# ------------------------------------------------------------ questions

UNUSED_QUESTION = "No rule, condition, formula or proof uses the question."
UNUSED_OUTCOME = "No rule uses one of a question's outcomes (only a note)."
UNUSED_FINDING = "Rules conclude the finding, or nothing does, and nothing builds on it."
FINDING_OUTCOME_NEVER_CONCLUDED = "A rule waits for an outcome of a finding that no rule concludes."
UNUSED_NAME = "Nothing uses the named condition or list, the worked-out value or the caution."
LIVE_WITHOUT_CAUTION = "A question with mains on and covers off has no caution."
EVERY_OUTCOME_SOUND = "Every answer to the question counts as sound."
MEASURED_ON_WRONG_MAINS = "A resistance is measured with mains on, or a voltage or a current without it."


def every_answer_is_sound(question: str) -> str:
    return f"every answer to {question} counts as sound"


def live_test_has_no_caution(question: str) -> str:
    return f"{question} is put with mains on and covers off, and has no caution"


NOTHING_OF_THE_MAINS = "nothing of the mains"


def measures_in_wrong_state(question: str, quantity: str, mains: str, says: str) -> str:
    return f"{question} measures {quantity}, which takes mains: {mains}; its 'bench' says {says}"


def nothing_uses_answer(question: str) -> str:
    return f"nothing uses the answer to {question}"


def nothing_uses_outcome(outcome: str, question: str) -> str:
    return f"note: no rule uses '{outcome}' of {question}"


def nothing_builds_on(finding: str) -> str:
    return f"nothing builds on the finding {finding}"


def waits_for_what_nobody_concludes(finding: str, outcomes: str) -> str:
    return f"this waits for {finding}: {outcomes}, which no rule concludes"


def nothing_uses_condition(condition: str) -> str:
    return f"nothing uses the condition {condition}"


def nothing_uses_list(name: str) -> str:
    return f"nothing uses the list {name}"


# ------------------------------------------------------------ redundancy

NEVER_FIRES = "No answers on any machine make the rule's condition true."
DUPLICATE_RULE = "Two rules fire on the same answers and conclude the same."
SUBSUMED_RULE = "Whenever the rule fires, another one fires that concludes all of it."
NEVER_ASKED = "What the question waits for under `only_if` can never be true when it is put."


def can_never_fire(rule: str) -> str:
    return f"{rule} can never fire: no answers on any machine make its condition true"


def says_the_same(rule: str, other: str, at: object, witness: str) -> str:
    return f"{rule} says what {other} at {at} says, on the same answers ({witness})"


def adds_nothing(rule: str, witness: str, other: str, at: object) -> str:
    return f"{rule} adds nothing: whenever it fires ({witness}), {other} at {at} says the same"


WAITS_FOR_ITSELF = "it waits for itself"
WAITS_FOR_NOTHING_TRUE = "what it waits for can never be true"


def never_put(question: str, why: str) -> str:
    return f"{question} is never put: {why}"


# ------------------------------------------------------------ weights

WEIGHT_AGAINST_SHOWS = "The weight points the other way than the answers that the fault shows."
WEIGHT_WITHOUT_GROUND = "Nothing ties the fault to the answers on which a rule gives it weight."
DESPITE_NOTHING = "A weight that stands under `despite_shows` agrees with what the fault shows, or there is none."


def gives_no_weight(rule: str, fault: str) -> str:
    return f"{rule} gives no weight for or against {fault}"


def weighs_what_nothing_tells(rule: str, way: str, fault: str, asked: str) -> str:
    return f"{rule} points {way} {fault}, and nothing tells how that answers ({asked})"


def say_under_shows(message: str) -> str:
    return f"{message}; say it under its 'shows'"


GIVES_JUST_THESE_ANSWERS = "gives just these answers"
HARDLY_GIVES_THESE_ANSWERS = "hardly gives these answers"


def points_the_wrong_way(rule: str, way: str, fault: str, gives: str, witness: str) -> str:
    return f"{rule} points {way} {fault}, which {gives} ({witness})"


def needs_no_despite(rule: str, way: str, fault: str) -> str:
    return f"{rule} points {way} {fault} just as that shows; it needs no 'despite_shows'"


def gives_other_outcomes(question: str, given: str, outcomes: str) -> str:
    return f"it gives {question}: {given}, not {outcomes}"


# ------------------------------------------------------------ wording

LONG_QUESTION = "The question is longer than 120 characters."
TWO_QUESTIONS = "Two questions stand in one: an answer would not tell which it belongs to."
NEGATED_QUESTION = "A yes/no question asks for a negative, so that `yes` means no."
LABEL_OF_ANOTHER = "The label of an outcome reads like the name of another one."
LIMITS_WITHOUT_SOURCE = "Numbers limit readings, and nothing says where they come from."


def asked_at_length(question: str, count: int, longest: int) -> str:
    return f"{question} is asked in {count} characters; {longest} can be taken in at a glance"


def asks_two_things(question: str) -> str:
    return f"{question} asks two things in one"


def asks_for_a_negative(question: str, found: str) -> str:
    return f"{question} asks for '{found}', so that yes would mean no; ask for what is there"


def label_reads_like_another(question: str, outcome: str, other: str, label: str) -> str:
    return f"{question}: the label of '{outcome}' reads like '{other}' ({label})"


def nothing_says_where_limits_come_from(names: str, more: str, circuit: str) -> str:
    return f"nothing says where the limits of {names}{more} in {circuit} come from"
