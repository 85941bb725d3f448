"""Typed values to JSON values and back, driven by the types that a dataclass declares.

Types that will do: str, int, float, bool, None, `Literal` of strings, `X | None`, `tuple[X, ...]`, `tuple[X, Y]`,
`Mapping[str, X]` and dataclasses of these. A record can therefore be changed by editing its dataclass alone.

An infinite number (an instrument that shows "over range") is written as the text "inf" or "-inf", because JSON has no
such number. Whole numbers keep to the range that every JSON reader holds exactly (RFC 8259, section 6). JSON
objects have no order: what has an order belongs in a tuple.
"""

from __future__ import annotations

import math
import types
import typing
from collections.abc import Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from functools import cache
from typing import Any

from expert.trace.sentences import forms as say

LARGEST_WHOLE_NUMBER = 2**53 - 1
INFINITIES = {"inf": math.inf, "-inf": -math.inf}


class NotPlain(ValueError):
    """A value is not of the declared type. `where`: the way to it from the record, such as `why.candidates[2].bits`."""

    def __init__(self, where: str, reason: str) -> None:
        super().__init__(f"{where.lstrip('.') or 'the record'}: {reason}")


@cache
def fields_of(cls: type) -> tuple[tuple[Field[Any], Any], ...]:
    """The fields of a dataclass in their order, each with its resolved type."""
    hints = typing.get_type_hints(cls)
    return tuple((field, hints[field.name]) for field in fields(cls))


def may_be_left_out(field: Field[Any]) -> bool:
    """A field with a default may be missing when read, so that older traces stay readable."""
    return field.default is not MISSING or field.default_factory is not MISSING


def optional_part(kind: Any) -> Any:
    """The X of `X | None`, or None when `kind` is no union. Other unions are refused: they read back ambiguously."""
    if typing.get_origin(kind) not in (typing.Union, types.UnionType):
        return None
    rest = [part for part in typing.get_args(kind) if part is not type(None)]
    if len(rest) != 1 or len(rest) == len(typing.get_args(kind)):
        raise TypeError(say.union_will_not_do(kind))
    return rest[0]


def to_plain(kind: Any, value: Any, where: str = "") -> Any:
    """The JSON value of a typed value. Raises NotPlain when the value is not of its declared type."""
    return _convert(kind, value, where, out=True)


def from_plain(kind: Any, value: Any, where: str = "") -> Any:
    """The typed value that a JSON value stands for. Raises NotPlain.

    >>> from_plain(tuple[int, ...], [1, 2])
    (1, 2)
    >>> from_plain(tuple[int, ...], [1, "2"], "because")
    Traceback (most recent call last):
    expert.trace.json_values.NotPlain: because[1]: a whole number is wanted, not the text '2'
    """
    return _convert(kind, value, where, out=False)


def brief(kind: Any, value: Any, plain: Any) -> Any:
    """The JSON value `plain` of `value` without fields that hold their default: `from_plain` fills these in."""
    inner = optional_part(kind) or kind
    if isinstance(inner, type) and is_dataclass(inner) and value is not None:
        return {
            field.name: brief(field_type, getattr(value, field.name), plain[field.name])
            for field, field_type in fields_of(inner)
            if not (may_be_left_out(field) and getattr(value, field.name) == field.default)
        }
    if typing.get_origin(inner) is tuple and value and any(map(is_dataclass, value)):
        (part, *_) = typing.get_args(inner)
        return [brief(part, one, of_it) for one, of_it in zip(value, plain, strict=True)]
    return plain


def _convert(kind: Any, value: Any, where: str, *, out: bool) -> Any:
    inner = optional_part(kind)
    if inner is not None:
        return None if value is None else _convert(inner, value, where, out=out)
    origin = typing.get_origin(kind)
    if origin is tuple:
        return _convert_tuple(typing.get_args(kind), value, where, out=out)
    if origin is Mapping:
        return _convert_mapping(typing.get_args(kind), value, where, out=out)
    if origin is typing.Literal:
        return _one_of(typing.get_args(kind), value, where)
    if kind is float:
        return _float_out(value, where) if out else _float_in(value, where)
    if kind in _SIMPLE:
        return _SIMPLE[kind](value, where)
    if isinstance(kind, type) and is_dataclass(kind):
        return _record_out(kind, value, where) if out else _record_in(kind, value, where)
    raise TypeError(say.will_not_do(kind, where.lstrip(".")))


