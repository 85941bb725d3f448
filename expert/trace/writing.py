"""Writing a trace: whole batches, on the disk before `append` returns, by one writer for each job."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime
from pathlib import Path
from typing import Self

from expert.trace.agreeing import refuse_disagreement
from expert.trace.clock import AtWork
from expert.trace.errors import TraceExists, TraceNotRead, TraceSealed
from expert.trace.lines import NOTHING_BEFORE, digest_in, encode
from expert.trace.reading import Trace, read_trace
from expert.trace.records import Record, Sealed
from expert.trace.register import Entry, note, read_register, register_path
from expert.trace.sentences import keeping as say
from expert.trace.signing import Signature, sealed_content
from expert.trace.storage import TraceFile, never_begun
from expert.trace.verifying import refuse_damage

Clock = Callable[[], datetime]
Sign = Callable[[bytes], Signature]


class TraceWriter:
    """Appends to one trace, a line for each batch.

    Begin with `create` or `go_on`; leave with `close`, or use it in a `with` statement. `trace` is what stood in the
    file when it was opened. A batch is recorded when `append` returns. When `append`
    raises, nothing of the batch is recorded, and the same batch may be tried again. `clock` gives the time with its
    zone; the true time is written even if the clock was put back.
    """

    def __init__(self, file: TraceFile, trace: Trace, clock: Clock) -> None:
        self.path = trace.path
        self.trace = trace
        self._file = file
        self._clock = clock
        self._written = len(trace.lines)
        self._last = trace.lines[-1].digest if trace.lines else NOTHING_BEFORE
        self._memory = trace.memory
        self._at_work = AtWork(trace.minutes_by_the_clock, trace.lines[-1].at if trace.lines else None)
        self._is_sealed = False

    @classmethod
    def create(cls, path: Path, clock: Clock) -> Self:
        """Begin the trace of a new job; its folder is made when needed.

        Raises TraceExists when the job has a trace already, or had one by the register of its folder, JobInUse,
        TraceNotRead, TraceNotWritten.
        """
        register = read_register(register_path(path))
        if register is not None and never_begun(path) and register.knows(path.name):
            raise TraceExists(say.was_there_and_is_gone(path))
        return cls(TraceFile.create(path), Trace(path, ()), clock)

    @classmethod
    def go_on(cls, path: Path, clock: Clock) -> Self:
        """Continue a trace. A torn tail is cut off and kept beside it, in `<name>.torn`.

        A power cut can leave a line that was never acknowledged, whole: it stays.
        Raises TraceDamaged when the file was changed, or is not what the register of its folder knows, TraceSealed
        when the job is closed, JobInUse, TraceNotRead, TraceNotWritten, TraceTooLarge.
        """
        if not path.is_file():
            raise TraceNotRead(say.not_there(path))
        with TraceFile.held(path) as lock:
            trace = read_trace(path)
            refuse_damage(trace)
            refuse_disagreement(trace)
            if trace.is_sealed:
                raise TraceSealed(say.is_sealed(path))
            file = TraceFile.reopen(path, lock, trace.length, trace.torn)
        return cls(file, trace, clock)

    @property
    def minutes_by_the_clock(self) -> float:
        """How long somebody was at the job up to its last line [min]; pauses are left out."""
        return self._at_work.minutes

    def append(self, records: Iterable[Record]) -> None:
        """Record a batch, as one line. When this returns, it is on the disk.

        Raises TraceNotWritten, TraceSealed, TraceTooLarge, and NotPlain for a field of a wrong type.
        """
        batch = tuple(records)
        if any(isinstance(record, Sealed) for record in batch):
            raise ValueError(say.SEAL_BY_SEAL)
        self._append(batch)

    def seal(self, sign: Sign | None = None) -> None:
        """Close the trace for good, signed where the shop has a key. Raises as `append` does."""
        signature = sign(sealed_content(self._written, self._last)) if sign else Signature()
        self._append((Sealed(self._written, self._last, signature.key, signature.value),))
        self._is_sealed = True

    def close(self) -> None:
        """Let go of the job, so that it can be resumed here or at another terminal."""
        self._file.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _append(self, batch: tuple[Record, ...]) -> None:
        if self._is_sealed:
            raise TraceSealed(say.is_sealed(self.path))
        if not batch:
            return
        now = self._clock()
        raw, memory = encode(self._written + 1, now, batch, self._last, self._memory)
        last = digest_in(raw)
        entry = Entry(self.path.name, self._written + 1, last, isinstance(batch[-1], Sealed))
        # The trace first: a register that is behind is caught up later, one that is ahead would speak of a cut trace.
        self._file.append(raw + b"\n", then=lambda: note(self.path, entry, now))
        self._last, self._memory = last, memory
        self._written += 1
        self._at_work = self._at_work.after(now, batch)
