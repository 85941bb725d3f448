"""Drawing a Graphviz text to an SVG file, where Graphviz is installed."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

from expert.workbench.sentences import showing as say

_LONGEST = 120  # seconds


class CannotDraw(Exception):
    """Graphviz is not there, or could not draw; the text says why."""


def draw(text: str, file: Path) -> None:
    """Draw to an SVG file. Raises CannotDraw."""
    dot = shutil.which("dot")
    if dot is None:
        raise CannotDraw(say.SVG_NEEDS_GRAPHVIZ)
    try:
        done = subprocess.run([dot, "-Tsvg"], input=text.encode(), capture_output=True, timeout=_LONGEST, check=False)
        if done.returncode:
            raise CannotDraw(say.graphviz_could_not_draw(done.stderr.decode(errors="replace").strip()[:300]))
        file.write_bytes(done.stdout)
    except subprocess.TimeoutExpired:
        raise CannotDraw(say.graphviz_takes_too_long(_LONGEST)) from None
    except OSError as problem:
        raise CannotDraw(f"{file}: {problem.strerror}") from None
