"""The quick pass over all files that gathers names, outcomes and kinds before any record is built."""

from __future__ import annotations

from expert.language.model import Position
from expert.language.problems import Problem
from expert.language.reading import shapes
from expert.language.reading.names import Names
from expert.language.reading.reader import is_snake_case
from expert.language.reading.shapes import RESERVED, YES_NO
from expert.language.yaml.nodes import Items, Node, Pairs, Scalar, place
from expert.trade.quantities.units import KINDS

# What each sort of file gives names to: these spaces are incomplete if such a file cannot be read.
SPACES_OF = {
    "features": ("feature", "plate value"),
    "complaints": ("complaint",),
    "cautions": ("caution",),
    "instruments": ("instrument",),
    "bench": ("bench dimension", "arrival", "move"),
    "machine": ("machine",),
    "circuit": ("circuit", "feed", "part", "fault", "question", "finding", "worked-out value", "rule"),
}
_SHAPES = {
    "features": shapes.FEATURES_FILE,
    "complaints": shapes.COMPLAINTS_FILE,
    "cautions": shapes.CAUTIONS_FILE,
    "instruments": shapes.INSTRUMENTS_FILE,
    "bench": shapes.BENCH_FILE,
    "machine": shapes.MACHINE_FILE,
    "circuit": shapes.CIRCUIT_FILE,
}
# The keys under which the records of a file stand.
_LISTS = frozenset(
    (
        *("features", "plate", "complaints", "cautions", "instruments", "states", "arrives", "moves"),
        *("feeds", "parts", "questions", "findings", "work_out", "rules"),
    )
)
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
        if not _whole(root, sort):
            self.names.incomplete.update(SPACES_OF[sort])
        if type(root) is not Pairs:
            return
        getattr(self, f"_{sort}")(root)

    def _id(self, space: str, key: Scalar, name: str | None = None) -> bool:
        """Note one id; report it if it is badly formed, reserved, or given before."""
        name = key.text if name is None else name
        at = place(self.path, key)
        if not is_snake_case(key.text):
            message = f"'{key.text[:60]}' is no id; small letters, digits and single underscores, as in fill_coil"
            self.problems.append(Problem(at, message, "not-snake-case"))
        elif key.text in RESERVED and space != "fault":
            self.problems.append(
                Problem(at, f"'{key.text}' is a word of the language; choose another id", "reserved-name")
            )
        for other in _BARE if space in _BARE else (space,):
            first = self.names.places[other].get(name)
            if first is not None:
                message = f"there is already a {other} '{name}', at {first}"
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

    def _features(self, root: Pairs) -> None:
        for key, value in self._entries(root, "features"):
            if self._id("feature", key):
                values = _listed(_field(value, "values"))
                self.names.outcomes[f"machine.{key.text}"] = self.names.words[f"machine.{key.text}"] = values
        for key, value in self._entries(root, "plate"):
            if self._id("plate value", key):
                self.names.kinds[f"plate.{key.text}"] = _kind(_field(value, "measure"))

    def _complaints(self, root: Pairs) -> None:
        for key, _ in self._entries(root, "complaints"):
            if self._id("complaint", key):
                self.names.outcomes[f"complaint.{key.text}"] = YES_NO

    def _cautions(self, root: Pairs) -> None:
        for key, _ in self._entries(root, "cautions"):
            self._id("caution", key)

    def _instruments(self, root: Pairs) -> None:
        for key, _ in self._entries(root, "instruments"):
            self._id("instrument", key)

    def _bench(self, root: Pairs) -> None:
        for key, value in self._entries(root, "states"):
            if self._id("bench dimension", key):
                self.names.states[key.text] = _listed(value) or ()
        for key, _ in self._entries(root, "arrives"):
            self._id("arrival", key)
        for key, _ in self._entries(root, "moves"):
            self._id("move", key)

    def _machine(self, root: Pairs) -> None:
        self._own_id("machine", root)

    def _circuit(self, root: Pairs) -> None:
        self._own_id("circuit", root)
        for key, _ in self._entries(root, "feeds"):
            self._id("feed", key)
        for key, value in self._entries(root, "parts"):
            self._id("part", key)
            self._faults(key.text, value)
        for key, value in self._entries(root, "questions"):
            if self._id("question", key):
                self._question(key.text, value)
        for key, value in self._entries(root, "findings"):
            if self._id("finding", key):
                self.names.outcomes[key.text] = _listed(_field(value, "outcomes"))
        for key, value in self._entries(root, "work_out"):
            if self._id("worked-out value", key):
                self.names.kinds[key.text] = _kind(_field(value, "gives"))
        for key, _ in self._entries(root, "rules"):
            self._id("rule", key)

    def _own_id(self, space: str, root: Pairs) -> None:
        """The id that a file gives itself in its first line."""
        value = _field(root, space)
        if type(value) is Scalar and value.text:
            self._id(space, value)

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


def _whole(root: Node | None, sort: str) -> bool:
    """Whether a file's lists of records are all there to be seen, under keys that are known."""
    shape = _SHAPES[sort]
    if type(root) is not Pairs or not all(key in shape.keys for key in root.entries):
        return False
    lists = [root.entries[key][1] for key in shape.keys if key in _LISTS and key in root.entries]
    return all(type(listed) is Pairs and listed.entries for listed in lists) and all(
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
