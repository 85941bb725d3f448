"""A job with its trace: every line and all that it led to is on the disk before the technician sees the reply."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from expert.desk.faults import not_taken
from expert.desk.program import program_version
from expert.desk.sentences import jobs as sentences
from expert.desk.serials import hidden
from expert.engine.knowledge import Knowledge
from expert.job.beginning import begin
from expert.job.state.job import Job, Phase
from expert.job.state.shop import Shop
from expert.trace.cleaning import clean
from expert.trace.errors import TraceNotWritten
from expert.trace.records import Opened, Record, Said, Told
from expert.trace.writing import Clock, Sign, TraceWriter

LONGEST_LINE = 2_000


@dataclass
class Session:
    """One job at one terminal. `close` lets go of it; a finished job is sealed.

    `sign`: makes the shop's signature for the seal; None: it is not signed.
    """

    job: Job
    writer: TraceWriter
    sign: Sign | None = None

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

    def say(self, line: str) -> tuple[Record, ...]:
        """Take one line. Nothing is shown, and nothing has happened, unless it is on the disk.

        Raises TraceNotWritten; the line may then be said again. Raises NotTaken where the program itself fails at it.
        """
        text = clean(line, LONGEST_LINE)
        if self.job.prompt.subject in ("technician", "plate"):
            text = hidden(text)
        # Here and not above: the first question is on the screen before the rest of the dialogue is loaded.
        from expert.job.steps import step

        try:
            job, records = step(self.job, text)
        except Exception as fault:
            raise not_taken(fault) from fault
        self.writer.append((Said(text), *records))
        self.job = job
        if self.job.phase is Phase.DONE:
            records = (*records, Told(sentences.by_the_clock(self.minutes_by_the_clock)))
        if job.is_closed:
            try:
                self.writer.seal(self.sign)
            except TraceNotWritten as problem:
                # All that was said is recorded: the closing is shown, and the seal can wait.
                return (*records, Told(sentences.only_the_seal_is_missing(problem)))
        return records

    @property
    def minutes_by_the_clock(self) -> float:
        """How long somebody was at the job up to its last line; the times of its lines stand in the trace."""
        return self.writer.minutes_by_the_clock

    @property
    def is_over(self) -> bool:
        """Closed, handed over, or left for later."""
        return self.job.phase is Phase.DONE or self.job.paused

    def close(self) -> None:
        self.writer.close()
