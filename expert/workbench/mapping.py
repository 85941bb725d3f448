"""What `expert map` draws: the whole base by circuit, one circuit, one complaint, or the surroundings of one thing."""

from __future__ import annotations

from collections import Counter

from expert.language.model import Fault, Narrow, Rule, RuleBase
from expert.workbench.explaining import NoSuchId, entries_of
from expert.workbench.index import Index
from expert.workbench.picture import Node, Picture
from expert.workbench.sentences import showing as say
from expert.workbench.uses import limits_of

_WORDS = {"clear": "clears", "confirm": "confirms", "conclude": "concludes"}


def map_of(base: RuleBase, name: str | None) -> Picture:
    """The picture around a name, or of the whole base. Raises NoSuchId."""
    index = Index(base)
    if name is None:
        return _whole(index)
    if name in base.circuits:
        return _circuit(index, name)
    if name in base.complaints:
        return _complaint(index, name)
    if name in base.parts:
        return _faults(index, base.parts[name].faults, say.title_of_circuit(base.parts[name].name))
    if name in base.faults:
        fault = base.faults[name]
        return _faults(index, (fault,), say.title_of_fault(base.parts[fault.part].name, fault.name))
    if name in base.questions or name in base.findings:
        return _fact(index, name)
    if name in base.rules:
        picture = Picture(f"The rule {name}")
        _rule(index, picture, base.rules[name])
        return picture
    known = sorted(entry.id for entry in entries_of(base))
    what = say.IS_NOTHING_TO_DRAW
    raise NoSuchId(f"'{name[:60]}' {what}" + ("" if name in known else say.HOW_TO_FIND_AN_ID))


def _whole(index: Index) -> Picture:
    """Complaints on the left, circuits with their parts on the right; an arrow says how many of their faults."""
    base = index.base
    picture = Picture(say.TITLE_OF_CIRCUITS)
    for complaint in base.complaints.values():
        picture.put(Node(complaint.id, complaint.name, "complaint"))
    for circuit in base.circuits.values():
        parts = [part for part in base.parts.values() if part.circuit == circuit.id]
        if not parts:
            continue
        listed = "\n".join(f"{part.name} ({len(part.faults)})" for part in parts)
        picture.put(Node(circuit.id, f"{circuit.title.upper()}\n{listed}", "part"))
        explained = Counter(name for part in parts for fault in part.faults for name in fault.explains)
        for name, number in explained.items():
            picture.arrow(name, circuit.id, str(number))
    return picture


def _circuit(index: Index, name: str) -> Picture:
    """The circuit's parts with their faults, and the complaints that each explains; without parts, its questions."""
    base = index.base
    if not any(part.circuit == name for part in base.parts.values()):
        return _questions(index, name)
    picture = Picture(say.title_of_machine(base.circuits[name].title))
    for part in base.parts.values():
        if part.circuit == name:
            picture.groups[part.id] = part.name
            for fault in part.faults:
                _put_fault(index, picture, fault, part.id)
                _explains(index, picture, fault)
    return picture


def _questions(index: Index, name: str) -> Picture:
    """The questions of a circuit that has no part of its own, or where it has none either, its rules."""
    base = index.base
    picture = Picture(f"{base.circuits[name].title}: its questions")
    for question in base.questions.values():
        if question.circuit == name:
            picture.put(Node(question.id, question.ask, "question"))
    if not picture.nodes:
        picture = Picture(f"{base.circuits[name].title}: its rules")
        for rule in base.rules.values():
            if rule.circuit == name:
                _rule(index, picture, rule)
    return picture


def _complaint(index: Index, name: str) -> Picture:
    base = index.base
    picture = Picture(say.title_of_complaint(base.complaints[name].name))
    for fault in base.faults.values():
        if name in fault.explains:
            part = base.parts[fault.part]
            picture.groups[part.circuit] = base.circuits[part.circuit].title
            picture.put(Node(name, base.complaints[name].name, "complaint"))
            picture.arrow(name, _put_fault(index, picture, fault, part.circuit, of_part=True))
    return picture


def _faults(index: Index, faults: tuple[Fault, ...], title: str) -> Picture:
    """Complaint, fault, and the rules that confirm or clear it with the questions behind them."""
    picture = Picture(title)
    for fault in faults:
        _put_fault(index, picture, fault)
        _explains(index, picture, fault)
        for rule in (*index.confirming.get(fault.id, ()), *index.clearing.get(fault.id, ())):
            _rule(index, picture, rule, only=frozenset(f.id for f in faults))
        for name in fault.prove:
            picture.arrow(fault.id, _put_fact(index, picture, name), "proved by")
    return picture


def _fact(index: Index, name: str) -> Picture:
    """A question or finding: the rules that use it, and what it waits for."""
    base = index.base
    picture = Picture(say.title_of_question(name))
    _put_fact(index, picture, name)
    for rule in base.rules.values():
        tested = any(use.sort == "rule" and use.id == rule.id for use in index.uses.get(name, ()))
        if tested:
            _rule(index, picture, rule)
    if name in base.questions:
        for needed in limits_of(base.questions[name]):
            if needed in base.questions:
                picture.arrow(_put_fact(index, picture, needed), name, "moves its limits")
    return picture


def _rule(index: Index, picture: Picture, rule: Rule, only: frozenset[str] = frozenset()) -> None:
    """A rule with what it rests on and what it narrows (`only`: of all faults these)."""
    picture.put(Node(rule.id, rule.id.replace("_", " "), "rule"))
    for test in _tests(index, rule):
        picture.arrow(_put_fact(index, picture, test[0]), rule.id, test[1])
    for said in rule.then:
        if isinstance(said, Narrow) and (not only or said.fact in only or said.fact in index.base.findings):
            fault = index.base.faults.get(said.fact)
            end = _put_fault(index, picture, fault, of_part=True) if fault else _put_fact(index, picture, said.fact)
            label = _WORDS[said.word] + (f" {'/'.join(said.outcomes)}" if said.word == "conclude" else "")
            picture.arrow(rule.id, end, label)


def _tests(index: Index, rule: Rule) -> list[tuple[str, str]]:
    return [
        (fact, "/".join(test.outcomes))
        for fact, tests in index.tests_of(rule.when).items()
        if not fact.startswith("machine.")
        for test in tests
    ]


def _explains(index: Index, picture: Picture, fault: Fault) -> None:
    for name in fault.explains:
        picture.put(Node(name, index.base.complaints[name].name, "complaint"))
        picture.arrow(name, fault.id)


def _put_fault(index: Index, picture: Picture, fault: Fault, group: str = "", of_part: bool = False) -> str:
    name = f"{index.base.parts[fault.part].name}: {fault.name}" if of_part or not group else fault.name
    return picture.put(Node(fault.id, name.partition(": it ")[0], "fault", group))


def _put_fact(index: Index, picture: Picture, name: str) -> str:
    base = index.base
    if name in base.questions:
        return picture.put(Node(name, base.questions[name].ask, "question"))
    if name in base.findings:
        return picture.put(Node(name, base.findings[name].name, "finding"))
    if name in base.faults:
        return _put_fault(index, picture, base.faults[name], of_part=True)
    complaint = base.complaints.get(name.removeprefix("complaint."))
    return picture.put(Node(name, complaint.name if complaint else name, "complaint"))
