"""A practice at this terminal: a thin skin over `step`, with completion where there is somebody at the keys."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator, Sequence

from expert.practice.practice import Practice, Stepped
from expert.practice.stepping import COMMANDS, IT_IS, given_up, step
from expert.terminal.out import say
from expert.terminal.plain_lines import WIDTH, wrapped
from expert.terminal.talking import somebody_is_there
from expert.trace.cleaning import clean

MOST_OFFERED = 40


def talk(begun: Stepped, plain: bool) -> None:
    """Talk it through until the practice is over or nothing more is typed. Raises CannotShow."""
    practice, lines = begun
    show(lines)
    now = [practice]
    chatting = somebody_is_there(plain)
    try:
        for line in _typed_in_chat(lambda: now[0]) if chatting else sys.stdin:
            if not chatting:
                say(f"> {clean(line).strip()[:200]}".rstrip())
            now[0], lines = step(now[0], line)
            show(lines)
            if now[0].over:
                return
    except KeyboardInterrupt:
        say("")
    show(given_up(now[0])[1])


def show(lines: Iterable[str]) -> None:
    """The lines, wrapped."""
    say("\n".join(piece for line in lines for piece in wrapped(line, WIDTH)))


def _typed_in_chat(practice: Callable[[], Practice]) -> Iterator[str]:
    from prompt_toolkit import PromptSession
    from prompt_toolkit.completion import CompleteEvent, Completer, Completion
    from prompt_toolkit.document import Document

    class Words(Completer):
        def get_completions(self, document: Document, complete_event: CompleteEvent) -> Iterator[Completion]:
            begun = document.text_before_cursor
            for word in completions(practice(), begun)[:MOST_OFFERED]:
                yield Completion(word, start_position=-len(begun))

    session: PromptSession[str] = PromptSession("> ", completer=Words(), complete_while_typing=False)
    while True:
        try:
            yield session.prompt()
        except EOFError:
            return


def completions(practice: Practice, begun: str) -> list[str]:
    """What a line may become: command words, moves, tests by their names, and behind "it is" the faults.

    Each word typed is the beginning of one of its words, in any order.
    """
    start = begun.casefold()
    typed = start.split()
    base = practice.job.base
    if start.startswith(IT_IS):
        words = [f"{IT_IS} {practice.job.fault_name(fault)}" for fault in base.faults]
    else:
        names = (*(move.id for move in base.bench.moves), *base.questions)
        words = [*COMMANDS, IT_IS, *(name.replace("_", " ") for name in names)]
    return [word for word in words if _has(word.casefold().replace(":", "").split(), typed)]


def _has(words: Sequence[str], typed: Sequence[str]) -> bool:
    return all(any(word.startswith(begun) for word in words) for begun in typed)
