"""From a sentence as a customer says it to the complaints that it may mean, likeliest first.

Words that carry meaning count, fill words do not. A word is worth the more, the fewer complaints know it; several words
that one phrase of a complaint knows together are worth more than the same words scattered. Nothing here knows a
complaint or a part: what a complaint is called, how customers put it, and which words they use for one another stands
in the rules.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher
from functools import lru_cache
from itertools import pairwise
from math import log

from expert.language.model import Complaint

MOST = 5
NEAR_BEST = 0.35  # share of the best score below which a complaint is not offered
SCATTERED = 0.35  # what words are worth that the phrases of a complaint know only apart
IN_ORDER = 0.6  # what a pair of words is worth beyond its words when a phrase has it in the same order
LIKE_ENOUGH = 0.8  # share of letters in common for a slip of the finger
AS_LIKE = 0.1  # of two words that differ by less, either may be meant
LEAST_LETTERS = 3  # of a word in which a slip is looked for

NOT = "not"
_NEGATIONS_TEXT = """
no not nothing none never without hardly nt cannot cant dont doesnt didnt isnt wont wasnt arent aint wouldnt couldnt
hasnt havent zero
"""
_FILL_TEXT = """
a about after again all almost already also although always am an and any anymore are as at away be because been before
being bit both but by can case code could day days did do does doing done each even ever every everything far few
finally for from get gets getting give gives go goes going gone got had has have having he her here his how i if in
instead into is it its itself just keep keeps kept kind last lately let lets like little look lot made make makes making
man many maybe me mean minute minutes month more morning most much must my new now of often oh ok old on once one only
onto or other our ours out over own per please put quite rather really right said same say says second seconds seem
seems she should since so some somehow something sometimes somewhere soon still such take takes than thank that the
their them then there these they thing think this those though three through till time times to today together too took
totally tried try turn turned twice two until up us use used using usually very was way we week well went were what when
whenever where which while who whole why will with work works would year yes yesterday yet you your hi hello guys
machine espresso wife husband boss customer s t m re ve ll d
"""
_NEGATIONS = frozenset(_NEGATIONS_TEXT.split())
_FILL = frozenset(_FILL_TEXT.split())
_ENDINGS = ("ations", "ation", "ings", "ing", "edly", "ies", "ied", "ers", "es", "ed", "er", "ly", "s", "e", "y")
_WORD = re.compile(r"[^\W_]+")


Rows = tuple[tuple[str, ...], ...]
"""Words and phrases that are used for one another; the first of a row stands for all of it."""


def meaning_words(text: str, same: Rows = ()) -> list[str]:
    """The words that carry meaning, each cut to its stem, in their order; of any negation and of words
    that people use for one another one and the same.

    >>> meaning_words("It doesn't heat up when I switch it on")
    ['not', 'heat', 'switch']
    >>> same = (("wand", "lance"), ("drip", "dribble", "weep"), ("heat", "come up to temperature"))
    >>> meaning_words("a lance that dribbles", same), meaning_words("wand weeps", same)
    (['wand', 'drip'], ['wand', 'drip'])
    >>> meaning_words("keeps DRIPPING from the group"), meaning_words("slow in coming up to temperature", same)
    (['drip', 'group'], ['slow', 'heat'])
    """
    plain = text.casefold().replace("’", "'")
    plain = re.sub(r"n't\b", " not", plain).replace("'", "")
    written = _WORD.findall(plain)
    found = []
    for word in _one_for_each_row(written, same) if same else written:
        if word in _NEGATIONS:
            found.append(NOT)
        elif word not in _FILL:
            found.append(_stem(word))
    return found


def _one_for_each_row(written: list[str], same: Rows) -> list[str]:
    """The words with the first of its row in the place of each word or phrase that stands in one; the longest first."""
    rows = _by_stems(same)
    stems = tuple(_stem(word) for word in written)
    found, at = [], 0
    while at < len(written):
        longest = min(rows.longest, len(written) - at)
        size = next((size for size in range(longest, 0, -1) if stems[at : at + size] in rows.first), 0)
        found += rows.first[stems[at : at + size]].split() if size else [written[at]]
        at += size or 1
    return found


@dataclass(frozen=True)
class _ByStems:
    """What stands for each word and phrase of the rows, by its stems; the number of words of the longest."""

    first: Mapping[tuple[str, ...], str]
    longest: int


@lru_cache(maxsize=8)
def _by_stems(same: Rows) -> _ByStems:
    first = {tuple(_stem(word) for word in _WORD.findall(words)): row[0] for row in same for words in row}
    return _ByStems(first, max(map(len, first), default=0))


def _stem(word: str) -> str:
    """The word without its ending, so that drips, dripping and dripped are one."""
    for ending in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            word = word.removesuffix(ending)
            break
    return word[:-1] if len(word) > 3 and word[-1] == word[-2] and word[-1] not in "aeiousl" else word


@dataclass(frozen=True)
class _Known:
    """The phrases of every complaint as meaning words, and what each word is worth."""

    phrases: Mapping[str, tuple[tuple[str, ...], ...]]
    worth: Mapping[str, float]


def _known(complaints: tuple[Complaint, ...], same: Rows) -> _Known:
    phrases = {c.id: tuple(tuple(meaning_words(text, same)) for text in (c.name, *c.words)) for c in complaints}
    by_complaint = [{word for phrase in some for word in phrase} for some in phrases.values()]
    words = set().union(*by_complaint)
    worth = {word: log(1 + len(complaints) / sum(word in some for some in by_complaint)) for word in words}
    return _Known(phrases, worth)


def complaints_meant(text: str, complaints: Iterable[Complaint], same: Rows = ()) -> tuple[Complaint, ...]:
    """The complaints that a sentence may mean, likeliest first, at most five; none when it has no word of any.

    Also a single one is only what may be meant: it is for the technician to say so. `same`: see `RuleBase.same_words`.
    """
    listed = tuple(complaints)
    known = _known(listed, same)
    said = _spelled_as_known(meaning_words(text, same), known.worth)
    scores = {complaint.id: _score(said, known.phrases[complaint.id], known.worth) for complaint in listed}
    best = max(scores.values(), default=0.0)
    fitting = [
        complaint for complaint in listed if scores[complaint.id] > 0 and scores[complaint.id] >= NEAR_BEST * best
    ]
    return tuple(sorted(fitting, key=lambda complaint: -scores[complaint.id])[:MOST])


def _spelled_as_known(said: list[str], worth: Mapping[str, float]) -> list[str]:
    """The words as the complaints spell them, where one is known or almost; the others tell nothing."""
    found = []
    for word in said:
        found += [word] if word in worth else _almost(word, worth)
    return found


def _almost(word: str, known: Iterable[str]) -> list[str]:
    """The known words that begin with this one, or else those most like it."""
    if len(word) < LEAST_LETTERS:
        return []
    if begun := [other for other in known if other.startswith(word)]:
        return begun
    likeness = {other: SequenceMatcher(None, word, other).ratio() for other in known if other[0] == word[0]}
    best = max(likeness.values(), default=0.0)
    return [other for other, like in likeness.items() if like >= max(LIKE_ENOUGH, best - AS_LIKE)]


def _score(said: list[str], phrases: tuple[tuple[str, ...], ...], worth: Mapping[str, float]) -> float:
    """The best phrase's share of meaning, and a part of what the other phrases know."""
    words = set(said)
    pairs = set(pairwise(said))
    everywhere = sum(worth[word] for word in words & {word for phrase in phrases for word in phrase})
    return SCATTERED * everywhere + max(_phrase_score(words, pairs, phrase, worth) for phrase in phrases)


def _phrase_score(
    words: set[str], pairs: set[tuple[str, str]], phrase: tuple[str, ...], worth: Mapping[str, float]
) -> float:
    wanted = set(phrase)
    common = words & wanted
    if not common or common == {NOT}:
        return 0.0
    value = sum(worth[word] for word in common)
    share = value / sum(worth[word] for word in wanted)
    in_order = sum(min(worth[first], worth[second]) for first, second in pairs & set(pairwise(phrase)))
    return share * value + IN_ORDER * in_order
