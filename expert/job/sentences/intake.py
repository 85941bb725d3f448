"""Who is there, which machine, its plate, the complaints, live work, how it stands."""

from __future__ import annotations

# ------------------------------------------------------------ technician


def by_the_word_of(name: str) -> str:
    return f", by the word of {name}"


def technician_listed(name: str, qualified: bool, by: str) -> str:
    return f"{name} (live work: {'yes' if qualified else 'no'}{by})"


NAME_NEEDED = "A name is needed for the record. Type your name or your initials."
WHY_TECHNICIAN = "The record says who worked at the machine."
WHO_IS_THERE = "Who is at the bench? Type your name."
WHO_IS_THERE_AND_WHAT_DIFFERS = (
    "Who is at the bench? Type your number or name; after a comma what the plate says instead."
)
WHO_OF_THESE_IS_THERE = "Who is at the bench? Type your number or name."


def machine_with_its_plate(machine: str) -> str:
    return f"{machine}, with its plate:"


# ------------------------------------------------------------ machine

TYPE_NEEDED = "The type must be known: limits and tests depend on it. Compare the layout, then type a number."
WHY_MACHINE = "Tests, limits and parts depend on the type of machine."
WHICH_MACHINE = "Which machine type is it? Type its number."


def no_machine_type(typed: str, hint: str, numbers: str) -> str:
    return f"{typed} is no machine type.{hint} Type {numbers}."


# ------------------------------------------------------------ intake prompt


def number_up_to(count: int) -> str:
    return f"a number from 1 to {count}"


def meant_one_of(names: str) -> str:
    return f" Did you mean: {names}?"


# ------------------------------------------------------------ arrives

LOOK_HOW_IT_STANDS = "Look at the machine, and type the number of the line that fits."
WHY_HOW_IT_STANDS = "How the machine stands decides what makes it safe."
HOW_DOES_IT_STAND = "How does the machine stand now?"


def no_line_fits(typed: str, numbers: str) -> str:
    return f"{typed} is no answer here. Look, and type {numbers}."


# ------------------------------------------------------------ qualified

IN_DOUBT_NO = "In doubt, type no: then nothing is asked with the covers off and the mains on."
WHY_QUALIFIED = "Tests on live parts are put only to those who may do them. To take it back later: not qualified"


def the_whole_word(typed: str, word: str) -> str:
    return f"{typed} is no answer here. Type {word}, the whole word, or no; in doubt, no."


def are_you_qualified(word: str) -> str:
    return (
        f"Qualified for live work on mains, by your local rules? ({word} / no: then nothing with covers off and "
        "mains on)"
    )


# ------------------------------------------------------------ complaints

OTHER_WORDS = "Type other words, or list to see all."
WHAT_THE_CUSTOMER_SAID = "Type what the customer said, in a few words, or list to see all complaints."
WHY_COMPLAINTS = "The search starts from what the customer noticed."
WHICH_OF_THESE = "Which of these? Type its number, or several (1, 2),"
IS_IT_THIS = "Is it this? Type 1,"


def which_or_other_words(which: str) -> str:
    return f"{which} other words, or list to see all."


WHAT_IS_THE_COMPLAINT = "What is the complaint? Type it in the customer's words, or list."
ANOTHER_COMPLAINT = "Another complaint? Type it, or ok to go on."
NONE_OF_THESE = "None of these, then."


def number_of_the_one(others: str) -> str:
    return f"Type the number of the one that it is. {others}"


IN_A_FEW_WORDS = "Type it in a few words, or ok to go on."


def numbers_as_in_list(count: int) -> str:
    return f"1 to {count}, as in list"


def no_number_of_a_complaint(typed: str, there: str) -> str:
    return f"{typed} is no number here. Type {there}, or the complaint in a few words."


OTHER_WORDS_OR_GO_ON = "Type other words, list to see all, or ok to go on."


def fits_no_complaint(typed: str, others: str) -> str:
    return f"{typed} fits no complaint. {others}"


def may_be(names: str) -> str:
    return f"May be: {names}"


