"""The edge of the program: whatever happens inside, a person gets a sentence and an exit code, never a traceback.

Exit code 0: done; 1: ran, and found something wrong; 2: bad usage or bad input, also an output that cannot be written
and a fault of the program itself; 130, 143, 129: left by Ctrl-C, by being ended, by a terminal that was closed.
"""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable, Mapping, Sequence
from importlib import import_module
from typing import Any

import click

from expert.cli import sentences as say
from expert.language.garbage import garbage_collection_seldom
from expert.terminal.out import CannotShow, ReaderLeft, complain, flush, prepare_streams

BAD, FAULT = 2, 2


class Edge(click.Group):
    """The group of all commands, and the last to see what goes wrong in one.

    `commands_in`: each command's place within `expert.cli`, module and name; it is imported when it is wanted.
    """

    def __init__(self, *args: Any, commands_in: Mapping[str, str], **extra: Any) -> None:
        super().__init__(*args, **extra)
        self._places = commands_in

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(self._places)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self._places:
            return None
        module, _, name = self._places[cmd_name].partition(".")
        command: click.Command = getattr(import_module(f"expert.cli.{module}"), name)
        return command

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        **extra: Any,
    ) -> Any:
        def run() -> object:
            with garbage_collection_seldom():
                return super(Edge, self).main(args, prog_name, complete_var, standalone_mode=False, **extra)

        return sys.exit(at_the_edge(run)) if standalone_mode else run()


def at_the_edge(run: Callable[[], object]) -> int:
    """Run it, say what went wrong in one sentence, and give the exit code."""
    prepare_streams()
    if sys.stdout is None:
        if sys.stderr is not None:
            complain(say.NOWHERE_TO_WRITE)
        return BAD
    try:
        code = _run(run)
        flush()
    except CannotShow as problem:
        return _last_words(problem, 0 if isinstance(problem, ReaderLeft) else BAD)
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
    except OSError as problem:
        return _last_words(f"{problem.filename or 'the output'}: {problem.strerror or problem}", BAD)
    except Exception as fault:
        from expert.desk.faults import fault_in_words

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
