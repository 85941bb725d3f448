"""Worked cases: what did not come out, and why; what an edit changed."""

from __future__ import annotations

# ------------------------------------------------------------ came up


def came_up(sort: str, came_up: int, all_of_them: int) -> str:
    return f"{sort}: {came_up} of {all_of_them} came up"


# ------------------------------------------------------------ changed


def it_fires(where: str) -> str:
    return f"; it fires {where}"


ON_NO_SIMULATED_MACHINE = "on no simulated machine"


def on_simulated_machines(count: int, names: str) -> str:
    return f"on {count} simulated machines ({names})"


def fires_anew(where: str) -> str:
    return f"fires {where} where it did not"


def fires_no_longer(where: str) -> str:
    return f"no longer fires {where}"


def said_in_another_order(first: str) -> str:
    return f"says the same in another order, from '{first}' on"


# ------------------------------------------------------------ meant


def reading_means_otherwise(typed: str, question: str, found: str, machine: str, expected: str) -> str:
    return f"{typed} at {question} means {found} on {machine}, expected {expected}"


# ------------------------------------------------------------ new case


def job_was_not_closed(trace: object) -> str:
    return f"{trace}: the job was not carried through to its close: a case needs what came of it"


def no_such_machine_type(trace: object, machine: str) -> str:
    return f"{trace}: these rules have no machine type '{machine}'"


def no_such_question(trace: object, question: str) -> str:
    return f"{trace}: these rules have no question {question}"


def what_this_case_shows(job: str) -> str:
    return f"(say what this case shows) Job {job}."


def where_its_truth_comes_from(job: str) -> str:
    return f"(say where its truth comes from) Saved job {job}"


# ------------------------------------------------------------ path


def after_answer(number: int, question: str, text: str) -> str:
    return f" after answer {number}, {question}: {text}"


def confirmed_or_cleared_by(fault: str, word: str, what: str, after: str) -> str:
    return f"{fault} was {word} by {what}{after}"


def nothing_confirms(fault: str) -> str:
    return f"no rule confirms {fault}"


def waits_for(rule: str, tests: str) -> str:
    return f"{rule} waits for {tests}"


def was_not_confirmed(fault: str, why: str) -> str:
    return f"{fault} was not confirmed: {why}"


# ------------------------------------------------------------ statements


def weight(sign: str, fault: str, decibans: int) -> str:
    return f"{sign} {fault}: {decibans} decibans"


def in_words(name: str) -> str:
    return f"{name}: in words"


def statement_on(name: str, machine: str, told: str) -> str:
    return f"{name} on {machine}: {told}"


# ------------------------------------------------------------ cases

CASE_UNPLAYABLE = "The case cannot be played: the dialogue refuses what it gives, or does not come to an end."
CASE_OUTCOME = "The job ends in another way than the case expects."
CASE_FAULTS = "Other faults are found, or left, than the case expects."
CASE_ASKS = "A question is put that must not be."
CASE_ORDER = "A question is not put, or not in its turn."
CASE_CAUTION = "A caution is not shown."
CASE_NORMAL = "A complaint is not recognised as how a sound machine behaves."
CASE_UNSAFE = "Somebody who is not qualified is led to live work."
CASE_PROOF = "A proof fails although the case does not say so."
CASE_READING = "A number does not mean the outcome that the worked reading gives it."
MEANS_OTHERWISE = (
    "A record says something else than when all cases last passed, or a rule fires with other simulated faults."
)
CASE_PATH = "Where a case that failed left its path: the rule and the answer that decided."


def cannot_be_played(case: str, problem: object) -> str:
    return f"{case}: cannot be played: {problem}"


def other_outcome(outcome: object, expected: str, found: str) -> str:
    return f"outcome {outcome}, expected {expected} (found: {found})"


def other_faults(faults: str, expected: str) -> str:
    return f"faults {faults}, expected {expected}"


def asks_what_it_must_not(question: str) -> str:
    return f"asks {question}, which it must not"


def does_not_ask(missing: str, asked: str) -> str:
    return f"does not ask {missing} where it should; it asked {asked}"


def caution_not_shown(caution: str) -> str:
    return f"does not show the caution {caution}"


def not_seen_as_normal(complaint: str) -> str:
    return f"does not recognise {complaint} as normal"


WORKS_LIVE_UNQUALIFIED = "works live without being qualified"


def proof_failed(proof: object, answer: object) -> str:
    return f"the proof {proof} fails with {answer}"


# ------------------------------------------------------------ readings


def is_no_outcome(text: str, question: str) -> str:
    return f"'{text}' is not an outcome of {question}"


def limits_rest_on(value: str) -> str:
    return f"the limits rest on {value}, which is not given"


def prompt_refuses_it(value: str) -> str:
    return f"{value} cannot be right there: the prompt refuses it"
