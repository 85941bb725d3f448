"""The shop's profile: said anew, read, written."""

from __future__ import annotations

# ------------------------------------------------------------ reading

NOBODY_SAYS_SO = "who says that this person may do live work? Add 'by_word_of'"
HOW_A_DAY_IS_WRITTEN = "a day is written as in 2026-01-31"


def in_which_currency(key: str) -> str:
    return f"'{key}' in which currency? Add 'currency'"


# ------------------------------------------------------------ setting up

NAME_OF_THE_SHOP = "Name of the shop, for the customer's slip"
TELEPHONE = "Telephone, for the slip"
CURRENCY = "Currency, if costs are wanted"


def what_an_hour_costs(currency: str) -> str:
    return f"What an hour of work costs, in {currency}"


A_PART_AND_ITS_PRICE = "A part and its price, such as fill solenoid coil 35, or nothing when all are said: "
TYPE_PART_AND_NUMBER = "Type the part, a space, and a number such as 35 or 12.50."
COSTS_ON_SLIP = "Does the customer's slip say what it costs?"


WHICH_COUNTRY = "In which country is the shop?"


def no_other_limits_instead(problem: object) -> str:
    return f"{problem}. No other country's limits are taken instead."


def technicians_are_still(people: str) -> str:
    return f"Technicians are still {people}?"


NEXT_TECHNICIAN = "A technician's name, or nothing when all are named: "
A_NAME_IS_NEEDED = "A name is needed for the record."


def is_qualified(name: str) -> str:
    return f"Is {name} qualified for live work on mains, by your local rules?"


WHICH_MACHINE_TYPES = "Which machine types come in?"
WHICH_INSTRUMENTS = "Which instruments does the shop own?"
NOTE_CALIBRATIONS = "Note when one was calibrated?"


def day_of_calibration(name: str) -> str:
    return f"{name}: day of calibration"


HOW_A_DAY_IS_TYPED = "A day is written as in 2026-01-31; type nothing if it is not known."
TYPE_NUMBERS_OR_NOTHING = "Type the numbers, or nothing for those with a star: "


def type_numbers_up_to(last: int) -> str:
    return f"Type numbers from 1 to {last}."


TYPE_YES_OR_NO = "Type yes or no."
TYPE_A_NUMBER = "Type a number such as 80."

# ------------------------------------------------------------ using


def calibration_is_due(name: str, day: object) -> str:
    return f"Calibration is due: {name}, last on {day}."


def profile_does_not_fit(problem: object) -> str:
    return f"the shop's profile of the job does not fit these rules: {problem}"


# ------------------------------------------------------------ writing

HEAD_OF_PROFILE = (
    "# The shop. Edit it here, or say it anew with: expert shop --set-up\n# The country decides the electrical "
    "limits. Local codes and licensed practice come before all of them.\n"
)
