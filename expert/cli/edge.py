"""The edge of the program: whatever happens inside, a person gets a sentence and an exit code, never a traceback.

Exit code 0: done; 1: ran, and found something wrong; 2: bad usage or bad input, also an output that cannot be written
and a fault of the program itself; 130, 143, 129: left by Ctrl-C, by being ended, by a terminal that was closed.
"""

from __future__ import annotations

import signal
import sys
import traceback
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click

from expert.cli.out import CannotShow, complain, flush, harmless, prepare_streams

BAD, FAULT = 2, 2
IS_SAFE = (
    "Nothing that was answered is lost. If a machine is on the bench: switch it off, pull the plug, and let it cool."
)


class Edge(click.Group):
    """The group of all commands, and the last to see what goes wrong in one."""

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        **extra: Any,
    ) -> Any:
        def run() -> object:
            return super(Edge, self).main(args, prog_name, complete_var, standalone_mode=False, **extra)

        return sys.exit(at_the_edge(run)) if standalone_mode else run()


def at_the_edge(run: Callable[[], object]) -> int:
    """Run it, say what went wrong in one sentence, and give the exit code."""
    prepare_streams()
    if sys.stdout is None:
        if sys.stderr is not None:
            complain("There is nowhere to write to: standard output is closed.")
        return BAD
    try:
        code = _run(run)
        flush()
    except CannotShow as problem:
        return _last_words(problem, BAD)
    except KeyboardInterrupt as problem:  # between two lines of ours
        return _left(problem)
    return code


def _run(run: Callable[[], object]) -> int:
    try:
        code = run()
        return code if isinstance(code, int) else 0
    except SystemExit as leaving:
        return leaving.code if isinstance(leaving.code, int) else 0 if leaving.code is None else BAD
    except click.UsageError as problem:
        if problem.ctx is not None:
            complain(problem.ctx.get_usage())
        complain(f"Error: {problem.format_message()}")
        return problem.exit_code
    except click.ClickException as problem:
        complain(f"Error: {problem.format_message()}")
        return problem.exit_code
    except (KeyboardInterrupt, click.Abort) as problem:
        return _left(problem.__cause__ if isinstance(problem, click.Abort) else problem)
    except CannotShow:
        raise
    except BrokenPipeError:
        return _last_words("Whoever read the output went away.", 0)
    except OSError as problem:
        return _last_words(f"{problem.filename or 'the output'}: {problem.strerror or problem}", BAD)
    except Exception as fault:
        return _last_words(fault_in_words(fault), FAULT)


def _left(problem: BaseException | None) -> int:
    """Left on purpose: what can still be gone on with was said where it was left."""
    return _last_words("Stopped.", 128 + int(getattr(problem, "signal", signal.SIGINT)))


def _last_words(words: object, code: int) -> int:
    try:
        complain(words)
    except CannotShow:
        return code  # nobody can be told; the exit code is all there is
    return code


def fault_in_words(fault: BaseException) -> str:
    """An unexpected exception told to whoever stands at the machine; the particulars are kept in a file to send."""
    return f"The program failed here; that is a fault of the program, not yours. {IS_SAFE} {kept(fault)}"


def kept(fault: BaseException) -> str:
    """Keep the particulars of a fault in a file; a sentence that says where it is, or why there is none."""
    from expert.trace.places import jobs_folder

    moment = datetime.now(UTC)
    file = Path(jobs_folder()).parent / "faults" / f"{moment:%Y-%m-%d-%H%M%S-%f}.txt"
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(harmless("".join(traceback.format_exception(fault))), encoding="utf-8")
    except OSError as problem:
        return f"The particulars could not be kept: {problem.strerror or problem}. It was: {fault!r}"
    return f"The particulars are kept, to be sent to whoever looks after the program: {file}"
