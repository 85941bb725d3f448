"""A job with its trace: every line and all that it led to is on the disk before the technician sees the reply."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from expert.desk.faults import not_taken
from expert.desk.program import program_version
from expert.desk.replay import RulesDiffer, opened_of, rerun
from expert.engine.knowledge import Knowledge
from expert.job.prompts.as_left import take_up_again
from expert.job.state.job import Job, Phase
from expert.job.state.shop import Shop
from expert.job.steps import begin, step
from expert.trace.cleaning import clean
from expert.trace.errors import TraceNotWritten
from expert.trace.records import Opened, Record, Resumed, Said, Told
from expert.trace.writing import Clock, TraceWriter

LONGEST_LINE = 2_000


@dataclass
class Session:
    """One job at one terminal. `close` lets go of it; a finished job is sealed.

    `held_at`: the prompt at which a job was left, with what belongs to it.
    """

    job: Job
    writer: TraceWriter
    held_at: tuple[Record, ...] = ()

    def is_resumed_by(self, command: str) -> None:
        """Let the job name this command to whoever leaves it, instead of the plain one with its number."""
        self.job = replace(self.job, resume_with=command)

    @classmethod
    def open(
        cls,
        knowledge: Knowledge,
        shop: Shop,
        path: Path,
        number: str,
        clock: Clock,
        machine_file: str = "",
        shop_file: str = "",
        purpose: str = "",
    ) -> tuple[Session, tuple[Record, ...]]:
        """A new job; `machine_file`: the text of a machine type that the rules do not have; `shop_file`: that of the
        shop's profile, which `shop` was made from; `purpose`: "" for real work.

        Raises what `TraceWriter.create` raises.
        """
        writer = TraceWriter.create(path, clock)
        try:
            job, records = begin(knowledge, shop, number)
            opened = Opened(
                rules_digest=knowledge.base.digest,
                program=program_version(),
                job=number,
                instruments=tuple(sorted(shop.instruments)),
                system=shop.system,
                machine_file=machine_file,
                purpose=purpose,
                shop_file=shop_file,
            )
            writer.append((opened, *records))
        except BaseException:
            writer.close()
            raise
        return cls(job, writer), records

    @classmethod
    def resume(cls, knowledge: Knowledge, path: Path, clock: Clock) -> tuple[Session, tuple[Record, ...]]:
        """Go on with a job exactly where it stopped. The records returned end with the prompt it waits at.

        Raises RulesDiffer when the job was opened with other rules, and what `TraceWriter.go_on` raises.
        """
        writer = TraceWriter.go_on(path, clock)
        try:
            opened = opened_of(writer.trace)
            if opened.rules_digest != knowledge.base.digest:
                raise RulesDiffer(opened.rules_digest, knowledge.base.digest)
            again = rerun(knowledge, writer.trace)
            again.refuse_differences(path)
            job, confirming = take_up_again(again.job)
            resumed = Resumed(program_version(), knowledge.base.digest, bool(confirming))
            writer.append((*again.missing, resumed, *confirming))
            # The plug may have been pulled between the last line and the seal.
            if again.job.phase is Phase.DONE:
                writer.seal()
        except BaseException:
            writer.close()
            raise
        job.paused = False
        return cls(job, writer, again.waiting_at if confirming else again.held_at), confirming or again.waiting_at

    def say(self, line: str) -> tuple[Record, ...]:
        """Take one line. Nothing is shown, and nothing has happened, unless it is on the disk.

        Raises TraceNotWritten; the line may then be said again. Raises NotTaken where the program itself fails at it.
        """
        text = clean(line, LONGEST_LINE)
        try:
            job, records = step(self.job, text)
        except Exception as fault:
            raise not_taken(fault) from fault
        self.writer.append((Said(text), *records))
        if self.job.held is not None and job.prompt == self.job.held:
            # It stands as it stood: the prompt at which the job was left is shown again, and is on record already.
            records = (*records, *self.held_at)
        self.job = job
        if job.phase is Phase.DONE:
            try:
                self.writer.seal()
            except TraceNotWritten as problem:
                # All that was said is recorded: the closing is shown, and the seal can wait.
                return (*records, Told(f"{problem} Only the seal is missing; it is set when the job is resumed."))
        return records

    @property
    def is_over(self) -> bool:
        """Closed, or left for later."""
        return self.job.phase is Phase.DONE or self.job.paused

    def close(self) -> None:
        self.writer.close()
