"""One review: a verdict, the true fault if it is known, and remarks on single questions or rules."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from expert.shop.sentences import review as say

Verdict = Literal["right", "lucky", "wrong", "unsafe"]
VERDICTS: dict[str, str] = {
    "right": say.RIGHT,
    "lucky": say.RIGHT_BY_LUCK,
    "wrong": "wrong",
    "unsafe": say.UNSAFE,
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
