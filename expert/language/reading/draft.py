"""The rule base while it is being read, and the records' own nodes, so that later checks can point at a field."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from expert.language import model
from expert.language.feeding import part_with_consequences, with_consequences
from expert.language.model import NOWHERE, Position
from expert.language.problems import Problem
from expert.language.reading.names import Names
from expert.language.reading.reader import Reader
from expert.language.sentences import reading as say
from expert.language.unfolding import unfolded
from expert.language.yaml.nodes import Node, Pairs, Scalar, place
from expert.trade.sensors.instruments import Instrument

NO_BENCH = model.Bench(MappingProxyType({}), MappingProxyType({}), MappingProxyType({}), (), ())


@dataclass(slots=True)
class Draft:
    """Every record read so far. `nodes`: (space, id) -> path and node of the record."""

    names: Names
    circuits: dict[str, model.Circuit] = field(default_factory=dict)
    parts: dict[str, model.Part] = field(default_factory=dict)
    faults: dict[str, model.Fault] = field(default_factory=dict)
    questions: dict[str, model.Question] = field(default_factory=dict)
    findings: dict[str, model.Finding] = field(default_factory=dict)
    feeds: dict[str, model.Feed] = field(default_factory=dict)
    work_outs: dict[str, model.WorkOut] = field(default_factory=dict)
    rules: dict[str, model.Rule] = field(default_factory=dict)
    complaints: dict[str, model.Complaint] = field(default_factory=dict)
    same_words: dict[str, tuple[str, ...]] = field(default_factory=dict)
    cautions: dict[str, model.Caution] = field(default_factory=dict)
    features: dict[str, model.Feature] = field(default_factory=dict)
    plate_values: dict[str, model.PlateValue] = field(default_factory=dict)
    machines: dict[str, model.Machine] = field(default_factory=dict)
    instruments: dict[str, Instrument] = field(default_factory=dict)
    conditions: dict[str, model.NamedCondition] = field(default_factory=dict)
    lists: dict[str, model.NamedList] = field(default_factory=dict)
    circuit_of: dict[str, model.Circuit] = field(default_factory=dict)  # folder -> the circuit whose files it holds
    bench: model.Bench = NO_BENCH
    acts: dict[str, model.Act] = field(default_factory=dict)
    hazards: dict[str, model.Hazard] = field(default_factory=dict)
    nodes: dict[tuple[str, str], tuple[str, Node]] = field(default_factory=dict)

    def own(self, reader: Reader, space: str, root: Node | None) -> Iterator[tuple[str, Scalar, Node]]:
        """The records of a mapping, but for those whose id was given before (already reported)."""
        for name, key, value in entries(reader, root, say.list_of_all(space)):
            if self.names.places[space].get(name) == reader.at(key):
                self.nodes[space, name] = (reader.path, value)
                yield name, key, value

    def place(self, space: str, name: str, *within: str) -> Position:
        """Where a record's field stands: by key, then by key or text within it; the last that is there."""
        path, node = self.nodes.get((space, name), ("", None))
        if node is None:
            return NOWHERE
        for wanted in within:
            inner = _inside(node, wanted) if wanted else None
            node = inner if inner is not None else node
        return place(path, node)

    def _uses(self, space: str, name: str) -> tuple[Position, ...]:
        return tuple(sorted(set(self.names.mentions[space, name])))

    def finished(self, digest: str, problems: list[Problem]) -> model.RuleBase:
        """The rule base as it is handed out: nothing in it can be changed. Adds what shows only now."""
        fixed = MappingProxyType
        named = {name: replace(it, used_at=self._uses("condition", name)) for name, it in self.conditions.items()}
        lists = {name: replace(it, used_at=self._uses("list", name)) for name, it in self.lists.items()}
        whole = model.RuleBase(
            circuits=fixed(self.circuits),
            parts=fixed(self.parts),
            faults=fixed(self.faults),
            questions=fixed(self.questions),
            findings=fixed(self.findings),
            feeds=fixed(self.feeds),
            work_outs=fixed(self.work_outs),
            rules=fixed(self.rules),
            complaints=fixed(self.complaints),
            cautions=fixed(self.cautions),
            features=fixed(self.features),
            plate_values=fixed(self.plate_values),
            machines=fixed(self.machines),
            instruments=fixed(self.instruments),
            bench=self.bench,
            digest=digest,
            acts=fixed(self.acts),
            hazards=fixed(self.hazards),
            same_words=tuple(self.same_words.values()),
            conditions=fixed(named),
            lists=fixed(lists),
        )
        whole = unfolded(whole, self.place, problems)
        faults = {name: with_consequences(fault, self.feeds) for name, fault in whole.faults.items()}
        parts = {name: part_with_consequences(part, faults) for name, part in self.parts.items()}
        return replace(whole, faults=fixed(faults), parts=fixed(parts))


def entries(reader: Reader, root: Node | None, what: str) -> Iterator[tuple[str, Scalar, Node]]:
    """The entries of a mapping of records; none if it is not there."""
    if root is None:
        return
    for name, (key, value) in reader.pairs(root, what).items():
        yield name, key, value


def _inside(node: Node, wanted: str) -> Node | None:
    """The value under a key, or the list item with that text."""
    if type(node) is Pairs:
        entry = node.entries.get(wanted)
        return entry[1] if entry else None
    items: list[Node] = getattr(node, "items", [])
    return next((item for item in items if type(item) is Scalar and item.text == wanted), None)


Merged = Mapping[str, tuple[str, ...]]


def merged(outer: Merged, inner: Merged) -> Merged:
    """Both must hold: per feature the values that both allow, in the inner one's order."""
    both = dict(outer)
    for feature, values in inner.items():
        allowed = outer.get(feature)
        both[feature] = values if allowed is None else tuple(value for value in values if value in allowed)
    return MappingProxyType(both)
