"""The events of an audit as JSON values, for other programs."""

from __future__ import annotations

from typing import Any

from expert.shop.audit_reasons import Reason
from expert.shop.audit_story import Asked, Concluded, Event, FaultFound, Happened
from expert.shop.audit_words import Names
from expert.trace.json_values import to_plain
from expert.trace.kinds import kind_of, to_json


def event_as_data(event: Event, names: Names) -> dict[str, Any]:
    """One event: its kind, the line of the trace, and all that it holds; faults also with their names."""
    match event:
        case Asked():
            return {
                "kind": "asked",
                **to_plain(Asked, event),
                "concluded": _concluded(event.concluded),
            }
        case FaultFound(line=line, found=found, tree=tree):
            return {
                "kind": "found",
                "line": line,
                **to_json(found),
                "name": names.fault(found.fault),
                "reasons": _reason(tree, names),
            }
        case Happened(line=line, record=record, told=told, concluded=concluded):
            data = {"kind": kind_of(type(record)), "line": line, **to_json(record)}
            if told:
                data["told"] = list(told)
            if concluded:
                data["concluded"] = _concluded(concluded)
            return data


def _concluded(concluded: Concluded) -> dict[str, Any]:
    return {
        "fired": [
            {"rule": reason.id, "text": reason.says, "because": [_label(part) for part in reason.because]}
            for reason in concluded.fired
        ],
        "unfired": list(concluded.unfired),
        "narrowed": [to_json(record) for record in concluded.narrowed],
    }


def _reason(reason: Reason, names: Names) -> dict[str, Any]:
    data = {"kind": reason.kind, "id": reason.id, "says": reason.says}
    if reason.kind in ("fault", "cleared"):
        data["name"] = names.fault(reason.id)
    return data | {"because": [_reason(part, names) for part in reason.because]}


def _label(reason: Reason) -> str:
    return f"answer {reason.id}" if reason.kind == "answer" else reason.id
