"""The JSON Schema (draft 2020-12) of one line of a trace, made from the records themselves."""

from __future__ import annotations

import inspect
import typing
from collections.abc import Mapping
from dataclasses import is_dataclass
from typing import Any

from expert.trace import older_lines, packing
from expert.trace.json_values import INFINITIES, LARGEST_WHOLE_NUMBER, fields_of, may_be_left_out, optional_part
from expert.trace.kinds import KIND_NAMES, kind_of

DIALECT = "https://json-schema.org/draft/2020-12/schema"
WHOLE_NUMBER = {"type": "integer", "minimum": -LARGEST_WHOLE_NUMBER, "maximum": LARGEST_WHOLE_NUMBER}
NUMBER = {"type": "integer", "minimum": 1, "description": "The line's number, counted from 1."}
DIGEST = {"type": "string", "pattern": "^[0-9a-f]{64}$"}
TIME = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z$"
SIMPLE: Mapping[Any, dict[str, Any]] = {
    str: {"type": "string"},
    int: WHOLE_NUMBER,
    bool: {"type": "boolean"},
    float: {"anyOf": [{"type": "number"}, {"enum": sorted(INFINITIES)}]},
}


def trace_schema() -> dict[str, Any]:
    """The schema of one line. A trace is a file of such lines, each a JSON object by itself.

    A line with a `chain` is of today; one with `before` and `check` was written by an earlier program.
    """
    parts: dict[str, Any] = {}
    return {
        "$schema": DIALECT,
        "title": "One line of the trace of a repair job",
        "type": "object",
        "properties": {"seq": NUMBER, "at": {"type": "string", "pattern": TIME, "description": "When, UTC."}},
        "required": ["seq", "at"],
        "if": {"required": ["check"]},
        "then": _older(parts),
        "else": _of_today(parts),
        "$defs": dict(sorted(parts.items())),
    }


def _of_today(parts: dict[str, Any]) -> dict[str, Any]:
    kinds = {name: _plain_part(record_type, parts) for name, record_type in KIND_NAMES.items()}
    record = {
        "type": "object",
        "properties": kinds,
        "additionalProperties": False,
        "minProperties": 1,
        "maxProperties": 1,
    }
    return {
        "properties": {
            "seq": True,
            "at": True,
            "records": {"type": "array", "items": record, "description": "What happened in this step, by kind."},
            "packed": {"type": "string", "description": f"How it was put. {_packing()}"},
            "chain": {
                "type": "string",
                "pattern": "^[A-Za-z0-9_-]{43}$",
                "description": (
                    "SHA-256 over the digest of the line before (64 hexadecimal digits; of nothing, for line 1) and "
                    "this line without the key 'chain'; base 64, RFC 4648 section 5, without padding."
                ),
            },
        },
        "required": ["records", "chain"],
        "additionalProperties": False,
    }


def _packing() -> str:
    return inspect.cleandoc(packing.__doc__ or "").partition("\n\n")[2].replace("\n", " ")


def _plain_part(record_type: Any, parts: dict[str, Any]) -> dict[str, Any]:
    """What stands plainly of a record: what is packed is not there, and what holds its default need not be."""
    fields = [one for one in fields_of(record_type) if one[0].name not in packing.FIELDS.get(record_type, ())]
    schemas = {field.name: _schema_of(kind, parts) for field, kind in fields}
    named_again, *_ = packing.NAMED_AGAIN.get(kind_of(record_type), ("",))
    if "state" in schemas:
        schemas["state"] = {"type": "object", "additionalProperties": {"type": ["string", "null"]}}
    return {
        "description": inspect.getdoc(record_type) or "",
        "type": "object",
        "properties": schemas,
        "required": [field.name for field, _ in fields if not may_be_left_out(field) and field.name != named_again],
        "additionalProperties": False,
    }


def _older(parts: dict[str, Any]) -> dict[str, Any]:
    by_kind = [
        {
            "if": {"properties": {"kind": {"const": name}}, "required": ["kind"]},
            "then": {"properties": {"data": _schema_of(record_type, parts)}},
        }
        for name, record_type in KIND_NAMES.items()
    ]
    before = "SHA-256 of the line before, without its line end; of nothing for line 1."
    return {
        "properties": {
            "seq": True,
            "at": True,
            "kind": {"enum": list(KIND_NAMES), "description": "What happened."},
            "data": {"type": "object", "description": "What belongs to this kind."},
            "before": DIGEST | {"description": before},
            "check": DIGEST | {"description": "SHA-256 of this line without the key 'check', spelled the same way."},
        },
        "required": list(older_lines.KEYS),
        "additionalProperties": False,
        "allOf": by_kind,
    }


def _schema_of(kind: Any, parts: dict[str, Any]) -> dict[str, Any]:
    """The schema of a declared type; dataclasses go into `parts` and are referred to by name."""
    inner = optional_part(kind)
    if inner is not None:
        return {"anyOf": [_schema_of(inner, parts), {"type": "null"}]}
    origin, arguments = typing.get_origin(kind), typing.get_args(kind)
    if origin is tuple and arguments[1:] == (Ellipsis,):
        return {"type": "array", "items": _schema_of(arguments[0], parts)}
    if origin is tuple:
        items = [_schema_of(argument, parts) for argument in arguments]
        return {"type": "array", "prefixItems": items, "items": False, "minItems": len(items)}
    if origin is Mapping:
        return {"type": "object", "additionalProperties": _schema_of(arguments[1], parts)}
    if origin is typing.Literal:
        return {"enum": list(arguments)}
    if isinstance(kind, type) and is_dataclass(kind):
        return _refer_to(kind, parts)
    if kind in SIMPLE:
        return SIMPLE[kind]
    raise TypeError(f"{kind} will not do in a record")


def _refer_to(kind: type, parts: dict[str, Any]) -> dict[str, Any]:
    name = kind.__name__
    if name not in parts:
        parts[name] = {}  # holds the place, should a record refer to its own kind
        fields = fields_of(kind)
        parts[name] = {
            "description": inspect.getdoc(kind) or "",
            "type": "object",
            "properties": {field.name: _schema_of(field_type, parts) for field, field_type in fields},
            "required": [field.name for field, _ in fields if not may_be_left_out(field)],
            "additionalProperties": False,
        }
    return {"$ref": f"#/$defs/{name}"}
