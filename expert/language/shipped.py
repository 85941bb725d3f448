"""Where the rules and demo jobs that come with the program are: beside it in a checkout, inside it when installed."""

from __future__ import annotations

from pathlib import Path

from expert.language.sentences import files as say

_PACKAGE = Path(__file__).resolve().parent.parent


def shipped(name: str) -> Path:
    """The folder `rules` or `transcripts_demo` as shipped. Raises FileNotFoundError when the installation lacks it."""
    for place in (_PACKAGE / "shipped" / name, _PACKAGE.parent / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(say.no_rules_installed(name))
