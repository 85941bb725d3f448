"""What a job decides otherwise than it is recorded."""

from __future__ import annotations

# ------------------------------------------------------------ differences


def and_more(count: int) -> str:
    return f"; and {count} more"


def changed_in_line(line: int, kind: str, changes: str, more: str) -> str:
    return f"line {line}: {kind}: {changes}{more}"


THEN_NOTHING = "then nothing came here"


def then_the_job(did: str) -> str:
    return f"then the job {did}"


def then_and_now(line: int, then: str, now: str) -> str:
    return f"line {line}: {then}; now {now}"


def put_this_prompt(prompt: str, words: str) -> str:
    return f"put this {prompt}: {words}"


def took_answer(number: int, question: str, outcomes: str) -> str:
    return f"took answer {number}, to {question}, as {outcomes}"


def drew_conclusion(rule: str) -> str:
    return f"drew the conclusion of the rule {rule}"


def withdrew_conclusion(rule: str) -> str:
    return f"withdrew the conclusion of the rule {rule}"


def held_to_be(fact: str, what: str) -> str:
    return f"held {fact} to be {what}"


def named_fault(fault: str, standing: str) -> str:
    return f"named the fault {fault} ({standing})"


def ended_search(outcome: str) -> str:
    return f"ended the search: {outcome}"


def noted_move(move: str) -> str:
    return f"noted the bench move {move}"


def showed_caution(caution: str) -> str:
    return f"showed the caution {caution}"


def stopped_by(rule: str) -> str:
    return f"stopped the work by the rule {rule}"


def was_and_is(what: str, was: str, now: str) -> str:
    return f"{what} was {was}, now it is {now}"
