"""JSON Schemas for every sort of rule file, made from the key table and the names of one rule base.

They are for an editor: completion from the base's own ids, the sentence of the key table on hover, and a line under
whatever is misspelt. What they let pass `expert check` still judges: a schema knows no formulas and no machine.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, assert_never

from expert.language.keys import ANSWERS_FILE, CASES_FILE, FILES, Key, Shape, kinds
from expert.language.keys.manual import in_words, kinds_of_record
from expert.language.reading.names import Names
from expert.language.sentences import reading as say
from expert.trade.quantities.units import KINDS

DIALECT = "http://json-schema.org/draft-07/schema#"  # what editors understand best
Schema = dict[str, Any]

_TEXT: Schema = {"type": ["string", "number", "boolean"]}
_ID: Schema = {"type": "string", "pattern": "^[a-z][a-z0-9]*(_[a-z0-9]+)*$"}
_PATH: Schema = {"type": "string", "pattern": r"(/|\.ya?ml$)"}


def file_schemas(names: Names) -> dict[str, Schema]:
    """By sort of file (features ... circuit, cases, answers), its schema with these names."""
    files = {**FILES, "cases": CASES_FILE, "answers": ANSWERS_FILE}
    definitions = _Definitions(names).all()
    return {
        sort.replace(" ", "_"): {
            "$schema": DIALECT,
            "title": shape.what,
            "$ref": f"#/definitions/{_name(shape)}",
            "definitions": {name: definitions[name] for name in _needed(_name(shape), definitions)},
        }
        for sort, shape in files.items()
    }


def _needed(start: str, definitions: Mapping[str, Schema]) -> list[str]:
    """The definitions that one leads to, itself first."""
    found = [start]
    for name in found:
        found += [other for other in _referred(definitions[name]) if other not in found]
    return list(dict.fromkeys(found))


def _referred(schema: object) -> Iterator[str]:
    if isinstance(schema, dict):
        for key, value in schema.items():
            if key == "$ref" and isinstance(value, str):
                yield value.rpartition("/")[2]
            else:
                yield from _referred(value)
    elif isinstance(schema, list):
        for item in schema:
            yield from _referred(item)


def globs() -> Mapping[str, tuple[str, ...]]:
    """By sort of file, which files of a rule base are of that sort, for an editor's settings."""
    found = {sort: (f"{sort}.yaml",) for sort in FILES if sort not in ("machine", "circuit", "circuit part")}
    return found | {
        "machine": ("machines/*.yaml",),
        "circuit": ("circuits/*.yaml", "circuits/*/circuit.yaml"),
        "circuit_part": ("circuits/*/!(circuit).yaml",),
        "cases": ("cases/*.yaml",),
    }


def _name(shape: Shape) -> str:
    return shape.what.replace(" ", "_").replace("'", "")


