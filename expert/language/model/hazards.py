"""Records of what must not be done while a danger stands, and of what takes the danger away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from expert.language.model.rules import ALWAYS, NOWHERE, Condition, Position
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Act:
    """Something that can be forbidden, such as energising: the bench states that are the act, any of which will do.

    `left`: it is judged only when somebody leaves the machine; to be in the state at work is allowed.
    """

    id: str
    say: str
    states: tuple[Mapping[str, str], ...]
    left: bool = False
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Release:
    """One way in which a hazard ends: one of the `repairs` is done (none: no repair is needed), then every test passes.

    `tests`: question and the outcomes that will do, in the order in which they are put.
    """

    repairs: tuple[str, ...]
    tests: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Hazard:
    """A danger. Open while `holds` holds or one of the faults is `suspected`, and from then on until it is released.

    One with neither is open from the start; with `after_repair` it opens, where `holds` holds, after every repair
    with the covers off. `forbids`: acts. `until`: in words what must happen.
    `any_time`: tests made earlier in the job count as well, so it does not open where they fulfil a release.
    """

    id: str
    name: str
    forbids: tuple[str, ...]
    until: str
    released_by: tuple[Release, ...]
    holds: Condition = ALWAYS
    suspected: tuple[str, ...] = ()
    any_time: bool = False
    after_repair: bool = False
    at: Position = field(default=NOWHERE, compare=False)

    @property
    def from_the_start(self) -> bool:
        """Whether it is open until a test says otherwise."""
        return self.holds == ALWAYS and not self.suspected and not self.after_repair

    @property
    def in_every_job(self) -> bool:
        """Whether nothing was seen that makes it stand: it is no news, and nothing to frighten the customer with."""
        return self.from_the_start or self.after_repair
