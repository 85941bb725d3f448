"""Repair and proof."""

from __future__ import annotations

# ------------------------------------------------------------ repair

WHAT_WAS_DONE = "Is it done? (done / no / instead, and what you did)"
LEAD_BY_ELIMINATION = "Left by elimination, not proved. If you repair it"
LEAD_OWN_JUDGEMENT = "Your own judgement, not found by the rules. Repair"


def bench_not_ready(fault: str) -> str:
    return f"The bench cannot be made ready for this repair: {fault}."


def repair_put(lead: str, fault: str, minutes: float) -> str:
    return f"{lead}: {fault}. About {minutes:g} min."


def you_need(things: str) -> str:
    return f"You need: {things}."


def cause_not_mended(names: str) -> str:
    return f"! Found with it and not mended: {names}. Mend that too before the machine is switched on."


def and_more(count: int) -> str:
    return f" and {count} more"


def cause_not_known(names: str, more: str) -> str:
    return f"! What damaged it is not known. Look for it before the new part is fitted: {names}{more}."


def not_what_was_done(typed: str, what_would_do: str) -> str:
    return f"{typed} does not say what was done. {what_would_do}"


def not_repaired(fault: str) -> str:
    return f"Not repaired: {fault}."


def no_longer_counted(answers: str) -> str:
    return f"No longer counted: {answers}."


WHY_OWN_JUDGEMENT = "You were convinced of it. The rules have not found it; a no goes back to the search."
WHY_REPAIR = "Rules and answers point to this fault. Type suspects or answers to see on what it rests."


# ------------------------------------------------------------ proof


def not_proved_because(obstacle: str, question: str) -> str:
    return f"Not proved, because {obstacle}: {question}"


def not_proved_bench(question: str) -> str:
    return f"Not proved, because the bench cannot be brought into the state it needs: {question}"


SHOP_LACKS_INSTRUMENT = "the shop lacks the instrument"
CANNOT_BE_TESTED = "it cannot be tested on this machine as it stands"


def there_may_be(hazard: str) -> str:
    return f"there may be {hazard}"


BENCH_CANNOT_BE_BROUGHT = "the bench cannot be brought into the state it needs"
TOO_CLOSE_TO_PROVE = (
    "Too close to the limit to prove the repair. Test again with a better instrument before it goes out."
)
PROOF_FAILED = (
    "The proof failed. Look at the new part and its fitting first: the right part, the right way round, wires, "
    "connectors, seals. The search goes on with everything that is known."
)
SOMETHING_ELSE_FAILED = "Something else is not as it should be. The search goes on with everything that is known."
NOT_AS_A_SOUND_ONE = "That is not as on a sound machine. The search goes on with everything that is known."
REST_FIRST = "Noted. That alone does not say where to search. The rest first: what it shows besides tells more."
SAID_TOGETHER = "What failed before and this answer together say where to search, with everything that is known."
ALL_IS_PUT = "All is put. The search goes on with what was not as on a sound machine, and everything that is known."
AT_WORK = "Before it goes back: is each complaint gone, does the whole machine work?"
AT_WORK_UNREPAIRED = "Before it goes back as it is: does the whole machine work?"


def looks_in_one_round(count: int) -> str:
    return f"{count} looks, on a sound machine:"


def look_of_round(number: int, question: str, sound: str, warnings: str) -> str:
    return f"{number}. {question} {sound}{f'. {warnings}' if warnings else ''}"


def how_to_answer_a_round(count: int) -> str:
    return f"All so? ({count} sound / the first that is not, as not {count})"


def readings_in_one_round(count: int) -> str:
    return f"{count} readings:"


def reading_of_round(number: int, question: str, unit: str, instrument: str, warnings: str) -> str:
    return f"{number}. {question} ({unit}; {instrument}){f' {warnings}' if warnings else ''}"


def how_to_answer_readings(count: int) -> str:
    return f"Type all {count}, commas between, or the first. (how)"


def more_than_were_listed(typed: int, listed: int) -> str:
    return f"{typed} readings were typed, {listed} are wanted. Between them stands a comma with a blank, or ;"


def not_a_reading(question: str, problem: str) -> str:
    return f"Nothing of the line was taken. {question} {problem}"


def not_that_many(count: int) -> str:
    return f"{count} looks are listed. All as written: {count} sound. Else the first that is not: not 1 to not {count}."


WHY_PROOF = "This test would have caught a wrong repair. It must come out sound before the machine goes out."
WHY_PROOF_IN_AUDIT = "it must come out sound before the machine goes out."
