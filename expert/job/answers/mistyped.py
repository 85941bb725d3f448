"""What a mistyped line was likely meant to be: a command, or one of a list of names."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import SequenceMatcher, get_close_matches

from expert.job.answers.command_words import COMMAND_WORDS, command_in
from expert.job.answers.reading import CANNOT_TELL
from expert.job.sentences import answers as say

LIKE_ENOUGH = 0.75  # share of letters in common; less is more likely another word
ALIKE = 0.81  # the same for commands of more than three letters: "none" is not "note", nor "cause" "pause"
LONGEST_LOOKED_AT = 40  # letters; comparing takes its time, and a name is no longer than that
LEAST_WORD = 3  # letters
NO_NAMES = frozenset(
    {"yes", "no", "ok", "okay", "done", "none", "nobody", "noone", "me", "myself", "somebody", "someone"}
)
MOST_MEANT = 3


def near_command(line: str) -> str:
    """The command that the line begins almost like, or ''.

    >>> near_command("wy"), near_command("takeback 3"), near_command("hwo"), near_command("1.2 bar")
    ('why', 'take back', 'how', '')
    """
    words = line[:LONGEST_LOOKED_AT].casefold().split()[:2]
    if words[:1] == ["not"]:  # of a complaint, and no note
        return ""
    plain = {command.replace(" ", ""): command for command in COMMAND_WORDS}
    for typed in ("".join(words), *words[:1]):
        if len(typed) < 2 or not typed.replace("'", "").isalpha():
            continue
        turned = [letters for letters in plain if sorted(letters.replace("'", "")) == sorted(typed.replace("'", ""))]
        near = turned or get_close_matches(typed, plain, 1, ALIKE if len(typed) > 3 else LIKE_ENOUGH)
        if near:
            return plain[near[0]]
    return ""


def with_command_meant(message: str, line: str) -> str:
    """The message that refuses a line, with the command that was likely meant in front."""
    meant = "" if command_in(line) or CANNOT_TELL.fullmatch(line.strip()) else near_command(line)
    return say.command_meant(meant, message) if meant else message


def is_slip(line: str) -> bool:
    """Whether a line where any text may stand is more likely a mistyped command: one or two words, almost like one.

    >>> is_slip("suspect"), is_slip("take bak 3"), is_slip("fill coil"), is_slip("how the tap was left: dripping")
    (True, True, False, False)
    """
    words = line.split()
    return bool(CANNOT_TELL.fullmatch(line.strip())) or (len(words) <= 3 and bool(near_command(line)))


def is_squeezed_command(line: str) -> bool:
    """Whether the line is a command written without its space or its apostrophe, such as takeback or cant tell.

    >>> is_squeezed_command("Handover"), is_squeezed_command("cant tell"), is_squeezed_command("Ann")
    (True, True, False)
    """
    letters = "".join(letter for letter in line.casefold() if letter.isalpha())
    return letters in {"".join(filter(str.isalpha, command)) for command in COMMAND_WORDS}


def is_no_name(text: str) -> bool:
    """Whether a line cannot be the name of who is at the bench: no letters, a yes or no, a confirmation, a command.

    >>> is_no_name("no"), is_no_name("done."), is_no_name("danger"), is_no_name("42"), is_no_name("Noa")
    (True, True, True, True, False)
    """
    word = "".join(filter(str.isalnum, text.casefold()))
    if not any(map(str.isalpha, word)):
        return True
    return word in NO_NAMES or bool(command_in(text)) or is_squeezed_command(text)


def names_meant(text: str, names: Mapping[str, str]) -> list[str]:
    """The ids whose names have words most like those typed, likeliest first; none when nothing is like them.

    >>> names_meant("no steem", {"a": "No steam", "b": "No hot water", "c": "Leaks"})
    ['a']
    """
    typed = [word for word in text[:LONGEST_LOOKED_AT].casefold().replace("_", " ").split() if len(word) >= LEAST_WORD]
    scores = {key: _likeness(typed, name.casefold().replace("_", " ").split()) for key, name in names.items()}
    best = max(scores.values(), default=0.0)
    return [key for key, score in scores.items() if score == best and best > 0][:MOST_MEANT]


def _likeness(typed: list[str], words: list[str]) -> float:
    """How like the words are: for each word typed the most like one, if it is like enough."""
    total = 0.0
    for word in typed:
        likest = max((SequenceMatcher(None, word, other).ratio() for other in words), default=0.0)
        total += likest if likest >= LIKE_ENOUGH else 0.0
    return round(total, 3)
