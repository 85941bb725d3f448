"""`python -m tests.language.make_manual` puts the key tables into the manual anew."""

from __future__ import annotations

import re
from pathlib import Path

from expert.language.keys.manual import key_tables

MANUAL = Path(__file__).parents[2] / "rules" / "README.md"


def with_tables(text: str) -> str:
    """The manual with the tables of today's language."""
    found = re.compile(r"(?<=<!-- keys -->\n).*?(?=<!-- end of keys -->)", re.DOTALL)
    return found.sub(lambda _: f"\n{key_tables()}\n", text)


if __name__ == "__main__":
    MANUAL.write_text(with_tables(MANUAL.read_text(encoding="utf-8")), encoding="utf-8")
