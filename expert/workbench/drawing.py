"""Drawing a Graphviz text to an SVG file, where Graphviz is installed."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

_LONGEST = 120  # seconds


class CannotDraw(Exception):
    """Graphviz is not there, or could not draw; the text says why."""


def draw(text: str, file: Path) -> None:
    """Draw to an SVG file. Raises CannotDraw."""
    dot = shutil.which("dot")
    if dot is None:
        raise CannotDraw("--svg needs Graphviz: install it, or give the text that is printed without --svg to another")
    try:
        done = subprocess.run([dot, "-Tsvg"], input=text.encode(), capture_output=True, timeout=_LONGEST, check=False)
        if done.returncode:
            raise CannotDraw(f"Graphviz could not draw it: {done.stderr.decode(errors='replace').strip()[:300]}")
        file.write_bytes(done.stdout)
    except subprocess.TimeoutExpired:
        raise CannotDraw(f"Graphviz did not come to an end within {_LONGEST} seconds") from None
    except OSError as problem:
        raise CannotDraw(f"{file}: {problem.strerror}") from None
