"""What `check` says of faults, their proofs and machines: of each check its codes, then its messages."""

from __future__ import annotations

# ------------------------------------------------------------ faults

NEVER_CONFIRMED = "No rule confirms the fault: it can only be left over."
NEVER_CLEARED = "No rule clears the fault: it stays a suspect to the end."
EXPLAINS_NOTHING = "The fault explains no complaint, and nothing leads to it."
CLEARED_BY_ITS_SIGN = "A rule clears the fault on an answer that the fault itself shows."
CLEARED_BY_A_STRANGER = "A rule clears the fault on answers that have nothing to do with its part."
NO_REPAIR = "The repair has no steps."
NO_BENCH_STATE = "The repair does not say how the machine stands for it."
NO_CAUTION = "The repair has no caution."
NO_PROOF = "No question proves the repair of the fault."
PROOF_CANNOT_FAIL = "Every answer to a proof counts as sound, so it proves nothing."
PROOF_SEES_NOTHING = "With the fault still there, every one of its proofs would come out sound."
PROOF_NOT_THERE = "A proof applies on no machine that can have the fault."
PROOF_WITHOUT_SOUND = "A question is meant to prove a repair, but has no `sound`."
DANGER_NOT_TOLD = "No rule about a dangerous fault stops the work or gives a caution, and it opens no hazard."
UNEXPLAINED_COMPLAINT = "No fault explains the complaint and no rule calls it normal."


def nothing_confirms(fault: str) -> str:
    return f"no rule confirms {fault}"


def nothing_clears(fault: str) -> str:
    return f"no rule clears {fault}"


def explains_no_complaint(fault: str) -> str:
    return f"{fault} explains no complaint, and nothing leads to it"


def repair_without_steps(fault: str) -> str:
    return f"the repair of {fault} has no steps"


def repair_without_bench(fault: str) -> str:
    return f"the repair of {fault} does not say how the machine stands for it, as {{mains: isolated}}"


def repair_without_caution(fault: str) -> str:
    return f"the repair of {fault} has no caution"


def danger_without_a_stop(fault: str) -> str:
    return f"{fault} is dangerous, but no rule about it stops or cautions, and it opens no hazard"


def clears_on_its_sign(rule: str, fault: str, seen: str) -> str:
    return f"{rule} clears {fault} on what the fault itself shows ({seen})"


def clears_on_a_stranger(rule: str, fault: str, asked: str, part: str) -> str:
    return f"{rule} clears {fault} on {asked}, which nothing else ties to {part}"


def nothing_proves(fault: str) -> str:
    return f"no question proves the repair of {fault}"


def proof_applies_nowhere(question: str, fault: str) -> str:
    return f"{question} is to prove the repair of {fault}, but applies on no machine that has the part"


def no_proof_would_show(fault: str, proofs: str) -> str:
    return (
        f"no proof of {fault} would show that it is still there: it shows no unsound answer to {proofs}, and no rule "
        "confirms it from one"
    )


def the_repair_of(fault: str) -> str:
    return f"the repair of {fault}"


THE_RETURN = "the return to service"
THE_RETURN_OPENED = "the return of an opened machine"


def proof_without_a_sound_answer(question: str, what: str) -> str:
    return f"{question} is to prove {what}, but does not say which outcome is sound"


def proof_with_every_answer_sound(question: str, what: str) -> str:
    return f"{question} is to prove {what}, but every outcome of it is sound"


def nothing_explains(complaint: str) -> str:
    return f"no fault explains {complaint}, and no rule calls it normal"


# ------------------------------------------------------------ machines

NO_SUSPECTS = "On a shipped machine no part explains the complaint and no rule calls it normal."
UNCOVERED_FEATURE = "A shipped machine has a part or layout that no circuit, part, question or rule speaks of."
FAULT_OUT_OF_REACH = "On a shipped machine no answers that the fault shows lead to it."
NOTHING_BEFORE_RETURN = "No test is asked of a machine before it goes back to its owner."
LIVE_FOR_EVERYONE = "A question with mains on and covers off is not kept for those qualified for live work."
UNREACHED_STATE = "No machine arrives in the bench state, and no move leads there."