class _Definitions:
    """The schema of each record, each set of ids once."""

    def __init__(self, names: Names) -> None:
        self.names = names
        self.found: dict[str, Schema] = {}

    def all(self) -> dict[str, Schema]:
        self.found["condition"] = self._condition()
        for shape in (*kinds_of_record(), *FILES.values(), CASES_FILE, ANSWERS_FILE):
            self.found.setdefault(_name(shape), self._record(shape))
        return self.found

    def _record(self, shape: Shape) -> Schema:
        return {
            "type": "object",
            "title": shape.what,
            "properties": {key.name: self._described(key) for key in shape.keys},
            "required": list(shape.required),
            "additionalProperties": False,
        }

    def _described(self, key: Key) -> Schema:
        return {"description": f"{key.says} ({in_words(key.kind)})", "allOf": [self._of(key.kind)]}

    def _of(self, kind: kinds.Kind) -> Schema:
        match kind:
            case kinds.Text():
                return _TEXT
            case kinds.Texts() | kinds.Outcome():
                return self._listed(_TEXT)
            case kinds.Number():
                return {"type": "number", "minimum": 0}
            case kinds.YesNo():
                return {"enum": ["yes", "no"]}
            case kinds.Word(words):
                return {"enum": list(words)}
            case kinds.Id(space, own):
                return _ID if own else {"anyOf": [self._ids(space), _PATH]} if space == "machine" else self._ids(space)
            case kinds.Ids(space, also):
                return self._listed(self._ids(space, *also))
            case kinds.IdsOf(of, spaces):
                return _map(dict.fromkeys(self.names.places[of], self._listed(self._ids(*spaces))))
            case kinds.State(any_of):
                return self._state(any_of)
            case kinds.States():
                return {"type": "array", "items": self._state(False)}
            case kinds.Holds():
                return {"$ref": "#/definitions/condition"}
            case kinds.Machines():
                features = [name for name in self.names.outcomes if name.startswith("machine.")]
                return self._once("machines", lambda: self._facts(features))
            case kinds.Outcomes(of, also):
                if not of:
                    return self._listed(_TEXT)
                facts = [name for space in (of, *also) for name in self.names.places[space]]
                return self._once(f"answers_of_{'_'.join((of, *also))}", lambda: self._facts(facts))
            case kinds.Labels():
                return {"type": "object", "propertyNames": _ID, "additionalProperties": _TEXT, "minProperties": 2}
            case kinds.Weights(words):
                word: Schema = {"enum": list(words)}
                return self._once("weights", lambda: _map(dict.fromkeys(self.names.places["fault"], word)))
            case _:
                return self._of_record(kind)

    def _of_record(self, kind: kinds.ByRecord) -> Schema:
        match kind:
            case kinds.QuantityKind():
                return {"enum": sorted(KINDS)}
            case kinds.Unit() | kinds.Amount() | kinds.Formula():
                return {"type": ["string", "number"]}
            case kinds.Assumed():
                return _map(dict.fromkeys((name for name in self.names.kinds if "." not in name), _TEXT))
            case kinds.Values(of, ("outcome",)):
                return _map({name: self._typed(name) for name in self.names.places[of[0]]})
            case kinds.Values(of, each):
                return (
                    _map({name: self._values(each) for name in self.names.places[of[0]]}) if each else self._values(of)
                )
            case kinds.One(shapes, or_word):
                choices: list[Schema] = [{"$ref": f"#/definitions/{_name(shape)}"} for shape in shapes]
                return _any([*([{"const": or_word}] if or_word else []), *choices])
            case kinds.Listed(shape):
                return {"type": "array", "items": {"$ref": f"#/definitions/{_name(shape)}"}}
            case kinds.Named(_, holds, briefly):
                held = {"$ref": f"#/definitions/{_name(holds)}"} if isinstance(holds, Shape) else self._of(holds)
                inner = _any([self._of(briefly), held]) if briefly else held
                return {"type": "object", "propertyNames": _ID, "additionalProperties": inner}
            case _:
                assert_never(kind)

    def _ids(self, *spaces: str) -> Schema:
        """The ids of some spaces; kept once and referred to."""
        name = "_or_".join(spaces).replace(" ", "_") + "_ids"
        self.found.setdefault(name, {"enum": [i for space in spaces for i in self.names.places[space]] or [""]})
        return {"$ref": f"#/definitions/{name}"}

    def _once(self, name: str, make: Callable[[], Schema]) -> Schema:
        """A definition that is kept once and referred to."""
        if name not in self.found:
            self.found[name] = make()
        return {"$ref": f"#/definitions/{name}"}

    def _listed(self, item: Schema) -> Schema:
        """One, several in a list, or a named list."""
        if "named_list" not in self.found:
            self.found["named_list"] = {"type": "object", "properties": {}, "required": ["list"]}
            self.found["named_list"] |= {"additionalProperties": False, "properties": {"list": self._ids("list")}}
        named = {"$ref": "#/definitions/named_list"}
        return {"anyOf": [item, {"type": "array", "items": {"anyOf": [item, named]}}, named]}

    def _state(self, any_of: bool) -> Schema:
        one = {dimension: {"enum": list(states)} for dimension, states in self.names.states.items()}
        return _map({dimension: self._listed(state) for dimension, state in one.items()} if any_of else one)

    def _facts(self, facts: Iterable[str]) -> Schema:
        return _map({fact: self._outcomes(fact) for fact in facts})

    def _outcomes(self, fact: str) -> Schema:
        known = self.names.outcomes.get(fact)
        if not known:
            return self._listed(_TEXT)
        return self._once(f"one_of_{'_'.join(known)}", lambda: self._listed({"enum": list(known)}))

    def _typed(self, question: str) -> Schema:
        """What is typed for each outcome of a question."""
        known = self.names.outcomes.get(question) or ()
        return self._once(f"typed_for_{'_'.join(known)}", lambda: _map({name: self._listed(_TEXT) for name in known}))

    def _values(self, spaces: tuple[str, ...]) -> Schema:
        found: dict[str, Schema] = {}
        for space in spaces:
            for name in self.names.places[space]:
                known = self.names.outcomes.get(f"machine.{name}") if space == "feature" else None
                found[name] = {"enum": list(known)} if known else _TEXT
        return _map(found)

    def _condition(self) -> Schema:
        inner: Schema = {"$ref": "#/definitions/condition"}
        several: Schema = {"type": "array", "items": inner, "minItems": 1}
        named = self._listed(self._ids("condition"))
        schema = self._facts(self.names.outcomes)
        schema["properties"] |= {
            "any": {"description": say.ANY_OF, **several},
            "all": {"description": say.ALL_OF, **several},
            "not": {"description": say.NOT_SO, "allOf": [inner]},
            "holds": {"description": say.NAMED_CONDITIONS, "allOf": [named]},
        }
        return schema | {"description": say.CONDITION_AS_MAPPING}


def _map(properties: Mapping[str, Schema]) -> Schema:
    return {"type": "object", "properties": dict(properties), "additionalProperties": False}


def _any(schemas: list[Schema]) -> Schema:
    return schemas[0] if len(schemas) == 1 else {"anyOf": schemas}
