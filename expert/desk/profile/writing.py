"""A profile back to text, with a line of explanation for whoever edits it."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path

from expert.desk.sentences import profile as say
from expert.language.yaml.writing import Data, yaml_text


def profile_text(entries: Mapping[str, Data]) -> str:
    """The file's text; entries that are empty are left out."""
    return say.HEAD_OF_PROFILE + yaml_text({key: value for key, value in entries.items() if value})


def people_entries(people: Sequence[tuple[str, bool, str]]) -> list[Data]:
    """Technicians as entries: name, whether qualified for live work, by whose word."""
    return [
        {"name": name, "live_work": "yes", "by_word_of": by} if qualified else {"name": name, "live_work": "no"}
        for name, qualified, by in people
    ]


def price_entries(prices: Mapping[str, float]) -> list[Data]:
    """A price list as entries."""
    return [{"part": part, "price": f"{price:.2f}".removesuffix(".00")} for part, price in prices.items()]


def write_profile(path: Path, text: str) -> None:
    """Replace the file as a whole, so that a pulled plug leaves the old one or the new one. Raises OSError."""
    path.parent.mkdir(parents=True, exist_ok=True)
    making = path.with_suffix(".new")
    with making.open("w", encoding="utf-8") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
    os.replace(making, path)