def nothing_on_machine_explains(machine: str, complaint: str) -> str:
    return f"nothing on {machine} explains {complaint}: the search would have no suspect"


def feature_not_spoken_of(machine: str, feature: str, value: str, spoken_of: str) -> str:
    return (
        f"{machine} has {feature}: {value}, but circuits, parts, questions and rules speak of {spoken_of} only; what "
        "hangs on it is not covered"
    )


def no_answers_lead_to(machine: str, fault: str) -> str:
    return f"no answers on {machine} lead to {fault}: none of its rules can come true on what it shows"


def state_never_reached(dimension: str, state: str) -> str:
    return f"no machine arrives with {dimension}: {state}, and no move leads there"


def list_names_no_test(key: str) -> str:
    return f"'{key}' names no test: a machine goes back to its owner as it is"


def live_for_anybody(question: str) -> str:
    return f"{question} is put with mains on and covers off, and 'qualified_only' does not keep it"


# ------------------------------------------------------------ on machines

CONFIRMED_ON_MACHINE = "On a simulated machine the rule confirms the fault although the part is in order."
CLEARED_ON_MACHINE = "On a simulated machine the rule clears the fault that is there."
NOTICED_ON_MACHINE = "The owner of a simulated machine with the fault notices what the fault does not explain."
UNSOUND_ON_MACHINE = "A sound simulated machine gives an answer that does not count as sound."
SHOWS_OTHERWISE_ON_MACHINE = "No simulated machine with the fault gives the answer that the fault is said to show."


def owner_notices(machine: str, fault: str, complaint: str, explaining: str) -> str:
    return f"the owner of {machine} with '{fault}' notices '{complaint}', and {explaining} explains no"


def shown_otherwise(machine: str, fault: str, question: str, shows: str, answers: str) -> str:
    return f"{fault} shows {question}: {shows}; every {machine} that has it answers {answers}"


def sound_machine_answers(machine: str, question: str, answer: str, sound: str) -> str:
    return f"a sound {machine} answers {question} with {answer}, and sound is {sound}"


def confirms_on_sound_part(rule: str, fault: str, machine: str, answers: str) -> str:
    return f"{rule} confirms {fault} on {machine} with {answers}, where the part is in order"


def clears_what_is_there(rule: str, fault: str, machine: str, answers: str) -> str:
    return f"{rule} clears {fault} on {machine} with {answers}, which is just that"


# ------------------------------------------------------------ pairs

INDISTINGUISHABLE = "Two faults with a complaint in common that no answer tells apart on a shipped machine."


def a_look_at(part: str) -> str:
    return f"a look at or a reading of {part} that differs between the two"


def a_test_of_one_alone(one: str, other: str) -> str:
    return f"a test of {one} alone, or of {other} alone"


def nothing_tells_apart(machine: str, one: str, other: str, would: str) -> str:
    return f"on {machine} nothing tells {one} from {other}; what would: {would}"


# ------------------------------------------------------------ proofs that confirm

NOT_PROVED = "Another fault gives the same answers as the one that the rule confirms."
NOT_ITS_SIGN = "The fault that the rule confirms does not show these answers itself."
NEED_NOT_MEASURED = "The part reads as it does without its supply, and the rule does not know that it has it."


def rivals_answer_alike(rule: str, fault: str, rivals: str, more: str, signs: str) -> str:
    return (
        f"{rule} confirms {fault}, but {rivals}{more} would give the same answers{signs}; ask for what tells them "
        "apart, or name them under 'rivals'"
    )


def confirms_what_does_not_show_it(rule: str, fault: str) -> str:
    return f"{rule} confirms {fault}, which does not show these answers; say so under its 'shows'"


def reads_so_without_supply(rule: str, fault: str, readings: str, supply: str, rival: str) -> str:
    return (
        f"{rule} confirms {fault} from {readings}, which reads the same without {supply}; measure that it arrives "
        f"first, or name {rival} under 'rivals'"
    )
