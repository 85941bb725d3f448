"""Slips in records that are no rule (hazards, feeds, the bench, instruments, ratings, formulas), and in any number."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from tests.workbench.slips import Files, Kind
from tests.workbench.slips_of_meaning import Record, entry_gone, gone, in_limits, listed, other_word, outcomes_in

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_PAIR = re.compile(r"([1-9])(?!\1)([0-9])")
GONE = {
    "a part": ("needs", "applies"),
    "a fault": ("cuts", "result", "masks"),
    "a rule": ("rivals", "despite_shows", "in_this_order"),
    "a question": ("alters", "mends", "nominal", "source", "expect"),
    "a hazard": ("while", "after_repair"),
    "a feed": ("arrives", "explains"),
    "a circuit file": ("applies",),
    "a worked-out value": ("assume",),
    "an arrival": ("unsure",),
    "the bench file": ("check_out", "safe", "read_twice"),
    "an act": ("left",),
}
ENTRY_GONE = {
    "a part": ("needs",),
    "a fault": ("caused_by", "cuts"),
    "a repair": ("cautions", "bench"),
    "a question": ("cautions", "bench", "sound"),
    "a preparation": ("bench",),
    "an answer by choice": ("one_of",),
    "a hazard": ("forbids", "released_by"),
    "an entry of 'released_by'": ("tests",),
    "a feed": ("through", "lacking"),
    "a rule": ("if", "rivals"),
    "a move": ("makes", "needs", "cautions"),
    "a feature": ("values",),
    "the bench file": ("check_out",),
}


def record_kinds(files: Files) -> list[Kind]:
    """All of them. `files`: for the outcomes and ids that a slip may take for the right ones."""
    outcomes = outcomes_in(files)
    states: dict[str, list[str]] = files["bench.yaml"]["states"]
    return [
        *(gone(key, shape) for shape, keys in GONE.items() for key in keys),
        *(entry_gone(key, shape) for shape, keys in ENTRY_GONE.items() for key in keys),
        *_other_outcomes(outcomes, states),
        *_numbers(),
        *_of_rules(files),
        other_word("measures", "an instrument", ("resistance", "ac_voltage", "temperature", "current")),
    ]


def _other_in(key: str, shape: str, known: dict[str, list[str]]) -> Kind:
    """Another outcome, or bench state, of one of the facts under a key."""

    def make(record: Record, chance: random.Random) -> bool:
        value = record.get(key)
        fitting = [name for name in value if name in known] if isinstance(value, dict) else []
        if not fitting:
            return False
        name = chance.choice(fitting)
        others = [other for other in known[name] if other not in listed(value[name])]
        if others:
            value[name] = chance.choice(others)
        return bool(others)

    return Kind(f"{shape}: another outcome in '{key}'", shape, make)


def _other_outcomes(outcomes: dict[str, list[str]], states: dict[str, list[str]]) -> list[Kind]:
    def other_sound(record: Record, chance: random.Random) -> bool:
        answer, sound = record["answer"], record.get("sound")
        names = ["yes", "no"] if answer == "yes_no" else list(answer.get("one_of") or record.get("readings", {}))
        others = [name for name in names if name not in listed(sound)]
        if sound is None or not others:
            return False
        record["sound"] = chance.choice(others)
        return True

    return [
        _other_in("only_if", "a question", outcomes),
        _other_in("while", "a hazard", outcomes),
        _other_in("tests", "an entry of 'released_by'", outcomes),
        _other_in("lacking", "a feed", outcomes),
        _other_in("conclude", "a conclusion", outcomes),
        _other_in("bench", "a question", states),
        _other_in("bench", "a repair", states),
        _other_in("bench", "a preparation", states),
        _other_in("makes", "a move", states),
        Kind("a question: another outcome is sound", "a question", other_sound),
    ]


def _in_text(key: str, shape: str, name: str, change: Callable[[str, random.Random], str]) -> Kind:
    """A change in the text under a key; in one of its texts where there are several."""

    def make(record: Record, chance: random.Random) -> bool:
        value = record.get(key)
        if isinstance(value, str) and change(value, chance) != value:
            record[key] = change(value, chance)
            return True
        if isinstance(value, dict):
            fitting = [n for n, text in value.items() if isinstance(text, str) and change(text, chance) != text]
            if fitting:
                chosen = chance.choice(fitting)
                value[chosen] = change(value[chosen], chance)
            return bool(fitting)
        return False

    return Kind(f"{shape}: {name} in '{key}'", shape, make)


def _times(factor: float) -> Callable[[str, random.Random], str]:
    return lambda text, chance: _NUMBER.sub(lambda found: f"{float(found[0]) * factor:.10g}", text, count=1)


def _transposed(text: str, chance: random.Random) -> str:
    return _PAIR.sub(r"\2\1", text, count=1)


def _replaced(*pairs: tuple[str, str]) -> Callable[[str, random.Random], str]:
    def change(text: str, chance: random.Random) -> str:
        for old, new in pairs:
            if re.search(rf"(?<=\d ){old}\b", text):
                return re.sub(rf"(?<=\d ){old}\b", new, text, count=1)
        return text

    return change


def _numbers() -> list[Kind]:
    other_unit = _replaced(("bar", "psi"), ("degC", "degF"), ("V", "mV"), ("A", "mA"), ("mA", "A"))
    return [
        in_limits("two digits transposed", _transposed),
        in_limits("another unit of the same kind", other_unit),
        in_limits("the number left out", lambda text, chance: _NUMBER.sub("", text, count=1)),
        *(
            _in_text("minutes", shape, "ten times as many", _times(10))
            for shape in ("a question", "a repair", "a move")
        ),
        _in_text("formula", "a worked-out value", "ten times as large", _times(10)),
        _in_text("formula", "a worked-out value", "two digits transposed", _transposed),
        _in_text("formula", "a worked-out value", "plus for minus", lambda text, chance: text.replace(" - ", " + ", 1)),
        _in_text("formula", "a worked-out value", "times for over", lambda text, chance: text.replace(" / ", " * ", 1)),
        _in_text(
            "formula",
            "a worked-out value",
            "rated power for element power",
            lambda text, chance: text.replace("plate.element_power", "plate.rated_power"),
        ),
        _in_text("believable", "an answer by measuring", "a thousandth", _times(0.001)),
        _in_text("plate", "a machine file", "ten times as large", _times(10)),
        _in_text("plate", "a machine file", "another unit of the same kind", other_unit),
        _in_text("percent", "a range", "ten times as large", _times(10)),
        _in_text("unit", "an answer by measuring", "another unit", lambda text, chance: _UNITS.get(text, text)),
    ]


_UNITS = {"ohm": "kohm", "kohm": "ohm", "V": "mV", "bar": "psi", "degC": "degF", "A": "mA", "mA": "A", "Mohm": "ohm"}


def _of_rules(files: Files) -> list[Kind]:
    siblings = {
        f"{part}.{fault}": [f"{part}.{other}" for other in record["faults"] if other != fault]
        for data in files.values()
        for part, record in data.get("parts", {}).items()
        for fault in record["faults"]
    }

    def of_same_part(word: str) -> Callable[[Record, random.Random], bool]:
        def make(record: Record, chance: random.Random) -> bool:
            others = siblings.get(record.get(word) if isinstance(record.get(word), str) else "", [])
            if others:
                record[word] = chance.choice(others)
            return bool(others)

        return make

    def other_strength(record: Record, chance: random.Random) -> bool:
        weights = record.get("points_to") or record.get("points_away")
        if not isinstance(weights, dict):
            return False
        fault = chance.choice(list(weights))
        weights[fault] = chance.choice([w for w in ("slightly", "fairly", "strongly") if w != weights[fault]])
        return True

    def for_any(record: Record, chance: random.Random) -> bool:
        if "any" not in record["if"] or "all" in record["if"]:
            return False
        record["if"]["all"] = record["if"].pop("any")
        return True

    def alternative_gone(record: Record, chance: random.Random) -> bool:
        ways = record["if"].get("any")
        if not isinstance(ways, list) or len(ways) < 2:
            return False
        ways.pop(chance.randrange(len(ways)))
        return True

    return [
        Kind("a conclusion: another fault of the part confirmed", "a conclusion", of_same_part("confirm")),
        Kind("a conclusion: another fault of the part cleared", "a conclusion", of_same_part("clear")),
        Kind("a conclusion: another weight", "a conclusion", other_strength),
        Kind("a rule: 'all' written for 'any'", "a rule", for_any),
        Kind("a rule: one of its alternatives deleted", "a rule", alternative_gone),
    ]
