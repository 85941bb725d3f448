"""`dataclass` as in the standard library, made in half the time.

A start makes some hundred and fifty classes of records before its first question, and for each of them the library
writes out and compiles six functions. Comparing, hashing and showing need no text of their own: for frozen records they
are given here, and do the same (`tests/trade/test_frozen.py` holds both against each other). A start also unpickles ten
thousand records; the library asks each of them for its fields anew. The rest is the library's work, and so is all of it
where anything else is asked for.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(**wanted: bool) -> Callable[[type], type]:
        """`dataclasses.dataclass`, with its arguments."""
        library = dataclasses.dataclass
        if wanted != {"frozen": True, "slots": True}:
            return library(**wanted)

        def made(cls: type) -> type:
            own = set(vars(cls))
            new = library(**wanted, repr=False, eq=False)(cls)
            for name, method in _methods(new).items():
                if name not in own:
                    setattr(new, name, method)
            return new

        return made


def _methods(cls: type) -> dict[str, Callable[..., Any]]:
    fields = dataclasses.fields(cls)
    key = _values_of([field.name for field in fields if field.compare])
    hash_key = _values_of([field.name for field in fields if (field.compare if field.hash is None else field.hash)])
    shown = [field.name for field in fields if field.repr]
    fill = [getattr(cls, field.name).__set__ for field in fields]  # of its slots

    def __eq__(self: object, other: object) -> Any:
        return key(self) == key(other) if other.__class__ is self.__class__ else NotImplemented

    def __hash__(self: object) -> int:
        return hash(hash_key(self))

    @recursive_repr()
    def __repr__(self: object) -> str:
        values = ", ".join(f"{name}={getattr(self, name)!r}" for name in shown)
        return f"{self.__class__.__qualname__}({values})"

    def __setstate__(self: object, values: list[object]) -> None:
        for set_in, value in zip(fill, values, strict=True):
            set_in(self, value)

    return {"__eq__": __eq__, "__hash__": __hash__, "__repr__": __repr__, "__setstate__": __setstate__}


def _values_of(names: list[str]) -> Callable[[object], Any]:
    """Gives the values of these attributes, to be compared as one."""
    return attrgetter(*names) if names else lambda thing: ()
