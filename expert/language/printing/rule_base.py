"""A rule base written back as YAML texts, such that reading them gives the same rule base.

Comments and the author's layout are lost; ids, order, sentences and formulas are kept.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import TypeVar

from expert.language import model
from expert.language.model import ALWAYS
from expert.language.printing.rules import conclusions_data, condition_data, one_or_list
from expert.language.reading.conditions import NEVER
from expert.language.reading.draft import NO_BENCH
from expert.language.yaml.writing import Data, yaml_text
from expert.trade.quantities.units import KINDS, Quantity
from expert.trade.sensors.instruments import Instrument

Item = TypeVar("Item", model.Feed, model.Part, model.Question, model.Finding, model.WorkOut, model.Rule)


def print_rules(base: model.RuleBase) -> dict[str, str]:
    """Every file of the rule base: path -> text."""
    files: dict[str, Mapping[str, Data]] = {
        "features.yaml": {
            "features": {f.id: {"name": f.name, "values": list(f.values)} for f in base.features.values()},
            "plate": {p.id: _plate_value(p) for p in base.plate_values.values()},
        },
        "complaints.yaml": {"complaints": {c.id: _complaint(c) for c in base.complaints.values()}},
        "cautions.yaml": {"cautions": {c.id: c.text for c in base.cautions.values()}},
        "instruments.yaml": {"instruments": {i.id: _instrument(i) for i in base.instruments.values()}},
        "bench.yaml": _bench(base.bench),
    }
    files |= {f"machines/{machine.id}.yaml": _machine(machine) for machine in base.machines.values()}
    texts = {path: yaml_text(_filled(data)) for path, data in files.items() if _holds(data)}
    return texts | {f"circuits/{circuit}.yaml": print_circuit(base, circuit) for circuit in base.circuits}


def _machine(machine: model.Machine) -> dict[str, Data]:
    return {
        "machine": machine.id,
        "title": machine.title,
        "layout": machine.layout,
        "features": dict(machine.features),
        "plate": {name: quantity_text(value) for name, value in machine.plate.items()},
        "wiring": {feed: list(way) for feed, way in machine.wiring.items()},
    }


def print_machine(machine: model.Machine) -> str:
    """The text of one machine's file."""
    return yaml_text(_filled(_machine(machine)))


def print_circuit(base: model.RuleBase, circuit: str) -> str:
    """The text of one circuit's file."""
    record = base.circuits[circuit]
    data: dict[str, Data] = {
        "circuit": record.id,
        "title": record.title,
        "applies": _lists(record.applies),
        "feeds": {feed.id: _feed(feed) for feed in _of(base.feeds, circuit)},
        "parts": {part.id: _part(part) for part in _of(base.parts, circuit)},
        "questions": {question.id: _question(question) for question in _of(base.questions, circuit)},
        "findings": {f.id: {"name": f.name, "outcomes": list(f.outcomes)} for f in _of(base.findings, circuit)},
        "work_out": {work_out.id: _work_out(work_out) for work_out in _of(base.work_outs, circuit)},
        "rules": {
            rule.id: _filled(
                {
                    "if": condition_data(rule.when),
                    "then": conclusions_data(rule.then, base),
                    "because": rule.because,
                    "source": rule.source,
                    "rivals": list(rule.rivals),
                }
            )
            for rule in _of(base.rules, circuit)
        },
    }
    return yaml_text(_filled(data))


def quantity_text(quantity: Quantity) -> str:
    """The quantity in its base unit with every digit, so that reading it gives the same value.

    >>> quantity_text(Quantity(0.1, "gauge_pressure")), quantity_text(Quantity(1e-7, "number"))
    ('0.1 bar', '0.0000001')
    """
    if quantity.value == float("inf"):
        return "OL"
    return f"{_number(quantity.value)} {KINDS[quantity.kind].base}".strip()


def _number(value: float) -> str:
    return f"{Decimal(repr(value)).normalize():f}"


def _of(records: Mapping[str, Item], circuit: str) -> list[Item]:
    return [record for record in records.values() if record.circuit == circuit]


def _lists(mapping: Mapping[str, tuple[str, ...]]) -> Data:
    return {key: one_or_list(values) for key, values in mapping.items()}


def _filled(data: Mapping[str, Data]) -> dict[str, Data]:
    """Without the keys that say nothing."""
    return {key: value for key, value in data.items() if _holds(value)}


def _holds(data: Data) -> bool:
    return bool(data) and not (isinstance(data, dict) and not any(_holds(value) for value in data.values()))


def _plate_value(plate: model.PlateValue) -> Data:
    data: dict[str, Data] = {"name": plate.name, "measure": plate.kind, "unit": plate.unit}
    return data | _filled({"part_of": plate.part_of})


def _part(part: model.Part) -> Data:
    faults: dict[str, Data] = {fault.id.partition(".")[2]: _fault(fault) for fault in part.faults}
    head = {"name": part.name, "where": part.where, "applies": _lists(part.applies), "needs": list(part.needs)}
    return _filled(head) | {"faults": faults}


def _complaint(complaint: model.Complaint) -> Data:
    return _filled({"name": complaint.name, "words": list(complaint.words), "seen": _lists(complaint.seen)})


