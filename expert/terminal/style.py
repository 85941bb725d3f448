"""How the chat looks: one style name for each manner of a line, and what each name means on the screen.

Colour only repeats what the words say already: cautions begin with '!', danger with 'STOP!'. Each colour is readable on
a black and on a white screen.
"""

from __future__ import annotations

import os
from collections.abc import Mapping

from prompt_toolkit.output import ColorDepth
from prompt_toolkit.styles import Style

PLAIN = "class:bench.plain"
QUESTION = "class:bench.question"
CAUTION = "class:bench.caution"
DANGER = "class:bench.danger"
SO = "class:bench.so"
FOUND = "class:bench.found"
SMALL = "class:bench.small"
PROMPT = "class:bench.prompt"
STATUS = "class:bench.status"
REFUSED = "class:bench.refused"
UNDERSTOOD = "class:bench.understood"
TOOLBAR = "class:bottom-toolbar"

OF_MANNER: Mapping[str, str] = {
    "plain": PLAIN,
    "question": QUESTION,
    "caution": CAUTION,
    "danger": DANGER,
    "so": SO,
    "found": FOUND,
    "small": SMALL,
    "command": PLAIN,
    "drawing": PLAIN,
}

LOOKS: Mapping[str, str] = {
    PLAIN: "",
    QUESTION: "bold",
    CAUTION: "bold #af5f00",
    DANGER: "bold bg:#af0000 #ffffff",
    SO: "#0087af",
    FOUND: "bold #008700",
    SMALL: "#767676",
    PROMPT: "bold",
    STATUS: "noreverse",
    REFUSED: "noreverse bold #af5f00",
    UNDERSTOOD: "noreverse bold #008700",
    TOOLBAR: "noreverse",
}

STYLE = Style([(name.removeprefix("class:"), looks) for name, looks in LOOKS.items()])


def color_depth() -> ColorDepth | None:
    """One bit when the technician wants no colours (the variable NO_COLOR holds anything), else the terminal's own."""
    return ColorDepth.DEPTH_1_BIT if os.environ.get("NO_COLOR") else None