def _record_out(kind: type, value: Any, where: str) -> dict[str, Any]:
    known = fields_of(kind)
    if type(value) is not kind:
        raise NotPlain(where, say.is_wanted(kind.__name__, _say(value)))
    return {f.name: _convert(t, getattr(value, f.name), f"{where}.{f.name}", out=True) for f, t in known}


def _record_in(kind: type, value: Any, where: str) -> Any:
    if not isinstance(value, dict):
        raise NotPlain(where, say.fields_are_wanted(kind.__name__, _say(value)))
    known = fields_of(kind)
    if unknown := sorted(value.keys() - {field.name for field, _ in known}):
        raise NotPlain(where, say.is_no_field(unknown[0], _names((f.name for f, _ in known))))
    given = {}
    for field, field_type in known:
        if field.name in value:
            given[field.name] = _convert(field_type, value[field.name], f"{where}.{field.name}", out=False)
        elif not may_be_left_out(field):
            raise NotPlain(where, say.field_is_missing(field.name))
    return kind(**given)


def _convert_tuple(parts: tuple[Any, ...], value: Any, where: str, *, out: bool) -> Any:
    if not isinstance(value, tuple if out else list):
        raise NotPlain(where, say.one_is_wanted("tuple" if out else "list", _say(value)))
    if len(parts) == 2 and parts[1] is Ellipsis:
        parts = (parts[0],) * len(value)
    elif len(parts) != len(value):
        raise NotPlain(where, say.values_are_wanted(len(parts), len(value)))
    converted = [_convert(p, v, f"{where}[{i}]", out=out) for i, (p, v) in enumerate(zip(parts, value, strict=True))]
    return converted if out else tuple(converted)


def _convert_mapping(parts: tuple[Any, ...], value: Any, where: str, *, out: bool) -> Any:
    if parts[0] is not str:
        raise TypeError(say.keys_must_be_texts(where.lstrip(".")))
    if not isinstance(value, Mapping):
        raise NotPlain(where, say.object_is_wanted(_say(value)))
    return {_text(k, where): _convert(parts[1], v, f"{where}[{k!r}]", out=out) for k, v in value.items()}


def _one_of(words: tuple[Any, ...], value: Any, where: str) -> Any:
    if not isinstance(value, str) or value not in words:
        raise NotPlain(where, say.one_of_is_wanted(_names(words), _say(value)))
    return value


def _text(value: Any, where: str) -> str:
    if not isinstance(value, str):
        raise NotPlain(where, say.text_is_wanted(_say(value)))
    # Half a surrogate pair is no character: two halves written one after the other would read back as one.
    if not value.isascii() and any("\ud800" <= character <= "\udfff" for character in value):
        raise NotPlain(where, say.no_characters(value[:40]))
    return value


def _whole_number(value: Any, where: str) -> int:
    if not isinstance(value, int) or isinstance(value, bool):
        raise NotPlain(where, say.whole_number_is_wanted(_say(value)))
    if abs(value) > LARGEST_WHOLE_NUMBER:
        raise NotPlain(where, say.whole_number_up_to(LARGEST_WHOLE_NUMBER))
    return value


def _truth(value: Any, where: str) -> bool:
    if not isinstance(value, bool):
        raise NotPlain(where, say.yes_or_no_is_wanted(_say(value)))
    return value


def _float_out(value: Any, where: str) -> float | str:
    number = _float_in(value, where)
    return number if math.isfinite(number) else f"{number:g}"


def _float_in(value: Any, where: str) -> float:
    if isinstance(value, str) and value in INFINITIES:
        return INFINITIES[value]
    if not isinstance(value, int | float) or isinstance(value, bool) or math.isnan(value):
        raise NotPlain(where, say.number_is_wanted(_say(value)))
    return float(value) if isinstance(value, float) else float(_whole_number(value, where))


_SIMPLE: Mapping[Any, Any] = {str: _text, int: _whole_number, bool: _truth}


def _names(words: typing.Iterable[str]) -> str:
    return ", ".join(words) or "none"


def _say(value: Any) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, str):
        return f"the text {value[:40]!a}"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, int):
        return "a whole number"
    if isinstance(value, list | tuple):
        return f"a {type(value).__name__}"
    return "an object" if isinstance(value, dict) else type(value).__name__
