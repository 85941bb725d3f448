"""The small rule base as files in a folder, for tests of the command line."""

from __future__ import annotations

from pathlib import Path

from tests.dialogue import small_rules

FILES = {
    "features.yaml": small_rules.FEATURES,
    "machines/test_machine.yaml": small_rules.MACHINE,
    "complaints.yaml": small_rules.COMPLAINTS,
    "cautions.yaml": small_rules.CAUTIONS,
    "instruments.yaml": small_rules.INSTRUMENTS,
    "bench.yaml": small_rules.BENCH,
    "circuits/fill.yaml": small_rules.CIRCUIT,
}


def small_folder(folder: Path) -> Path:
    """Write the small rule base into this folder, as an author would have it on the disk."""
    for name, text in FILES.items():
        file = folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    return folder
