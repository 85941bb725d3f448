"""Slips that leave the rules readable and change what they mean: deleted, swapped, exaggerated, turned round."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from typing import Any

from tests.workbench.slips import Files, Kind

Record = dict[str, Any]
Make = Callable[[Record, random.Random], bool]

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_UNIT = re.compile(r"\b(k|M)(?=ohm)")


def listed(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [value]


def gone(key: str, shape: str, why: str = "deleted") -> Kind:
    return Kind(f"{shape}: '{key}' {why}", shape, lambda record, chance: record.pop(key, None) is not None)


def entry_gone(key: str, shape: str) -> Kind:
    """One of several entries under a key is deleted."""

    def make(record: Record, chance: random.Random) -> bool:
        value = record.get(key)
        if isinstance(value, list) and value:
            at = chance.randrange(len(value))
            record[key] = value[:at] + value[at + 1 :]
        elif isinstance(value, dict) and value:
            name = chance.choice(list(value))
            record[key] = {other: kept for other, kept in value.items() if other != name}
        else:
            return False
        return True

    return Kind(f"{shape}: one entry of '{key}' deleted", shape, make)


def other_word(key: str, shape: str, words: tuple[str, ...]) -> Kind:
    def make(record: Record, chance: random.Random) -> bool:
        if record.get(key) not in words:
            return False
        record[key] = chance.choice([word for word in words if word != record[key]])
        return True

    return Kind(f"{shape}: another word under '{key}'", shape, make)


def renamed(old: str, new: str, shape: str) -> Kind:
    """One key written for another one."""

    def make(record: Record, chance: random.Random) -> bool:
        if old not in record or new in record:
            return False
        entries = [(new if name == old else name, value) for name, value in record.items()]
        record.clear()
        record.update(entries)
        return True

    return Kind(f"{shape}: '{new}' written for '{old}'", shape, make)


def in_limits(name: str, change: Callable[[str, random.Random], str]) -> Kind:
    """A change in the text of one limit of a question."""

    def make(record: Record, chance: random.Random) -> bool:
        readings = record.get("readings")
        if not isinstance(readings, dict):
            return False
        names = [key for key, text in readings.items() if isinstance(text, str) and change(text, chance) != text]
        if not names:
            return False
        key = chance.choice(names)
        readings[key] = change(readings[key], chance)
        return True

    return Kind(f"a limit: {name}", "a question", make)


def _times(factor: float) -> Callable[[str, random.Random], str]:
    def change(text: str, chance: random.Random) -> str:
        return _NUMBER.sub(lambda found: f"{float(found[0]) * factor:.10g}", text, count=1)

    return change


def _swapped_ends(text: str, chance: random.Random) -> str:
    low, to, high = text.partition(" to ")
    return f"{high}{to}{low}" if to else text


def _turned(text: str, chance: random.Random) -> str:
    word, space, rest = text.partition(" ")
    return f"{ {'above': 'below', 'below': 'above'}.get(word, word) }{space}{rest}"


def _outcome(fact: str, value: Any, outcomes: dict[str, list[str]], chance: random.Random) -> Any:
    """Another outcome of the fact in place of what stands there."""
    others = [other for other in outcomes.get(fact, []) if other not in listed(value)]
    return chance.choice(others) if others else value


def meaning_kinds(files: Files) -> list[Kind]:
    """All of them. `files`: for the outcomes and ids that a slip may take for the right ones."""
    outcomes = outcomes_in(files)
    faults = [
        f"{part}.{fault}"
        for data in files.values()
        for part, record in data.get("parts", {}).items()
        for fault in record["faults"]
    ]
    return [
        *_of_rules(outcomes, faults),
        *_of_faults(outcomes),
        *_of_questions(),
        *_of_bench(),
    ]


def outcomes_in(files: Files) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for data in files.values():
        for name, question in data.get("questions", {}).items():
            answer = question["answer"]
            if answer == "yes_no":
                found[name] = ["yes", "no"]
            elif "one_of" in answer:
                found[name] = list(answer["one_of"])
            else:
                found[name] = list(question["readings"])
        for name, finding in data.get("findings", {}).items():
            found[name] = list(finding["outcomes"])
    return found


def _of_rules(outcomes: dict[str, list[str]], faults: list[str]) -> list[Kind]:
    def other_outcome(record: Record, chance: random.Random) -> bool:
        facts = [fact for fact in record["if"] if fact in outcomes]
        if not facts:
            return False
        fact = chance.choice(facts)
        record["if"][fact] = _outcome(fact, record["if"][fact], outcomes, chance)
        return True

    def test_gone(record: Record, chance: random.Random) -> bool:
        if len(record["if"]) < 2:
            return False
        record["if"].pop(chance.choice(list(record["if"])))
        return True

    def turned_round(record: Record, chance: random.Random) -> bool:
        record["if"] = {"not": record["if"]}
        return True

    def impossible(record: Record, chance: random.Random) -> bool:
        facts = [fact for fact, value in record["if"].items() if fact in outcomes and isinstance(value, str)]
        if not facts or "all" in record["if"]:
            return False
        fact = chance.choice(facts)
        record["if"]["all"] = [{fact: _outcome(fact, record["if"][fact], outcomes, chance)}]
        return True

    def other_fault(word: str) -> Make:
        def make(record: Record, chance: random.Random) -> bool:
            if word not in record:
                return False
            record[word] = chance.choice([fault for fault in faults if fault not in listed(record[word])])
            return True

        return make

    def both(record: Record, chance: random.Random) -> bool:
        if "confirm" not in record or "clear" in record:
            return False
        record["clear"] = record["confirm"]
        return True

    def reversed_order(record: Record, chance: random.Random) -> bool:
        if len(listed(record.get("check", []))) < 2:
            return False
        record["check"] = listed(record["check"])[::-1]
        return True

    def own_rival(record: Record, chance: random.Random) -> bool:
        if not record.get("rivals"):
            return False
        record["rivals"] = listed(record["rivals"])[1:] or []
        return True

    then = "a conclusion"
    return [
        Kind("a rule: another outcome in 'if'", "a rule", other_outcome),
        Kind("a rule: one test of 'if' deleted", "a rule", test_gone),
        Kind("a rule: 'if' turned round", "a rule", turned_round),
        Kind("a rule: an impossible condition", "a rule", impossible),
        Kind("a rule: a rival deleted", "a rule", own_rival),
        Kind("a conclusion: another fault confirmed", then, other_fault("confirm")),
        Kind("a conclusion: another fault cleared", then, other_fault("clear")),
        Kind("a conclusion: confirmed and cleared", then, both),
        Kind("a conclusion: check order reversed", then, reversed_order),
        renamed("confirm", "clear", then),
        renamed("clear", "confirm", then),
        renamed("points_to", "points_away", then),
        renamed("points_away", "points_to", then),
        renamed("check", "suspect", then),
        renamed("confirm", "suspect", then),
        renamed("stop_work", "advise", then),
        entry_gone("check", then),
        entry_gone("clear", then),
        entry_gone("points_to", then),
        entry_gone("caution", then),
    ]


def _of_faults(outcomes: dict[str, list[str]]) -> list[Kind]:
    def other_sign(record: Record, chance: random.Random) -> bool:
        shows = record.get("shows")
        if not shows:
            return False
        name = chance.choice(list(shows))
        shows[name] = _outcome(name, shows[name], outcomes, chance)
        return True

    def emptied(key: str) -> Make:
        def make(record: Record, chance: random.Random) -> bool:
            if not record.get(key):
                return False
            record[key] = []
            return True

        return make

    return [
        Kind("a fault: another outcome in 'shows'", "a fault", other_sign),
        Kind("a fault: 'explains' emptied", "a fault", emptied("explains")),
        Kind("a fault: 'prove' emptied", "a fault", emptied("prove")),
        Kind("a repair: 'steps' emptied", "a repair", emptied("steps")),
        gone("shows", "a fault"),
        gone("dangerous", "a fault"),
        gone("caused_by", "a fault"),
        gone("bench", "a repair"),
        gone("cautions", "a repair"),
        entry_gone("shows", "a fault"),
        entry_gone("explains", "a fault"),
        entry_gone("prove", "a fault"),
        other_word("seen", "a fault", ("common", "occasional", "rare")),
    ]


def _of_questions() -> list[Kind]:
    def labels_swapped(record: Record, chance: random.Random) -> bool:
        labels = record["one_of"]
        one, other = chance.sample(list(labels), 2)
        labels[one], labels[other] = labels[other], labels[one]
        return True

    def readings_swapped(record: Record, chance: random.Random) -> bool:
        readings = record.get("readings")
        if not isinstance(readings, dict) or len(readings) < 3:
            return False
        one, other = chance.sample(list(readings)[:-1], 2)
        readings[one], readings[other] = readings[other], readings[one]
        return True

    def waits_for_itself(record: Record, chance: random.Random) -> bool:
        if record.get("answer") != "yes_no" or "only_if" in record:
            return False
        record["only_if"] = {"ITSELF": "yes"}
        return True

    def every_outcome_sound(record: Record, chance: random.Random) -> bool:
        if record.get("answer") != "yes_no" or "sound" not in record:
            return False
        record["sound"] = ["yes", "no"]
        return True

    def two_in_one(record: Record, chance: random.Random) -> bool:
        record["ask"] = f"{record['ask']} And what else do you see?"
        return "?" in record["ask"][:-25]

    def negated(record: Record, chance: random.Random) -> bool:
        if record.get("answer") != "yes_no" or not record["ask"].startswith(("Does ", "Is ")):
            return False
        record["ask"] = record["ask"].rstrip("?") + ", or is it not?"
        return True

    def too_long(record: Record, chance: random.Random) -> bool:
        record["ask"] = (
            record["ask"] + " Look twice, from both sides, with a lamp, before you answer this question here." * 2
        )
        return True

    return [
        Kind("an answer by choice: two labels swapped", "an answer by choice", labels_swapped),
        Kind("a question: two readings swapped", "a question", readings_swapped),
        Kind("a question: every outcome is sound", "a question", every_outcome_sound),
        Kind("a question: two questions in one", "a question", two_in_one),
        Kind("a question: negated", "a question", negated),
        Kind("a question: too long", "a question", too_long),
        in_limits("ten times as large", _times(10)),
        in_limits("a tenth", _times(0.1)),
        in_limits("a thousand times as large", _times(1000)),
        in_limits("kohm or Mohm written as ohm", lambda text, chance: _UNIT.sub("", text, count=1)),
        in_limits(
            "above and below swapped",
            lambda text, chance: (
                text.translate(str.maketrans({}))
                .replace("above", "BELOW")
                .replace("below", "above")
                .replace("BELOW", "below")
            ),
        ),
        in_limits("the ends of a span swapped", _swapped_ends),
        gone("sound", "a question"),
        gone("cautions", "a question"),
        gone("only_if", "a question"),
        gone("bench", "a question"),
        gone("applies", "a question"),
        gone("prepare", "a question"),
        gone("second_test", "a question"),
        gone("believable", "an answer by measuring"),
    ]


def _of_bench() -> list[Kind]:
    return [
        gone("unless", "a move"),
        gone("needs", "a move"),
        gone("cautions", "a move"),
        gone("qualified_only", "the bench file"),
        gone("passing_only", "the bench file"),
        gone("service", "the bench file"),
        gone("after_opening", "the bench file"),
        gone("in_time", "the bench file"),
        entry_gone("service", "the bench file"),
        entry_gone("features", "a machine file"),
        entry_gone("plate", "a machine file"),
    ]
