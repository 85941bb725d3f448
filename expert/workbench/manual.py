"""What the manual says about a code: its line in the tables of messages and of advice."""

from __future__ import annotations

import difflib
import re

from expert.language.shipped import shipped
from expert.workbench.sentences import showing as say

_ROW = re.compile(r"^\| `([a-z0-9-]+)` \| (.+?) \| (.+?) \|$", re.MULTILINE)


class NoSuchCode(Exception):
    """The manual has no such code; the text says which is nearest."""


def explained(code: str) -> str:
    """What the code means and what to do. Raises NoSuchCode."""
    rows = {found: (meaning, remedy) for found, meaning, remedy in _ROW.findall(_tables())}
    if code not in rows:
        near = difflib.get_close_matches(code, rows, 1)
        did_you_mean = say.did_you_mean(near[0]) if near else say.OR_READ_THE_MANUAL
        raise NoSuchCode(say.no_such_code(code[:60], did_you_mean))
    meaning, remedy = rows[code]
    return say.meaning_of_code(code, meaning, remedy)


def _tables() -> str:
    """The manual from the tables of messages onwards."""
    return (shipped("rules") / "README.md").read_text(encoding="utf-8").partition(say.HEADING_OF_MESSAGES)[2]
