"""A job that is gone on with: run again from its trace, and taken up where it stopped."""

from __future__ import annotations

from pathlib import Path

from expert.desk.comparing import Difference
from expert.desk.program import program_version
from expert.desk.replay import Rerun, rerun, rules_of
from expert.desk.sentences import jobs as say
from expert.desk.session import Session
from expert.engine.knowledge import Knowledge
from expert.job.prompts.as_left import take_up_again
from expert.trace.errors import TraceError
from expert.trace.places import SUFFIX
from expert.trace.records import Record, Resumed
from expert.trace.writing import Clock, TraceWriter


class TraceDiffers(TraceError):
    """The same rules and the same lines do not give the same job: the program has changed, or the trace has."""

    def __init__(self, path: Path, difference: Difference) -> None:
        number = path.name.removesuffix(SUFFIX)
        super().__init__(say.recorded_otherwise(path, difference.line, difference, number))


class RulesDiffer(TraceError):
    """The job was opened with other rules than those at hand."""

    def __init__(self, opened_with: str, at_hand: str) -> None:
        super().__init__(say.other_rules_than_at_hand(opened_with[:12], at_hand[:12]))


def resume(
    knowledge: Knowledge, path: Path, clock: Clock, *, accept: bool = False
) -> tuple[Session, tuple[Record, ...]]:
    """Go on with a job; as `take_up`, and raises what `TraceWriter.go_on` raises."""
    writer = TraceWriter.go_on(path, clock)
    try:
        if not accept and rules_of(writer.trace) != knowledge.base.digest:
            raise RulesDiffer(rules_of(writer.trace), knowledge.base.digest)
        again = rerun(knowledge, writer.trace, choose_anew=False)
        return take_up(writer, knowledge, again, accept=accept)
    except BaseException:
        writer.close()
        raise


def take_up(
    writer: TraceWriter, knowledge: Knowledge, again: Rerun, *, accept: bool = False
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
    if again.job.is_closed:
        writer.seal()
    job.paused = False
    return Session(job, writer), confirming or again.waiting_at
