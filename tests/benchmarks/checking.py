"""`python -m tests.benchmarks.checking [--json]`: the time of `expert check` on the shipped rules, and of one edit.

`whole_s`: from the files to the last piece of advice, in a process of its own; `edit_ms`: what --watch needs after
one file was changed, in processor time, from the glance that sees it to the result (a glance is taken every 50 ms).
"""

from __future__ import annotations

import argparse
import json
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from expert.workbench.checking import looks

RULES = Path(__file__).parents[2] / "rules"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true")
    as_json = parser.parse_args().json
    start = time.perf_counter()
    subprocess.run([sys.executable, "-m", "expert.cli", "check", str(RULES)], check=True, capture_output=True)
    found = {"whole_s": round(time.perf_counter() - start, 2), "edit_ms": round(1000 * median(edits()))}
    print(json.dumps(found) if as_json else f"whole base {found['whole_s']} s; one edit {found['edit_ms']} ms (median)")


def edits() -> list[float]:
    """The seconds for each circuit file, edited in turn."""
    times = []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "rules"
        shutil.copytree(RULES, folder)
        files = sorted((folder / "circuits").rglob("*.yaml"))
        left, started = iter(files), 0.0

        def edit_the_next() -> None:
            nonlocal started
            file = next(left)
            file.write_text(file.read_text(encoding="utf-8") + "# edited\n", encoding="utf-8")
            started = time.process_time()

        for number, _ in enumerate(looks(folder, True, edit_the_next)):
            times += [time.process_time() - started] if number else []
            if number == len(files):
                break
    return times


if __name__ == "__main__":
    main()
