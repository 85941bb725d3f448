"""The keys as tables for the manual, and what stands under each in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from expert.language.keys import ANSWERS_FILE, CASES_FILE, FILES, kinds
from expert.language.keys.kinds import Kind, Shape
from expert.trade.quantities.quantity import article


def key_tables() -> str:
    """Every record with its keys, as Markdown tables."""
    return "\n".join("\n".join(_table(shape)) for shape in kinds_of_record())


def kinds_of_record() -> tuple[Shape, ...]:
    """Every shape once, in the manual's order: each file, and under it the records that it holds."""
    found: dict[Shape, None] = {}
    for file in (FILES["circuit"], *(shape for sort, shape in FILES.items() if not sort.startswith("circuit"))):
        found |= dict.fromkeys(_within(file))
    for file in (CASES_FILE, ANSWERS_FILE):
        found |= dict.fromkeys(_within(file))
    return tuple(found)


def _within(shape: Shape) -> Iterator[Shape]:
    yield shape
    for key in shape.keys:
        match key.kind:
            case kinds.One(shapes):
                for inner in shapes:
                    yield from _within(inner)
            case kinds.Listed(inner) | kinds.Named(_, Shape() as inner):
                yield from _within(inner)


def _table(shape: Shape) -> Iterator[str]:
    yield f"**{shape.what[0].upper()}{shape.what[1:]}**"
    yield ""
    yield "| key | what stands there | what it means |"
    yield "|---|---|---|"
    for key in sorted(shape.keys, key=lambda key: not key.required):
        optional = "" if key.required else " *(optional)*"
        yield f"| `{key.name}`{optional} | {in_words(key.kind)} | {key.says} |"
    yield ""


def in_words(kind: Kind) -> str:
    """What stands under a key, for an author."""
    match kind:
        case kinds.Text():
            return "a text"
        case kinds.Texts():
            return "a text, or a list of them"
        case kinds.Number():
            return "a number"
        case kinds.YesNo():
            return "`yes` or `no`"
        case kinds.Word(words):
            return _or(f"`{word}`" for word in words)
        case kinds.Id(space, own):
            return f"a new id of {article(space)}" if own else f"the id of {article(space)}"
        case kinds.Ids(space, also):
            return "ids of " + _or(f"{name}s" for name in (space, *also))
        case kinds.IdsOf(of, spaces):
            return f"{of}s, each with ids of " + _or(f"{name}s" for name in spaces)
        case kinds.State(any_of):
            return "states of the bench, of several any will do" if any_of else "a state of the bench"
        case kinds.States():
            return "a list of states of the bench"
        case kinds.Holds():
            return "a condition"
        case kinds.Machines():
            return "features of machines with their values"
        case kinds.Outcomes(of, also):
            return _or(f"{name}s" for name in (of, *also)) + " with their outcomes" if of else "its own outcomes"
        case kinds.Outcome():
            return "a list of new names"
        case kinds.Labels():
            return "new names, each with a label"
        case kinds.Weights(words):
            return "faults, each with " + _or(f"`{word}`" for word in words)
        case _:
            return _of_records(kind)


def _of_records(kind: kinds.ByRecord) -> str:
    match kind:
        case kinds.QuantityKind():
            return "a kind of quantity"
        case kinds.Unit():
            return "a unit"
        case kinds.Amount(span):
            return "two quantities, `LOW to HIGH`" if span else "a number with its unit"
        case kinds.Formula(limits):
            return "`above F`, `below F`, `F to F` or `otherwise`" if limits else "a formula"
        case kinds.Assumed():
            return "questions, each with a quantity or a rating"
        case kinds.Values(of, each):
            with_what = _or(f"{name}s" for name in each) + " and their values" if each else "its value"
            return _or(f"{name}s" for name in of) + f", each with {with_what}"
        case kinds.One(shapes, or_word):
            return _or([*([f"`{or_word}`"] if or_word else []), *(shape.what for shape in shapes)])
        case kinds.Listed(shape):
            return f"a list; each entry is {shape.what}"
        case kinds.Named(space, holds, briefly):
            what = holds.what if isinstance(holds, Shape) else in_words(holds)
            name = f"new ids of {space}s" if space else "new names"
            return f"{name}, each with {what}" + (f"; or briefly: {in_words(briefly)}" if briefly else "")
        case _:
            assert_never(kind)


def _or(words: Iterator[str] | list[str]) -> str:
    listed = list(words)
    return listed[0] if len(listed) == 1 else f"{', '.join(listed[:-1])} or {listed[-1]}"
