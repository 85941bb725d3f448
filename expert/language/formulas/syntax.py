"""The grammar of formulas: text to a raw tree whose parts remember where they stand.

    limit   := 'above' sum | 'below' sum | sum 'to' sum | 'otherwise'
    sum     := product (('+' | '-') product)*
    product := signed (('*' | '/') signed)*
    signed  := '-' signed | part
    part    := number [unit] | name ['(' sum (',' sum)* ')'] | '(' sum ')'

A unit belongs to the number before it if the trade knows it, the longest such unit first: `10 L/min` is a flow,
`10 V / rated` a division. Length and depth are limited.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from expert.language.sentences import formulas as say
from expert.trade.quantities.units import KINDS, unit_like, units_named

LONGEST = 500
DEEPEST = 20


class FormulaProblem(Exception):
    """The formula is wrong at an offset into its text."""

    def __init__(self, offset: int, message: str, code: str = "formula") -> None:
        self.offset, self.message, self.code = offset, message, code
        super().__init__(message)


@dataclass(frozen=True, slots=True)
class RawNumber:
    """A number with its unit, if one stands there; `text` is the number as written."""

    value: float
    unit: str
    text: str
    offset: int


@dataclass(frozen=True, slots=True)
class RawName:
    """A name."""

    name: str
    offset: int


@dataclass(frozen=True, slots=True)
class RawCall:
    """A function with what stands in its brackets."""

    name: str
    arguments: tuple[Raw, ...]
    offset: int


@dataclass(frozen=True, slots=True)
class RawWork:
    """Two parts joined by a sign."""

    operator: str
    left: Raw
    right: Raw
    offset: int


@dataclass(frozen=True, slots=True)
class RawNegative:
    """A part with a minus in front."""

    part: Raw
    offset: int


Raw = RawNumber | RawName | RawCall | RawWork | RawNegative
Token = tuple[str, str, int, str]  # sort (number, name, sign, end), text, offset, unit

_SPACES = re.compile(r"\s*")
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z_][A-Za-z0-9_]*)?")
_UNIT = re.compile(r"[^\s()+*,/\-0-9][^\s()+*,\-]*(?: [^\s()+*,/\-0-9]+)?")


@lru_cache(maxsize=2048)
def _is_unit(text: str) -> bool:
    return bool(units_named(text))


def read_formula(text: str) -> Raw:
    """The raw tree of a formula. Raises FormulaProblem."""
    parser = _Parser(text)
    tree = parser.sum(0)
    parser.expect_end()
    return tree


Limit = tuple[Raw, str]  # the tree and its own piece of the text


def read_limits(text: str) -> tuple[Limit | None, Limit | None]:
    """The lower and upper limit of a reading: `above F`, `below F`, `F to F` or `otherwise`. Raises FormulaProblem."""
    parser = _Parser(text)
    word = parser.peek()[1] if parser.peek()[0] == "name" else ""
    if word in ("above", "below", "otherwise"):
        parser.take()
        limit = None if word == "otherwise" else (parser.sum(0), text.removeprefix(word).strip())
        parser.expect_end()
        return (limit, None) if word == "above" else (None, limit)
    low = parser.sum(0)
    if parser.peek()[:2] != ("name", "to"):
        message = say.is_no_reading(text[:60])
        raise FormulaProblem(0, message)
    middle = parser.take()[2]
    high = parser.sum(0)
    parser.expect_end()
    return (_with_unit_of(low, high), text[:middle].strip()), (high, text[middle + len("to") :].strip())


def _with_unit_of(low: Raw, high: Raw) -> Raw:
    """`0.8 to 1.2 bar` means 0.8 bar to 1.2 bar, as people say it."""
    if isinstance(low, RawNumber) and isinstance(high, RawNumber) and not low.unit:
        return RawNumber(low.value, high.unit, low.text, low.offset)
    if isinstance(low, RawNegative):
        return RawNegative(_with_unit_of(low.part, high), low.offset)
    return low


def _tokens(text: str) -> list[Token]:
    tokens: list[Token] = []
    here = 0
    while True:
        here = _SPACES.match(text, here).end()  # type: ignore[union-attr]
        if here == len(text):
            tokens.append(("end", "", here, ""))
            return tokens
        if number := _NUMBER.match(text, here):
            unit, end = _unit_at(text, number.end())
            tokens.append(("number", number.group(), here, unit))
            here = end
        elif name := _NAME.match(text, here):
            tokens.append(("name", name.group(), here, ""))
            here = name.end()
        elif text[here] in "+-*/(),":
            tokens.append(("sign", text[here], here, ""))
            here += 1
        else:
            raise FormulaProblem(here, say.no_place_in_a_formula(text[here]))


def _unit_at(text: str, here: int) -> tuple[str, int]:
    """The longest unit that stands after a number, and where it ends; no unit, and `here`, if there is none."""
    start = _SPACES.match(text, here).end()  # type: ignore[union-attr]
    found = _UNIT.match(text, start)
    if not found:
        return "", here
    whole = found.group()
    for candidate in (whole, whole.split(" ")[0], whole.split("/")[0], whole.split(" ")[0].split("/")[0]):
        if _is_unit(candidate):
            return candidate, start + len(candidate)
    word = whole.split(" ")[0]
    if word == "to":
        return "", here
    if re.match(r"e[0-9]", text[start : start + 2]):
        hint = say.EXPONENT_HINT
    else:
        near = unit_like(word, dict.fromkeys(unit for kind in KINDS.values() for unit in kind.units))
        hint = say.did_you_mean(near) if near else ""
    raise FormulaProblem(start, say.is_no_unit(word, hint), "wrong-unit")


class _Parser:
    """Recursive descent over the tokens of one formula."""

    def __init__(self, text: str) -> None:
        if len(text) > LONGEST:
            raise FormulaProblem(0, say.formula_too_long(len(text), LONGEST))
        self.tokens = _tokens(text)
        self.next = 0

    def peek(self) -> Token:
        return self.tokens[self.next]

    def take(self) -> Token:
        token = self.tokens[self.next]
        self.next = min(self.next + 1, len(self.tokens) - 1)
        return token

    def at_sign(self, signs: str) -> bool:
        sort, text, _, _ = self.tokens[self.next]
        return sort == "sign" and text in signs

    def expect(self, sign: str) -> None:
        if not self.at_sign(sign):
            _, text, offset, _ = self.peek()
            raise FormulaProblem(offset, say.sign_is_wanted_before(sign, _named(text)))
        self.take()

    def expect_end(self) -> None:
        sort, text, offset, _ = self.peek()
        if sort == "end":
            return
        hint = say.COMMA_HINT if text == "," else ""
        raise FormulaProblem(offset, say.one_too_many(_named(text), hint))

    def sum(self, depth: int) -> Raw:
        if depth > DEEPEST:
            raise FormulaProblem(self.peek()[2], say.formula_too_deep(DEEPEST))
        left = self.product(depth)
        while self.at_sign("+-"):
            _, operator, offset, _ = self.take()
            left = RawWork(operator, left, self.product(depth), offset)
        return left

    def product(self, depth: int) -> Raw:
        left = self.signed(depth)
        while self.at_sign("*/"):
            _, operator, offset, _ = self.take()
            left = RawWork(operator, left, self.signed(depth), offset)
        return left

    def signed(self, depth: int) -> Raw:
        if self.at_sign("-"):
            _, _, offset, _ = self.take()
            if self.at_sign("-"):
                raise FormulaProblem(offset, say.TWO_SIGNS)
            return RawNegative(self.signed(depth), offset)
        return self.part(depth)

    def part(self, depth: int) -> Raw:
        sort, text, offset, unit = self.take()
        if sort == "number":
            return RawNumber(float(text), unit, text, offset)
        if sort == "name":
            return self.call(text, offset, depth) if self.at_sign("(") else RawName(text, offset)
        if sort == "sign" and text == "(":
            inner = self.sum(depth + 1)
            self.expect(")")
            return inner
        raise FormulaProblem(offset, say.value_is_wanted_before(_named(text)))

    def call(self, name: str, offset: int, depth: int) -> Raw:
        self.expect("(")
        arguments = [self.sum(depth + 1)]
        while self.at_sign(","):
            self.take()
            arguments.append(self.sum(depth + 1))
        self.expect(")")
        return RawCall(name, tuple(arguments), offset)


def _named(text: str) -> str:
    return f"'{text}'" if text else "the end"
