"""The search: questions, contradictions, the short list, how it ends."""

from __future__ import annotations

# ------------------------------------------------------------ conflict


def repair_failed_by_tests(fault: str) -> str:
    return f"The tests speak against the repair: '{fault}' is still there."


CANNOT_ALL_BE_RIGHT = "These answers cannot all be right:"


def which_to_repeat(best: int, why: str) -> str:
    return (
        f"Type the number of the one to repeat; it is asked again. Best {best}: {why}. If none can "
        "be repeated, type: can't tell"
    )


def the_quickest(minutes: float) -> str:
    return f"it is the quickest, {minutes:g} min"


def the_least_certain(minutes: float) -> str:
    return f"it takes {minutes:g} min like others, and its instrument is the least certain"


def none_is_quicker(minutes: float) -> str:
    return f"it takes {minutes:g} min, and none is quicker"


CONTRADICTS_OTHERS = "contradicts other answers"
ALL_SET_ASIDE = "All of them are set aside. The search goes on by other tests."


def none_of_the_answers(typed: str, numbers: str) -> str:
    return f"{typed} is no answer here. Type one of {numbers}, or: can't tell"


WHY_REPEATED = "The answers contradict each other. Going on as if both held would lead to a wrong part."


# ------------------------------------------------------------ question


def known_before(moves: str) -> str:
    return f"It must be known before: {moves}"


KNOWN_BEFORE_GOING_ON = "It must be known before the job goes on."


def tells_nothing_by_itself(typed: str) -> str:
    return f"{typed} tells nothing here: what has to be known before could not be told"


# ------------------------------------------------------------ going on

GO_ON_MEANS = "ask what is left to ask"
END_MEANS = "end the search with the list"


def go_on_or_end(typed: str) -> str:
    return f"{typed} is no answer here. Type go on, or end."


WHY_GOING_ON = (
    "The last questions changed no suspect, no finding and no complaint. What is left to ask "
    "may do no better. Whoever ends here keeps the list, and can take a can't tell back to "
    "go on."
)


# ------------------------------------------------------------ test prompt


def last_reading(answer: str) -> str:
    return f"{answer}: the last reading"


LEFT_UNANSWERED = "Leaves this question unanswered."


# ------------------------------------------------------------ ending


def not_tested(question: str, hazard: str, until: str) -> str:
    return f"Not tested: {question} There may be {hazard}. It ends when: {until}"


def normal_behaviour(complaint: str) -> str:
    return f"'{complaint}' is how a sound machine behaves. It is no fault."


def cause_not_settled(fault: str) -> str:
    return f"What caused '{fault}' could not be settled. Look for it before fitting a new part."


def not_accounted_for(question: str, outcome: str) -> str:
    return f"Not accounted for: {question} {outcome}."


def left_by_elimination(complaint: str, left: str) -> str:
    return f"'{complaint}': everything else that explains it is cleared. Left by elimination, not proved: {left}."


def narrowed(complaint: str) -> str:
    return f"'{complaint}': narrowed to a short list, not further:"


def not_resolved(complaint: str) -> str:
    return f"'{complaint}' is not resolved. No known fault that explains it is left."


def still_possible(complaint: str, count: str) -> str:
    return f"'{complaint}' is not resolved. {count} that explain it are still possible, the likeliest first:"


def look_by_hand(parts: str) -> str:
    return f" Look along by hand, with their wires, hoses and fixings: {parts}."


def not_known_to_rules(along: str) -> str:
    return f"Or it is something that these rules do not know.{along}"


def repaired_but_failed(fault: str) -> str:
    return f"Repaired, but its proof failed: {fault}. Look at this repair again: part, joints, setting."


def what_would_settle(question: str, means: str) -> str:
    return f"What would settle it: {question}{means}"


def needs_what_could_not(what: str, number: int) -> str:
    return f"It needs what could not be done: {what} If it can be after all: take back {number}"


def could_not_be_told(number: int) -> str:
    return f"It could not be told. If it can be after all: take back {number}"


ALL_OTHERS_CLEARED = "All other faults that explain the complaint are cleared."


# ------------------------------------------------------------ searching


def changed_nothing(count: int) -> str:
    return f"The last {count} questions changed nothing. Nothing that is left to ask tells much."


GO_ON_OR_END = "Type go on to be asked what is left, or end to end the search with this list."
CAUSE_FIRST = "What caused it is looked for before a new part is fitted."


def does_not_explain(complaints: str) -> str:
    return f"It does not explain: {complaints}."


def does_not_account_for(question: str, outcome: str) -> str:
    return f"It does not account for: {question} {outcome}."


CONTRADICTION_FIRST = "An answer that contradicted others is asked again first."


def found_so_far(faults: str) -> str:
    return f"Found so far: {faults}."


def search_goes_on(why: str) -> str:
    return f"The search goes on. {why}"


# ------------------------------------------------------------ short list


def more_on_the_list(count: int) -> str:
    return f"And {count} more, none of them likelier."


NO_TEST_SETTLES = "No test of these rules settles it: look at the part by hand."


def not_told(number: int) -> str:
    return f"it could not be told; take back {number}"


def needs_instrument(instrument: str) -> str:
    return f"needs the {instrument}"


def needs_what_was_not_done(what: str, number: int) -> str:
    return f"needs what could not be done: {what}; take back {number}"


FOR_SOMEBODY_QUALIFIED = "for somebody qualified for live work"


# ------------------------------------------------------------ short list


def on_the_list(number: int, fault: str, belief: float, settled_by: str) -> str:
    return f"{number}. {fault} ({belief:.0%}). {settled_by}"


def to_settle_it(question: str, barred: str) -> str:
    return f"To settle it: {question}{barred}"


# ------------------------------------------------------------ read a second time

READINGS_DIFFER = "The readings differ, so it is taken once more:"
LOOK_THAT_CLEARED_ITS_LIKE = (
    "Before it is named, what alone speaks against another fault with the same signs is looked at once more:"
)
LOOK_BEFORE_NORMAL = "Before it is called sound, what alone clears likely suspects is looked at once more:"
LOOK_THAT_CLEARED = (
    "Before the search ends open, what cleared likely suspects by one look alone is looked at once more:"
)
