"""What a record of the rules says, in a few lines: for `expert explain`."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from expert.language.model import Evidence, Narrow, Normal, Say, Suspect
from expert.trade.counting import counted
from expert.workbench.checks.machines import way_to
from expert.workbench.index import Index
from expert.workbench.sentences import showing as say
from expert.workbench.ways import answers_of


def told_of(index: Index, sort: str, name: str) -> Iterator[str]:
    """The lines about a record of this sort."""
    return _TOLD[sort](index, name)


def _machine(index: Index, name: str) -> Iterator[str]:
    machine = index.base.machines[name]
    yield machine.title
    yield "features: " + ", ".join(f"{feature} {value}" for feature, value in machine.features.items())
    parts = [part.id for part in index.base.parts.values() if index.on(machine, part.applies)]
    yield f"parts: {', '.join(parts)}"
    elsewhere = [q.id for q in index.base.questions.values() if not index.on(machine, q.applies)]
    yield say.questions_never_put(", ".join(elsewhere) or "none")
    idle = [rule for rule, ways in index.ways.items() if not index.ways_on(machine, ways)]
    yield say.rules_never_fire(", ".join(idle) or "none")


def _complaint(index: Index, name: str) -> Iterator[str]:
    complaint = index.base.complaints[name]
    yield complaint.name
    if complaint.words:
        yield f"also: {', '.join(complaint.words)}"
    yield "explained by: " + (", ".join(f.id for f in index.base.faults.values() if name in f.explains) or "nothing")


def _circuit(index: Index, name: str) -> Iterator[str]:
    base = index.base
    yield base.circuits[name].title
    yield f"applies: {_applies(base.circuits[name].applies)}"
    yield f"parts: {', '.join(p.id for p in base.parts.values() if p.circuit == name)}"
    yield f"questions: {', '.join(q.id for q in base.questions.values() if q.circuit == name)}"


def _part(index: Index, name: str) -> Iterator[str]:
    part = index.base.parts[name]
    yield part.name + (f" ({part.where})" if part.where else "")
    yield f"applies: {_applies(part.applies)}"
    if part.needs:
        yield f"needs: {', '.join(part.needs)}"
    yield f"faults: {', '.join(fault.id for fault in part.faults)}"


def _fault(index: Index, name: str) -> Iterator[str]:
    fault = index.base.faults[name]
    yield f"{index.base.parts[fault.part].name}: {fault.name} ({fault.seen}{', dangerous' if fault.dangerous else ''})"
    yield f"explains: {', '.join(fault.explains) or 'nothing'}"
    yield f"shows: {answers_of({q: frozenset(o) for q, o in fault.shows.items()}) or 'nothing'}"
    if fault.caused_by:
        yield f"caused by: {', '.join(fault.caused_by)}"
    yield say.repair(fault.repair.minutes, counted(len(fault.repair.steps), "step"))
    yield f"proved by: {', '.join(fault.prove) or 'nothing'}"
    for machine in index.base.machines.values():
        way = way_to(index, machine, name)
        if way is not None:
            answers = {fact: outcomes for fact, outcomes in way.items() if not fact.startswith("machine.")}
            yield say.shortest_way(machine.id, answers_of(answers))


def _question(index: Index, name: str) -> Iterator[str]:
    question = index.base.questions[name]
    yield question.ask
    yield say.outcomes(", ".join(question.outcomes), ", ".join(question.sound) or say.NONE_IS_SOUND)
    if question.readings:
        readings = (f"{r.name} {_limits(r.low, r.high)}" for r in question.readings)
        yield say.measured_with(question.instrument, "; ".join(readings))
    if question.source:
        yield f"source: {question.source}"
    yield say.bench_and_minutes(", ".join((f"{d} {s}" for d, s in question.bench.items())) or "any", question.minutes)
    yield f"applies: {_applies(question.applies)}"
    shown = [f"{f.id} {'/'.join(f.shows[name])}" for f in index.base.faults.values() if name in f.shows]
    if shown:
        yield f"shown by: {', '.join(shown)}"


def _limits(low: object, high: object) -> str:
    ends = [str(getattr(end, "text", "")) for end in (low, high)]
    if low is not None and high is not None:
        return f"{ends[0]} to {ends[1]}"
    return (
        "otherwise" if low is None and high is None else f"above {ends[0]}" if low is not None else f"below {ends[1]}"
    )


def _rule(index: Index, name: str) -> Iterator[str]:
    rule = index.base.rules[name]
    ways = index.ways[name]
    for way in ways[:6]:
        yield f"if {answers_of(way)}"
    if len(ways) > 6:
        yield say.in_more_ways(len(ways) - 6)
    for said in rule.then:
        match said:
            case Narrow(fact, outcomes, word):
                yield f"then {word} {fact}" + (f": {'/'.join(outcomes)}" if word == "conclude" else "")
            case Suspect(faults, in_order):
                yield f"then {say.CHECK_IN_THIS_ORDER if in_order else 'suspect'}: {', '.join(faults)}"
            case Evidence(fault, decibans):
                yield say.then_weighs("points to" if decibans > 0 else "points away from", fault, abs(decibans))
            case Normal(complaints):
                yield f"then normal: {', '.join(complaints)}"
            case Say(word, text):
                yield f"then {word}: {text}"
    yield f"because: {rule.because}"
    if rule.rivals:
        yield f"rivals: {', '.join(rule.rivals)}"
    if rule.source:
        yield f"source: {rule.source}"


def _finding(index: Index, name: str) -> Iterator[str]:
    finding = index.base.findings[name]
    yield f"{finding.name}: {', '.join(finding.outcomes)}"
    for rule in index.base.rules.values():
        for said in rule.then:
            if isinstance(said, Narrow) and said.fact == name:
                yield say.concluded_by("/".join(said.outcomes), rule.id)


def _work_out(index: Index, name: str) -> Iterator[str]:
    record = index.base.work_outs[name]
    yield record.name
    yield say.formula_in_unit(record.kind, record.unit or "no unit", record.formula.text)
    yield f"source: {record.source}"


def _plain(index: Index, name: str) -> Iterator[str]:
    base = index.base
    for records in (base.cautions, base.feeds, base.hazards, base.features, base.plate_values, base.instruments):
        record = records.get(name) if isinstance(records, Mapping) else None
        if record is not None:
            yield str(getattr(record, "text", None) or getattr(record, "name", ""))
            return
    if name in base.lists:
        yield ", ".join(base.lists[name].entries)
    elif name in base.conditions:
        for way in index.ways_of(base.conditions[name].when):
            yield f"holds where {answers_of(way)}"
    else:
        yield next((move.say for move in base.bench.moves if move.id == name), "")


def _applies(applies: Mapping[str, tuple[str, ...]]) -> str:
    named = (f"{feature.removeprefix('machine.')} {'/'.join(values)}" for feature, values in applies.items())
    return ", ".join(named) or "on every machine"


_TOLD: Mapping[str, Callable[[Index, str], Iterator[str]]] = {
    "machine": _machine,
    "complaint": _complaint,
    "circuit": _circuit,
    "part": _part,
    "fault": _fault,
    "question": _question,
    "finding": _finding,
    "worked-out value": _work_out,
    "rule": _rule,
    **dict.fromkeys(
        ("condition", "list", "feed", "hazard", "caution", "feature", "rating", "instrument", "move"), _plain
    ),
}
