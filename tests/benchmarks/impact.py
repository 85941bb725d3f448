"""`python -m tests.benchmarks.impact --jobs N [--edit NAME] [--json]`: `expert impact` on N saved jobs, on all cores.

The demo jobs, copied until there are N. Three edits are measured: none of what the jobs looked at (`untouched`), one
that concerns some of them, and one that concerns all, so that each is played twice (`all_played`). Keys: `jobs`, and
for each edit the seconds and the jobs a second.
"""

from __future__ import annotations

import argparse
import json
import shutil
import tempfile
import time
from pathlib import Path

from expert.trace.places import SUFFIX
from expert.workbench.impact.rules_of import Library, texts_in
from expert.workbench.impact.running import Task, outcomes, tasks_for

ROOT = Path(__file__).parents[2]
EDITS = {
    "untouched": ("complaints.yaml", "", ""),
    "some_played": ("circuits/brew_group.yaml", "seen: rare\n", "seen: common\n"),
    "all_played": ("bench.yaml", "minutes: 1\n", "minutes: 2\n"),
}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=200)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--edit", choices=list(EDITS), default="", help="only this one")
    arguments = parser.parse_args()
    found: dict[str, object] = {"jobs": arguments.jobs}
    with tempfile.TemporaryDirectory() as name:
        traces = copies(Path(name), arguments.jobs)
        for edit in [arguments.edit] if arguments.edit else EDITS:
            file, old, new = EDITS[edit]
            start = time.perf_counter()
            library = Library()
            before = texts_in(ROOT / "rules")
            after = {**before, file: before[file].replace(old, new) if old else before[file] + "# edited\n"}
            wanted = [library.add(after), library.add(before)]
            tasks = [task for task in tasks_for(traces, library, *wanted) if isinstance(task, Task)]
            played = sum(outcome.played for outcome in outcomes(tasks, library.texts))
            seconds = time.perf_counter() - start
            rate = round(arguments.jobs / seconds, 1)
            found[edit] = {"seconds": round(seconds, 1), "jobs_a_second": rate, "played": played}
            if not arguments.json:
                print(f"{edit}: {arguments.jobs} jobs in {seconds:.1f} s ({rate} a second; {played} played)")
    if arguments.json:
        print(json.dumps(found))


def copies(folder: Path, number: int) -> list[Path]:
    demos = sorted((ROOT / "transcripts_demo").glob(f"*{SUFFIX}"))
    return [Path(shutil.copy(demos[i % len(demos)], folder / f"{i}{SUFFIX}")) for i in range(number)]


if __name__ == "__main__":
    main()
