"""Makes the demo jobs anew: `python -m tests.demo.make`. Run it when the rules or the wording changed, and read what
comes out before it is committed."""

from __future__ import annotations

import shutil
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch

from expert.desk.opening import shop_of
from expert.desk.session import Session
from expert.desk.unattended import sound_answer
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.job import Job, Phase
from expert.language.load import load_rules
from expert.terminal.demo import render
from expert.trace.reading import read_trace
from tests.demo.scenario import JOBS, DemoJob

ROOT = Path(__file__).resolve().parents[2]
BEGIN = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
MOST_LINES = 400

PROGRAM = "0.1.0"


class DemoClock:
    """A clock that goes on by twenty seconds each time it is read."""

    def __init__(self) -> None:
        self.now = BEGIN

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=20)
        return self.now


class DemoTechnician:
    """Types the lines of one invented job."""

    def __init__(self, demo: DemoJob) -> None:
        self.demo = demo
        self.seen: dict[str, int] = {}

    def lines_for(self, job: Job) -> list[str]:
        demo, prompt = self.demo, job.prompt
        match prompt.kind:
            case "intake":
                return {
                    "technician": [demo.technician],
                    "machine": ["1"],
                    "plate": [*demo.plate, "ok"],
                    "complaints": [*demo.complaints, "ok"],
                    "qualified": ["no"],
                    "arrives": [demo.arrives],
                }[prompt.subject]
            case "move":
                return [prompt.choices[0]]
            case "question" | "proof":
                return self._answer(job, prompt.subject)
            case "danger":
                return list(demo.danger)
            case "repair" if (number := self._regretted(job)) is not None:
                return [f"take back {number}", "yes"]
            case "repair":
                return [demo.said_of_repair.get(prompt.subject, "done")]
            case "close":
                return [{"ending": demo.ending, "note": demo.note}.get(prompt.subject, "ok")]
            case _:
                raise AssertionError(f"{demo.number}: nothing is foreseen at {prompt}")

    def _regretted(self, job: Job) -> int | None:
        """The answer that the technician thinks better of, once."""
        for given in job.given.values():
            if given.holds and given.question in self.demo.take_back and given.question not in self.seen:
                self.seen[given.question] = 1
                return given.number
        return None

    def _answer(self, job: Job, question: str) -> list[str]:
        after = job.repaired and question in self.demo.after_repair
        book = self.demo.after_repair if after else {} if job.repaired else self.demo.visits
        visit = self.seen.get(f"{question} {bool(job.repaired)}", 0)
        self.seen[f"{question} {bool(job.repaired)}"] = visit + 1
        visits = book.get(question, ())
        if visit < len(visits):
            return list(visits[visit])
        if visits and question in job.again and not job.repaired:  # the same reading once more
            return [visits[-1][-1]]
        return [sound_answer(job, job.base.questions[question])]


def make(demo: DemoJob, knowledge: Knowledge, folder: Path) -> Path:
    """Play one job and leave its trace in the folder, without the register of the folder that it was played in."""
    with TemporaryDirectory() as played:
        path = _play(demo, knowledge, Path(played))
        return Path(shutil.move(path, folder / path.name))


def _play(demo: DemoJob, knowledge: Knowledge, folder: Path) -> Path:
    path = folder / f"{demo.number}.jsonl"
    # The digest of the code would make every demo job anew after every change of it.
    with patch("expert.desk.session.program_version", return_value=PROGRAM):
        session, _ = Session.open(knowledge, shop_of(knowledge), path, demo.number, DemoClock())
    technician = DemoTechnician(demo)
    taken = 0
    while session.job.phase is not Phase.DONE:
        waiting: list[str] = technician.lines_for(session.job)
        for line in waiting:
            session.say(line)
            taken += 1
        if taken > MOST_LINES:
            raise AssertionError(f"{demo.number} does not end")
    session.close()
    return path


def main(folder: Path = ROOT / "transcripts_demo") -> None:
    knowledge = knowledge_of(load_rules(ROOT / "rules"))
    # Made anew on purpose: what the folder remembers of the jobs before would refuse it.
    _forget(folder)
    for demo in JOBS:
        path = make(demo, knowledge, folder)
        path.with_suffix(".txt").write_text(render(read_trace(path), knowledge), encoding="utf-8")
        print(path, file=sys.stderr)
    _forget(folder)


def _forget(folder: Path) -> None:
    for register in folder.glob("jobs.register*"):
        register.unlink()


if __name__ == "__main__":
    main()
