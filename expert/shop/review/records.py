"""One review: a verdict, the true fault if it is known, and remarks on single questions or rules."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Verdict = Literal["right", "lucky", "wrong", "unsafe"]
VERDICTS: dict[str, str] = {
    "right": "right, and for the right reasons",
    "lucky": "right by luck: what was found does not follow from what was asked",
    "wrong": "wrong",
    "unsafe": "unsafe: somebody could have been hurt, whatever was found",
}


@dataclass(frozen=True, slots=True)
class Remark:
    """What is said about one thing. `about`: the id of a question or a rule."""

    about: str
    text: str


@dataclass(frozen=True, slots=True)
class Review:
    """A senior's word on a sealed job.

    `at`: when, UTC. `trace`: digest of the trace's last line, so that the review belongs to this trace alone. `before`:
    digest of the review before it in the same file. `key`, `signature`: of the shop, or "".
    """

    at: str
    by: str
    verdict: Verdict
    trace: str
    before: str
    true_fault: str = ""
    remarks: tuple[Remark, ...] = ()
    key: str = ""
    signature: str = ""
