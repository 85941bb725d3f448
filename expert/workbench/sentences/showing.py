"""What is shown of the rules: explaining, listing, drawing."""

from __future__ import annotations

# ------------------------------------------------------------ drawing

SVG_NEEDS_GRAPHVIZ = "--svg needs Graphviz: install it, or give the text that is printed without --svg to another"


def graphviz_could_not_draw(said: str) -> str:
    return f"Graphviz could not draw it: {said}"


def graphviz_takes_too_long(seconds: int) -> str:
    return f"Graphviz did not come to an end within {seconds} seconds"


# ------------------------------------------------------------ explaining


def nothing_is_called(name: str) -> str:
    return f"nothing in the rules is called '{name}'"


def did_you_mean(near: str) -> str:
    return f"; did you mean {near}?"


def used_in(sort: str, name: str, role: str, shortly: str) -> str:
    return f"    {sort} {name} ({role})   {shortly}"


def came_up_in_none(jobs: int) -> str:
    return f"  saved jobs: it came up in none of {jobs}"


def came_up_in(count: int, jobs: int, shown: str) -> str:
    return f"  saved jobs: it came up in {count} of {jobs}: {shown}"


# ------------------------------------------------------------ figure

NAME_A_CALCULATION = (
    "name a calculation, such as: expert figure element_resistance 230 V 1400 W. Or: expert figure --list"
)

# ------------------------------------------------------------ manual

OR_READ_THE_MANUAL = "; rules/README.md lists them"


def no_such_code(code: str, did_you_mean: str) -> str:
    return f"there is no code '{code}'{did_you_mean}"


def meaning_of_code(code: str, meaning: object, remedy: object) -> str:
    return f"{code}: {meaning}\nWhat to do: {remedy}"


HEADING_OF_MESSAGES = "## Reading the messages"

# ------------------------------------------------------------ mapping


def title_of_circuit(circuit: str) -> str:
    return f"{circuit}: what leads to its faults"


def title_of_fault(fault: str, part: str) -> str:
    return f"{fault}, {part}: what leads to it"


IS_NOTHING_TO_DRAW = "is no circuit, complaint, part, fault, question, finding or rule"
HOW_TO_FIND_AN_ID = "; expert explain --all WORDS finds the id"
TITLE_OF_CIRCUITS = "Complaints, and the circuits whose faults explain them"


def title_of_machine(machine: str) -> str:
    return f"{machine}: complaints and the faults behind them"


def title_of_complaint(complaint: str) -> str:
    return f"{complaint}: what can be behind it"


def title_of_question(question: str) -> str:
    return f"{question}: what follows from it"


# ------------------------------------------------------------ telling


def questions_never_put(questions: str) -> str:
    return f"questions that are never put on it: {questions}"


def rules_never_fire(rules: str) -> str:
    return f"rules that can never fire on it: {rules}"


def repair(minutes: float, steps: str) -> str:
    return f"repair: {minutes:g} minutes, {steps}"


def shortest_way(machine: str, answers: str) -> str:
    return f"shortest way to it on {machine}: {answers}"


NONE_IS_SOUND = "none is good or bad"


def outcomes(outcomes: str, sound: str) -> str:
    return f"outcomes: {outcomes}; sound: {sound}"


def measured_with(instrument: str, readings: str) -> str:
    return f"measured with {instrument}: {readings}"


def bench_and_minutes(bench: str, minutes: float) -> str:
    return f"bench: {bench}; {minutes:g} minutes"


def in_more_ways(count: int) -> str:
    return f"or in {count} more ways"


CHECK_IN_THIS_ORDER = "check, in this order"


def then_weighs(way: str, fault: str, decibans: int) -> str:
    return f"then {way} {fault} ({decibans} decibans)"


def concluded_by(outcomes: str, rule: str) -> str:
    return f"{outcomes}: concluded by {rule}"


def formula_in_unit(kind: str, unit: str, formula: str) -> str:
    return f"{kind} in {unit} = {formula}"


# ------------------------------------------------------------ uses

ROLES_IN_A_MOVE = "first, cautions or unless"
ROLES_IN_A_FEED = "through, lacking, arrives or explains"
ROLES_IN_A_COMPLAINT = "seen, raised_when or gone_when"
