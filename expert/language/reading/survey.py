"""The quick pass over all files that gathers names, outcomes and kinds before any record is built."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from expert.language.keys import FILES, RESERVED, YES_NO, Shape, kinds
from expert.language.model import Position
from expert.language.problems import Problem
from expert.language.reading.names import Names
from expert.language.reading.reader import is_snake_case
from expert.language.sentences import reading as say
from expert.language.yaml.nodes import Items, Node, Pairs, Scalar, place
from expert.trade.quantities.units import KINDS


def spaces_of(shape: Shape) -> Iterator[str]:
    """The spaces that a record of this shape gives ids to. Where it cannot be read, they are incomplete."""
    for key in shape.keys:
        match key.kind:
            case kinds.Id(space, own=True):
                yield space
            case kinds.Named(space, holds) if space:
                yield space
                if isinstance(holds, Shape):
                    yield from spaces_of(holds)


# The keys under which the lists of a circuit stand: none of them is an id.
_LISTS = frozenset(key.name for key in FILES["circuit"].keys if isinstance(key.kind, kinds.Named))
# Questions, findings and worked-out values share one set of ids: conditions and formulas name them bare.
_BARE = ("question", "finding", "worked-out value")


class Survey:
    """Declares the names of one file after the other."""

    def __init__(self, names: Names, problems: list[Problem]) -> None:
        self.names, self.problems = names, problems
        self.path = ""

    def declare(self, sort: str, path: str, root: Node | None) -> None:
        """Gather the names of one file. A file that is no mapping leaves its spaces incomplete."""
        self.path = path
        shape = FILES[sort]
        if not _whole(root, shape):
            self.names.incomplete.update(spaces_of(shape))
        if type(root) is Pairs:
            self._declare(shape, root)

    def _declare(self, shape: Shape, root: Pairs) -> None:
        for key in shape.keys:
            value = root.entries.get(key.name)
            match key.kind:
                case kinds.Id(space, own=True) if value and type(value[1]) is Scalar and value[1].text:
                    self._id(space, value[1])
                case kinds.Named(space) if space:
                    self._named(space, self._entries(root, key.name))

    def _named(self, space: str, entries: list[tuple[Scalar, Node]]) -> None:
        note = self._notes().get(space)
        for key, value in entries:
            if key.text in _LISTS:
                message = say.list_inside_another(key.text)
                self.problems.append(Problem(place(self.path, key), message, "wrong-level"))
                self.names.incomplete.update(space for shape in FILES.values() for space in spaces_of(shape))
                continue
            if self._id(space, key) and note is not None:
                note(key.text, value)
            if space == "part":
                self._faults(key.text, value)

    def _notes(self) -> dict[str, Callable[[str, Node], None]]:
        """What is noted of the records of a space beside their ids: outcomes, kinds, states."""
        return {
            "feature": self._feature,
            "plate value": self._plate_value,
            "complaint": self._complaint,
            "bench dimension": self._dimension,
            "condition": self._condition,
            "list": self._list,
            "question": self._question,
            "finding": self._finding,
            "worked-out value": self._work_out,
        }

    def _id(self, space: str, key: Scalar, name: str | None = None) -> bool:
        """Note one id; report it if it is badly formed, reserved, or given before."""
        name = key.text if name is None else name
        at = place(self.path, key)
        if not is_snake_case(key.text):
            message = say.is_no_id(key.text[:60])
            self.problems.append(Problem(at, message, "not-snake-case"))
        elif key.text in RESERVED and space != "fault":
            self.problems.append(Problem(at, say.word_of_the_language(key.text), "reserved-name"))
        for other in _BARE if space in _BARE else (space,):
            first = self.names.places[other].get(name)
            if first is not None:
                message = say.defined_twice(other, name, first)
                self.problems.append(Problem(at, message, "duplicate-id"))
                self._blur(space, name, at)
                return False
        self.names.places[space][name] = at
        return True

    def _blur(self, space: str, name: str, at: Position) -> None:
        """An id given twice is known, but not what it stands for: mentions of it are let be."""
        self.names.places[space].setdefault(name, at)
        if space in _BARE:
            self.names.outcomes[name] = None
            self.names.kinds[name] = None
        if space == "feature":
            self.names.outcomes[f"machine.{name}"] = self.names.words[f"machine.{name}"] = None
        if space == "plate value":
            self.names.kinds[f"plate.{name}"] = None

    def _entries(self, root: Node | None, key: str) -> list[tuple[Scalar, Node]]:
        if type(root) is not Pairs or key not in root.entries:
            return []
        value = root.entries[key][1]
        return list(value.entries.values()) if type(value) is Pairs else []

    def _feature(self, name: str, value: Node) -> None:
        self.names.outcomes[f"machine.{name}"] = self.names.words[f"machine.{name}"] = _listed(_field(value, "values"))

    def _plate_value(self, name: str, value: Node) -> None:
        self.names.kinds[f"plate.{name}"] = _kind(_field(value, "measure"))

    def _complaint(self, name: str, value: Node) -> None:
        self.names.outcomes[f"complaint.{name}"] = YES_NO

    def _dimension(self, name: str, value: Node) -> None:
        self.names.states[name] = _listed(value) or ()

    def _finding(self, name: str, value: Node) -> None:
        self.names.outcomes[name] = _listed(_field(value, "outcomes"))

    def _condition(self, name: str, value: Node) -> None:
        self.names.conditions[name] = (self.path, value)

    def _list(self, name: str, value: Node) -> None:
        items = value.items if type(value) is Items else [value]
        self.names.lists[name] = [item for item in items if type(item) is Scalar]
        for item in self.names.lists[name]:
            item.path = self.path

    def _work_out(self, name: str, value: Node) -> None:
        self.names.kinds[name] = _kind(_field(value, "gives"))

    def _faults(self, part: str, value: Node) -> None:
        found = []
        if type(_field(value, "faults")) is not Pairs:
            self.names.incomplete.add("fault")
        for key, _ in self._entries(value, "faults"):
            name = f"{part}.{key.text}"
            if self._id("fault", key, name):
                found.append(key.text)
                self.names.outcomes[name] = ("present", "absent")
        self.names.faults_of[part] = self.names.faults_of.get(part, ()) + tuple(found)

    def _question(self, name: str, value: Node) -> None:
        answer = _field(value, "answer")
        outcomes: tuple[str, ...] | None = None
        if type(answer) is Scalar and answer.text == "yes_no":
            outcomes = YES_NO
        elif (choices := _field(answer, "one_of")) is not None:
            outcomes = tuple(choices.entries) if type(choices) is Pairs else None
        elif (measured := _field(answer, "measure")) is not None:
            readings = _field(value, "readings")
            outcomes = tuple(readings.entries) if type(readings) is Pairs else None
            self.names.kinds[name] = _kind(measured)
        else:
            self.names.kinds[name] = None  # Cannot be told: formulas that name it are let be.
        self.names.outcomes[name] = outcomes


def _whole(root: Node | None, shape: Shape) -> bool:
    """Whether a file's lists of records are all there to be seen, under keys that are known."""
    if type(root) is not Pairs or not all(key in shape.by_name for key in root.entries):
        return False
    named = [key.name for key in shape.keys if isinstance(key.kind, kinds.Named) and key.name in root.entries]
    listed = [root.entries[name][1] for name in named]
    return all(type(records) is Pairs and records.entries for records in listed) and all(
        key in root.entries for key in shape.required
    )


def _field(node: Node | None, key: str) -> Node | None:
    if type(node) is not Pairs or key not in node.entries:
        return None
    return node.entries[key][1]


def _listed(node: Node | None) -> tuple[str, ...] | None:
    """The texts of a list, each once; None if it is not a list of two texts or more."""
    if type(node) is not Items or not all(type(item) is Scalar and not item.unreadable for item in node.items):
        return None
    texts = tuple(dict.fromkeys(item.text for item in node.items if type(item) is Scalar))
    return texts if len(texts) > 1 else None


def _kind(node: Node | None) -> str | None:
    return node.text if type(node) is Scalar and node.text in KINDS else None
