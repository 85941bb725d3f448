"""What a record of each sort must have, of the rules and of worked cases."""

from __future__ import annotations

# ------------------------------------------------------------ bench


def one_state_only(dimension: str) -> str:
    return f"{dimension} has one state only; two are needed"


def state_must_say(dimension: str) -> str:
    return f"'state' must say how {dimension} stands when a machine arrives"


A_LIST_OF_CHANGES = "a list of changes ([{while: {mains: on}, becomes: {boiler: warm}}])"

# ------------------------------------------------------------ circuits


def folder_without_circuit(folder: str) -> str:
    return f"this file belongs to the circuit of its folder, but there is no circuit.yaml in {folder}"


def one_outcome_only(finding: str) -> str:
    return f"{finding} has one outcome only; two are needed"


# ------------------------------------------------------------ questions

FORMS_OF_ANSWER = "yes_no, {one_of: {outcome: label}} or {measure: kind, with: instrument}"
NO_OTHER_NEAR_A_LIMIT = "no other answer lies close to a limit"
NO_OTHER_HAS_LIMITS = "no other answer has limits"


def only_what_is_measured_has(key: str, why: str) -> str:
    return f"only a question that is measured has a '{key}': {why}"


def can_never_apply(feature: str) -> str:
    return f"this can never apply: its circuit asks for another {feature}"


def answer_may_be(forms: str, hint: str) -> str:
    return f"'answer' may be {forms}{hint}"


ONLY_MEASURED_HAS_READINGS = "only a question that is measured has 'readings'"


def the_label_of(outcome: str) -> str:
    return f"the label of '{outcome}'"


A_ROW = "a row of words"
ONE_WORD_IN_A_ROW = "a row has two words or more, with commas between them, as in drip, dribble, weep"
CHOICE_OF_ONE = "a choice of one is no question; give two"
MEASURED_NEEDS_READINGS = "a question that is measured must have 'readings'"


def behind_otherwise(reading: str) -> str:
    return f"'{reading}' can never come out: 'otherwise' above it takes the rest; put it before"


def last_must_be_otherwise(reading: str) -> str:
    return f"the last reading must be 'otherwise', so that every value has a name; '{reading}' is not"


ONE_READING_ONLY = "one reading only; two are needed"


def no_outcome_name(text: str) -> str:
    return f"'{text}' is no outcome; small letters, digits and single underscores, as in too_high"


# ------------------------------------------------------------ rules

THEN_SAYS_NOTHING = "'then' says nothing; a rule must conclude something"


def the_weight_of(fault: str) -> str:
    return f"the weight of {fault}"


# ------------------------------------------------------------ short files


def one_value_only(feature: str) -> str:
    return f"{feature} has one value only; two are needed"


def part_of_other_kind(part: str) -> str:
    return f"'{part}' is of another kind; a part and its whole are alike"


def not_by_country(word: str, wanted: str, found: str) -> str:
    return f"'by_country: {word}' goes with {wanted}; this is {found}"


def several_values(feature: str) -> str:
    return f"{feature} has several values here; a machine has one"


CLASS_NEEDS_FULL_SCALE = "'class' and 'full_scale' go together"
ONE_FORM_OF_ACCURACY = "the accuracy is given by one of 'ranges', 'class' with 'full_scale', 'plus_minus' or 'percent'"

# ------------------------------------------------------------ work out


def words_cannot_be_assumed(question: str) -> str:
    return f"'{question}' is answered in words; only a measured reading can be assumed"


def there_is_no_rating(name: str, hint: str) -> str:
    return f"there is no rating '{name}'{hint}"


def text_is_of_other_kind(text: str, found: str, wanted: str) -> str:
    return f"'{text}' is {found}; {wanted} is wanted"


# ------------------------------------------------------------ cases


def is_no_case_id(text: str) -> str:
    return f"'{text}' is no id; small letters, digits and single underscores, as in coil_is_open"


def case_defined_twice(case: str, first: object) -> str:
    return f"there is already a case '{case}', at {first}"


# ------------------------------------------------------------ job answers

COMPLAINTS_ARE_EMPTY = "'complaints' is empty; a job has at least one"


def nothing_rests_on_feature(feature: str) -> str:
    return f"no limit rests on the feature '{feature}'; where a machine differs in it, write a machine file"


def there_is_no_plate_value(name: str, hint: str) -> str:
    return f"there is no plate value '{name}'{hint}"


def the_answer_to(question: str) -> str:
    return f"the answer to {question}"


def the_answers_after(fault: str) -> str:
    return f"the answers after {fault}"


def no_machine_file_name(file: str) -> str:
    return f"'{file}' is no machine file: its name would end in .yaml"


def there_is_no_machine_file(file: str) -> str:
    return f"there is no machine file '{file}'"


def no_machine_in_file(file: str) -> str:
    return f"'{file}' is no machine file: it has no key 'machine'"


# ------------------------------------------------------------ readings


def the_readings_of(question: str) -> str:
    return f"the readings of {question}"


def what_is_typed_for(outcome: str) -> str:
    return f"what is typed for {outcome}"


def word_in_two_rows(words: str) -> str:
    return f"'{words}' stands in a row already; a word that means two things stands in none"
