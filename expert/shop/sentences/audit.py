"""The audit of a trace."""

from __future__ import annotations

# ------------------------------------------------------------ audit

COPY_FOR_SHARING = "This is a copy for sharing: notes, names and free text were removed and the chain made anew."


def verdict_damaged(troubles: str) -> str:
    return f"Verdict: DAMAGED, {troubles}. Do not rely on this trace."


OTHER_RULES = "the rules are not those of the job"
SAME_RULES = "the rules are the same"


def verdict_not_reproduced(because: str) -> str:
    return f"Verdict: the chain is whole, but the job is not reproduced; {because}."


VERDICT_UNCHANGED = "Verdict: nothing was changed: the chain is whole, and the folder's register agrees."
VERDICT_UP_TO_SEAL = (
    "Verdict: the chain is whole up to its seal. Whether the whole file was written anew, it cannot show by "
    "itself: compare the seal's digest with the one noted."
)
VERDICT_END_UNKNOWN = (
    "Verdict: the chain is whole. Whether its end was cut off, or all of it written anew, it cannot show by itself."
)
NOTE_IT_ON_THE_SLIP = " (note it on the slip)"
RUN_WITH_OTHER_RULES = "Run again with other rules than those of the job."
REPRODUCED = "Reproduced: nothing is decided otherwise."


def worded_otherwise(places: str) -> str:
    return f"Said otherwise now, and deciding nothing: {places}."


def ends_too_soon(records: str) -> str:
    return f"The trace ends before the end of its last line: {records} missing."


# ------------------------------------------------------------ audit happened


def bench_moved(move: str, minutes: float, now: str) -> str:
    return f"Bench: {move} ({minutes:g} min), now {now}"


def could_not_be_done(number: int, text: str) -> str:
    return f"{number}. Could not be done: {text}"


def offered_once_more(text: str) -> str:
    return f"Offered once more: {text}"


def danger_dealt_with_by(by: str) -> str:
    return f"Danger dealt with by {by}"


def danger_stands(name: str, hazard: str, acts: str, because: str) -> str:
    return f"Danger stands: {name} [{hazard}]{acts}; {because}"


def danger_ended(hazard: str, how: str) -> str:
    return f"Danger ended: {hazard}, {how}"


def not_offered(what: str, hazard: str, act: str) -> str:
    return f"Not offered: {what} [{hazard}: {act}]"


def at_the_bench(name: str, qualified: str) -> str:
    return f"At the bench: {name}, {qualified} for live work"


def repaired(fault: str, minutes: float, said: str) -> str:
    return f"Repaired: {fault} ({minutes:g} min). Said: {said}"


def answer_described_before(number: int, fault: str) -> str:
    return f"  Answer {number} described the machine before the repair of {fault}"


SEEN_AT_THE_BENCH = "seen at the bench"


def proof(passed: str, question: str, answer: str) -> str:
    return f"Proof {passed}: {question} {answer}"


def contradiction(fact: str, answers: str) -> str:
    return f"CONTRADICTION about {fact}: answers {answers} cannot all hold"


def taken_back_answer(number: int, question: str) -> str:
    return f"Taken back: answer {number}. {question}"


HANDED_OVER = "Handed over with this summary:"
TOLD_TO_CUSTOMER = "Told to the customer:"


def taken_up_with_todays_rules(program: str, digest: str) -> str:
    return f"Taken up again with program {program} and, by choice, with the rules of that day ({digest})"


def taken_up(program: str) -> str:
    return f"Taken up again with program {program}"


def closed(outcome: str, minutes: float) -> str:
    return f"Closed: {outcome}, {minutes:g} min"


# ------------------------------------------------------------ audit reasons

BY_ELIMINATION = "left by elimination: everything else was cleared"

# ------------------------------------------------------------ audit views

MORE_WITHOUT_SHORT = "... more: expert audit without --short"


def proofs_counted(passed: int, failed: int, not_made: int) -> str:
    return f"Proofs: {passed} passed, {failed} failed, {not_made} not made"


MAY_BE_ONE_OF = "may be one of"
IS_NO_CONCLUSION = "is nothing that was concluded; there is"

# ------------------------------------------------------------ audit words

LEFT_BY_ELIMINATION = "LEFT BY ELIMINATION, not proved"
OWN_JUDGEMENT_NOT_FOUND = "THE TECHNICIAN'S OWN JUDGEMENT, not found by the rules"
ON_THE_SHORT_LIST = "ON THE SHORT LIST"
WHAT_HAPPENED = "What happened, in order:"


def opened(opened_at: str, last_at: str, names: str) -> str:
    return f"Opened {opened_at}, last line {last_at}, {names}"


NAMES_OF_THESE_RULES = "names are those of these rules"
IDS_FOR_NAMES = "these rules are not at hand, so ids stand for names"


def technician(name: str, live: str) -> str:
    return f"Technician: {name}; qualified for live work: {live}"


def plate_values(plate: str) -> str:
    return f"Plate values typed: {plate}"


def stopped_times(stops: int) -> str:
    return f"Stopped for danger: {stops} times"


STOPPED_ONCE = "Stopped for danger: once"


def read_in_base_units(reading: float, uncertainty: float) -> str:
    return f"    Read {reading:g} +- {uncertainty:g} in base units"


def answer_cannot_tell_indented(reason: str) -> str:
    return f"  Answer: can't tell {reason}"


NO_ANSWER_INDENTED = "  No answer was given."


def known_before_move(before_move: str) -> str:
    return f"  Why: it must be known before the bench move {before_move}"


def known_before(question: str) -> str:
    return f"  Why: it had to be known before: {question}"


def headed_check_list(fault: str, rule: str) -> str:
    return f"  Why: {fault} headed the check list of the rule {rule}"


def expected_to_tell(lead: str, worth: str) -> str:
    return f"  {lead} was expected to tell {worth}"


def rather_than(question: str, worth: str) -> str:
    return f"    rather than: {question} ({worth})"


def suspect_weight(share: float, fault: str, decibans: int) -> str:
    return f"{share:.0%} {fault} ({decibans} dB)"


def heaviest_suspects(shown: str) -> str:
    return f"  Heaviest suspects then: {shown}"


def with_moves(moves: str) -> str:
    return f", with the moves {moves}"


def worth(bits: float, minutes: float, moves: str) -> str:
    return f"{bits:.2f} bits in {minutes:g} min{moves}"


def no_longer_holds(rule: str) -> str:
    return f"  No longer holds: rule {rule}"


def concluded(says: str, id: str, sources: str) -> str:
    return f"  So: {says} [{id}; from {sources}]"


NOTHING_POSSIBLE = "nothing is possible any more"

# ------------------------------------------------------------ costs


def costs(work: str, parts: str, together: str, beside: str) -> str:
    return f"work {work}, parts {parts}, together {together}{beside}"


def without_a_price(parts: str) -> str:
    return f"; without a price: {parts}"


def by_the_clock(minutes: float) -> str:
    return f", {minutes:.0f} by the clock"