def complaint_noted(complaint: str) -> str:
    return f"Complaint: {complaint}."


def complaint_noted_already(complaint: str) -> str:
    return f"Already noted: {complaint}."


NOTED_IS = "Noted is:"
ANOTHER_OR_NOT = "Type another, or not and the number of one that was not said, or ok to go on."


def not_among_the_complaints(typed: str, there: str) -> str:
    return f"{typed} is not among the complaints noted: {there}."


def the_only_complaint(complaint: str) -> str:
    return f"{complaint}: there is no other complaint. Type the right one first, then not 1."


def complaint_taken_back(complaint: str) -> str:
    return f"Taken back: {complaint}."


def complaint_no_longer_at_work(complaint: str) -> str:
    return f"Taken back: {complaint}. What it warned of stands until a test ends it."


# ------------------------------------------------------------ plate

PLATE_UNREAD = "Read the plate on the machine first: the limits rest on it. Then type ok, or a value that differs."
PLATE_NOT_READ = "If the plate cannot be read, type ok: the values of the machine type are used."
WHY_PLATE = "The limits of the tests are worked out from these values."
AS_NO_COUNTRY_IS_SAID = ": no country said"
COMPARE_WITH_THE_PLATE = "Compare with the rating plate. (ok, or a value to change: element_power 1200 W)"


def plate_value(name: str, printed: str, now: str) -> str:
    return f"{name}: {printed}, now {now}"


NO_SERIAL_NUMBER = "serial: no number that could be kept as a key. Type serial and the number on the plate."
KEPT_AS_A_KEY = "kept as a key"
SERIAL_KEPT_AS_A_KEY = "The machine is known again when it comes back; its number itself is not kept."
OR_CANT_TELL = " Or type: can't tell"


def none_of_its_values(name: str, typed: str, values: str) -> str:
    return f"{name}: {typed} is none of {values}."


def of_local_codes(name: str, word: str) -> str:
    return f"{name}: {word}. Local codes and licensed practice come first."


def no_plate_value(typed: str, known: str) -> str:
    return f"{typed} is no plate value. There are: {known}."


def cannot_be_right_for_type(name: str, shown: str, of_the_type: str) -> str:
    return (
        f"{name}: {shown} cannot be right for this type, which has {of_the_type}. Read the plate "
        "again, mind the unit. A machine that differs so much needs a machine file of its own."
    )


def beyond_belief_on_a_plate(name: str, shown: str, low: str, high: str) -> str:
    return (
        f"{name}: {shown} is not taken: such machines have {low} to {high}, and other limits rest on it. Read the "
        "plate again, mind the unit."
    )


def over_range_on_a_plate(name: str) -> str:
    return f"{name}: a plate states a number, not over range."


def parts_exceed_the_whole(listed: str, whole: str, most: str) -> str:
    return f"Check the plate: {listed} are more than {whole} {most}, that of the whole. Correct what is wrong."


# ------------------------------------------------------------ plate ranges

THE_VOLTAGE_HERE = "the voltage here, with the power that goes with it"


def power_goes_with_the_middle(name: str, middle: str) -> str:
    return f"{name}: a range with one power, so the power goes with its middle: {middle}."


def each_power_has_its_voltage(name: str, higher: str) -> str:
    return (
        f"{name}: of two powers each goes with a voltage of its own, the lower with the lower. Type "
        "the range of voltages first, such as: rated_voltage 220-240 V. Or one pair: rated_voltage "
        f"240 V, then {name} {higher}."
    )


def pair_to_type(voltage: str, name: str, power: str) -> str:
    return f"rated_voltage {voltage}, then {name} {power}"


def one_pair(pair: str) -> str:
    return f"one pair: {pair}"


def powers_agree(name: str, low: str, low_at: str, high: str, high_at: str, power: str, at: str) -> str:
    return f"{name}: {low} at {low_at} and {high} at {high_at} agree. That is {power} at {at}."


# ------------------------------------------------------------ plate ranges


def trouble_so_type(name: str, problem: str, otherwise: str) -> str:
    return f"{name}: {problem}. Type {otherwise}."
