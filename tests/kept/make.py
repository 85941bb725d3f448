"""Makes a set of kept traces with the program as it is: python -m tests.kept.make NAME. What is there is left alone.

Small rules and invented jobs (demonstration only). A set is never made anew: it shows what its program wrote.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from expert.desk.opening import shop_of
from expert.desk.pinning import pin_rules
from expert.desk.session import Session
from tests.dialogue.phases import TO_THE_COIL, TO_THE_PROOF
from tests.dialogue.small_folder import small_folder
from tests.dialogue.small_rules import small_knowledge

KEPT = Path(__file__).parent
JOBS: Mapping[str, tuple[str, ...]] = {
    "at-a-test": TO_THE_COIL,
    "taken-back": (*TO_THE_COIL, "take back 3", "yes", "can't tell no access", "note a remark", "pause"),
    "at-a-proof": TO_THE_PROOF,
    "stopped": ("Ann", "1", "ok", "steam jet", "ok", "no", "1", "yes", "2 bar", "yes"),
    "at-the-plate": ("Ann", "1", "fill_coil 470 ohm"),
    "closed": (*TO_THE_PROOF, "yes", "yes", "1", "ok", "ok", "no"),
}


class Steady:
    """09:00:00 on a day that never was, then a second later each time."""

    def __init__(self) -> None:
        self.moment = datetime(2026, 1, 31, 9, 0, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.moment += timedelta(seconds=1)
        return self.moment - timedelta(seconds=1)


def make(name: str) -> None:
    folder = KEPT / name
    if folder.exists():
        sys.exit(f"{folder} is kept as it is")
    knowledge = small_knowledge()
    with TemporaryDirectory() as rules:
        pin_rules(small_folder(Path(rules)), folder, knowledge.base.digest)
    for number, lines in JOBS.items():
        path = folder / f"{number}.jsonl"
        session, _ = Session.open(knowledge, shop_of(knowledge), path, number, Steady())
        for line in lines:
            session.say(line)
        session.close()
        for lock in folder.glob("*.lock"):
            lock.unlink()


if __name__ == "__main__":
    make(sys.argv[1])