def _feed(feed: model.Feed) -> Data:
    data: dict[str, Data] = {"name": feed.name, "through": list(feed.through)}
    may: dict[str, Data] = {
        "lacking": _lists(feed.lacking),
        "arrives": "" if feed.arrives == NEVER else condition_data(feed.arrives),
        "explains": list(feed.explains),
    }
    return data | _filled(may)


def _fault(fault: model.Fault) -> Data:
    repair = fault.repair
    must: dict[str, Data] = {"name": fault.name, "seen": fault.seen, "explains": list(fault.explains)}
    may = _filled(
        {
            "shows": _lists(fault.shows),
            "cuts": list(fault.cuts),
            "result": "yes" if fault.result else "",
            "caused_by": list(fault.caused_by),
            "dangerous": "yes" if fault.dangerous else "",
        }
    )
    mend: dict[str, Data] = {"minutes": _number(repair.minutes), "steps": list(repair.steps)}
    with_what = _filled(
        {
            "parts": list(repair.parts),
            "consumables": list(repair.consumables),
            "cautions": list(repair.cautions),
            "bench": dict(repair.bench),
        }
    )
    return must | may | {"repair": mend | with_what, "prove": list(fault.prove)}


def _question(question: model.Question) -> Data:
    data = _filled(
        {
            "ask": question.ask,
            "answer": _answer(question),
            "readings": {} if question.measure is None else {r.name: _reading(r) for r in question.measure.readings},
            "sound": list(question.sound),
            "expect": question.expect,
            "how": question.how,
            "bench": dict(question.bench),
            "cautions": list(question.cautions),
            "only_if": "" if question.only_if == ALWAYS else condition_data(question.only_if),
            "applies": _lists(question.applies),
            "prepare": {} if question.prepare is None else _preparation(question.prepare),
            "second_test": list(question.second_tests),
        }
    )
    return data | {"minutes": _number(question.minutes)}


def _preparation(preparation: model.Preparation) -> Data:
    return {"bench": dict(preparation.bench), "steps": list(preparation.steps)}


def _answer(question: model.Question) -> Data:
    measure = question.measure
    if measure is None:
        return {"one_of": dict(question.labels)} if question.labels else "yes_no"
    data: dict[str, Data] = {"measure": measure.kind, "with": measure.instrument, "unit": measure.unit}
    if measure.believable is not None:
        low, high = measure.believable
        data["believable"] = f"{quantity_text(low)} to {quantity_text(high)}"
    return data


def _reading(reading: model.Reading) -> str:
    if reading.low is not None and reading.high is not None:
        return f"{reading.low.text} to {reading.high.text}"
    if reading.low is not None:
        return f"above {reading.low.text}"
    return "otherwise" if reading.high is None else f"below {reading.high.text}"


def _work_out(work_out: model.WorkOut) -> Data:
    data: dict[str, Data] = {
        "name": work_out.name,
        "gives": work_out.kind,
        "unit": work_out.unit,
        "formula": work_out.formula.text,
        "source": work_out.source,
    }
    if work_out.assume:
        data["assume"] = {
            question: value if isinstance(value, str) else quantity_text(value)
            for question, value in work_out.assume.items()
        }
    return data


def _instrument(instrument: Instrument) -> Data:
    ranges: list[Data] = [
        _filled(
            {
                "up_to": "" if span.up_to is None else quantity_text(span.up_to),
                "percent": _number(span.percent),
                "digits": _number(span.digits),
                "step": quantity_text(span.step),
            }
        )
        for span in instrument.ranges
    ]
    figures = {"class": instrument.class_percent, "percent": instrument.percent}
    quantities = {
        "full_scale": instrument.full_scale,
        "plus_minus": instrument.plus_minus,
        "leads": instrument.leads,
    }
    data: dict[str, Data] = {"name": instrument.name, "measures": instrument.measures, "ranges": ranges}
    data |= {key: _number(value) for key, value in figures.items() if value is not None}
    data |= {key: quantity_text(value) for key, value in quantities.items() if value is not None}
    return _filled(data) | ({} if instrument.owned else {"owned": "no"})


def _bench(bench: model.Bench) -> dict[str, Data]:
    if bench == NO_BENCH:
        return {}
    return {
        "states": _lists(bench.states),
        "arrives": {a.id: {"say": a.say, "state": dict(a.state)} for a in bench.arrives.values()},
        "safe": dict(bench.safe),
        "qualified_only": [dict(state) for state in bench.qualified_only],
        "passing_only": [dict(state) for state in bench.passing_only],
        "service": list(bench.service),
        **_after_opening(bench),
        "in_time": [{"while": dict(c.holds), "becomes": dict(c.becomes)} for c in bench.in_time],
        "moves": {move.id: _move(move) for move in bench.moves},
    }


def _after_opening(bench: model.Bench) -> dict[str, Data]:
    if not bench.after_opening:
        return {}
    return {"after_opening": {"when": dict(bench.opened), "prove": list(bench.after_opening)}}


def _move(move: model.Move) -> Data:
    must: dict[str, Data] = {"say": move.say, "makes": dict(move.makes), "minutes": _number(move.minutes)}
    must |= {"steps": list(move.steps), "confirm": move.confirm}
    may = _filled(
        {
            "needs": _lists(move.needs),
            "cautions": list(move.cautions),
            "first": list(move.first),
            "unless": "" if move.unless == NEVER else condition_data(move.unless),
        }
    )
    return must | may
