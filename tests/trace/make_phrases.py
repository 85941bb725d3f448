"""Makes the phrase book of the trace from the jobs in folders: python -m tests.trace.make_phrases FILE FOLDER...

A book that traces were written with is kept as it is; another is a new file under a new mark (`trace/folding.py`).
"""

from __future__ import annotations

import sys
from pathlib import Path

import zstandard

from expert.trace import packing
from expert.trace.packing import Memory, pack
from expert.trace.places import jobs_in
from expert.trace.reading import read_trace

SIZE = 32_768  # bytes; 16 kB folds a fifth worse, and each start of a job reads the file


def texts_of(path: Path) -> list[bytes]:
    """The texts that each step of a trace folds."""
    found: list[bytes] = []
    folded = packing.fold
    packing.fold = lambda text, before: found.append(text) or ""  # type: ignore[func-returns-value]
    try:
        memory = Memory()
        for line in read_trace(path).lines:
            _, _, memory = pack(line.records, memory)
    finally:
        packing.fold = folded
    return found


def main() -> None:
    target = Path(sys.argv[1])
    if target.exists():
        sys.exit(f"{target} is kept as it is")
    jobs = [path for folder in sys.argv[2:] for path in jobs_in(Path(folder))]
    samples = [text for path in jobs for text in texts_of(path)]
    target.write_bytes(zstandard.train_dictionary(SIZE, samples, level=19).as_bytes())


if __name__ == "__main__":
    main()
