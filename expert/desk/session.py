"""A job with its trace: every line and all that it led to is on the disk before the technician sees the reply."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from expert.desk.comparing import Difference
from expert.desk.faults import not_taken
from expert.desk.program import program_version
from expert.desk.replay import Rerun, rerun, rules_of
from expert.desk.serials import hidden
from expert.engine.knowledge import Knowledge
from expert.job.prompts.as_left import take_up_again
from expert.job.state.job import Job, Phase
from expert.job.state.shop import Shop
from expert.job.steps import begin, step
from expert.trace.cleaning import clean
from expert.trace.errors import TraceError, TraceNotWritten
from expert.trace.places import SUFFIX
from expert.trace.records import Opened, Record, Resumed, Said, Told
from expert.trace.writing import Clock, Sign, TraceWriter

LONGEST_LINE = 2_000


class TraceDiffers(TraceError):
    """The same rules and the same lines do not give the same job: the program has changed, or the trace has."""

    def __init__(self, path: Path, difference: Difference) -> None:
        number = path.name.removesuffix(SUFFIX)
        super().__init__(
            f"{path}:{difference.line}:1: the same rules do not give what was recorded: {difference}. Another version "
            "of the program wrote it, or it was changed afterwards. Nothing was written to it. To go on with what this "
            f"program makes of the answers: expert resume --today {number} [job-differs]"
        )


class RulesDiffer(TraceError):
    """The job was opened with other rules than those at hand."""

    def __init__(self, opened_with: str, at_hand: str) -> None:
        super().__init__(
            f"the job was opened with other rules ({opened_with[:12]}) than those at hand ({at_hand[:12]}); "
            "name the rules of that time with --rules, or see what would change with: expert audit TRACE --rerun"
        )


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

    @classmethod
    def resume(
        cls, knowledge: Knowledge, path: Path, clock: Clock, *, accept: bool = False
    ) -> tuple[Session, tuple[Record, ...]]:
        """Go on with a job; as `take_up`, and raises what `TraceWriter.go_on` raises."""
        writer = TraceWriter.go_on(path, clock)
        try:
            if not accept and rules_of(writer.trace) != knowledge.base.digest:
                raise RulesDiffer(rules_of(writer.trace), knowledge.base.digest)
            again = rerun(knowledge, writer.trace, choose_anew=False)
            return cls.take_up(writer, knowledge, again, accept=accept)
        except BaseException:
            writer.close()
            raise

    @classmethod
    def take_up(
        cls, writer: TraceWriter, knowledge: Knowledge, again: Rerun, *, accept: bool = False
    ) -> tuple[Session, tuple[Record, ...]]:
        """Go on where the job stopped, after its re-run. The records returned end with the prompt it waits at.

        accept: go on with these rules and this program also where they decide otherwise what is on record; what was
        answered and done is kept. Raises TraceDiffers without it.
        """
        digest = knowledge.base.digest
        if again.decided and not accept:
            raise TraceDiffers(writer.path, again.decided[0])
        rebuilt = bool(again.decided) or rules_of(writer.trace) != digest
        job, confirming = take_up_again(again.job)
        resumed = Resumed(program_version(), digest, bool(confirming), rebuilt)
        due = confirming or (again.waiting_at if rebuilt else ())
        writer.append((*(() if rebuilt else again.missing), resumed, *due))
        # The plug may have been pulled between the last line and the seal.
        if again.job.phase is Phase.DONE:
            writer.seal()
        job.paused = False
        return cls(job, writer), confirming or again.waiting_at

    def say(self, line: str) -> tuple[Record, ...]:
        """Take one line. Nothing is shown, and nothing has happened, unless it is on the disk.

        Raises TraceNotWritten; the line may then be said again. Raises NotTaken where the program itself fails at it.
        """
        text = clean(line, LONGEST_LINE)
        if self.job.prompt.subject in ("technician", "plate"):
            text = hidden(text)
        try:
            job, records = step(self.job, text)
        except Exception as fault:
            raise not_taken(fault) from fault
        self.writer.append((Said(text), *records))
        self.job = job
        if job.phase is Phase.DONE:
            try:
                self.writer.seal(self.sign)
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
