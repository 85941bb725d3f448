"""Limits, and how a reading was understood."""

from __future__ import annotations

# ------------------------------------------------------------ sound limits


def counts_as_sound(shown: str, outcome: str, limits: str) -> str:
    return counts_as(shown, outcome, limits.removeprefix("from "))


def from_to(least: str, most: str) -> str:
    return f"from {least} to {most}"


# ------------------------------------------------------------ limits


def not_measured_taken_as(what: str, rating: str, value: str) -> str:
    return f"{what} not measured, taken as the {rating} {value}"


def not_known_taken_as(what: str, value: str) -> str:
    return f"{what} not known, taken as {value}"


# ------------------------------------------------------------ readings


def counts_as(shown: str, outcome: str, detail: str) -> str:
    return f"{shown}: {outcome} ({detail})."


def is_within(reading: str, limits: str) -> str:
    return f"{reading} is {limits}"


def too_close(shown: str, outcomes: str, detail: str) -> str:
    return f"{shown} is too close to a limit: it may be {outcomes}. Both stay possible. ({detail})"


BETTER_INSTRUMENT = "A better instrument or a second test would decide. Other tests are used meanwhile."


def limit(name: str, limits: str) -> str:
    return f"Limit: {name} is {limits}."


def limits_not_known(problem: str) -> str:
    return f"Limits: not yet worked out, {problem}."


def bench_and_minutes(bench: str, minutes: float) -> str:
    return f"Bench: {bench}. About {minutes:g} min."


def sound_machine(answer: str) -> str:
    return f"Sound machine: {answer}"


def worked_out(name: str, value: str, formula: str, inputs: str, source: str) -> str:
    return f"{name}: {value} = {formula}{inputs} ({source})"


THE_STRICTEST_LIMITS = "the strictest limits"


def limits_of(country: str) -> str:
    return f"the limits of {country}"


def from_both(values: str, last: str) -> str:
    return f"from {values} and {last}"
