"""The prompt of the chat: a thin skin over `Session.say`, with completion, remarks while typing and bottom lines."""

from __future__ import annotations

import contextlib
from collections.abc import Iterable

from prompt_toolkit import PromptSession, print_formatted_text
from prompt_toolkit.application import get_app
from prompt_toolkit.application.current import get_app_session
from prompt_toolkit.filters import Condition
from prompt_toolkit.formatted_text import FormattedText, StyleAndTextTuples

from expert.desk.faults import NotTaken
from expert.desk.session import Session
from expert.job.prompts.registry import owner_at
from expert.job.state.job import Job
from expert.job.wording.records import lines_of_reply
from expert.terminal import sentences as say
from expert.terminal.beside import NOTHING, bench_in_words, joined, remark_on, time_so_far, where_it_stands
from expert.terminal.completion import JobCompleter
from expert.terminal.keyboard import TypedBefore, history_file, paste_bindings, shorten_pastes
from expert.terminal.leaving import EndedFromOutside, nothing_typed_is_shown
from expert.terminal.out import harmless
from expert.terminal.paging import Line, pages
from expert.terminal.plain_lines import AS_IT_STANDS, way_back, wrapped
from expert.terminal.style import OF_MANNER, PROMPT, REFUSED, STATUS, STYLE, UNDERSTOOD, color_depth
from expert.terminal.typed_ahead import drop_from_chat
from expert.trace.cleaning import clean
from expert.trace.errors import TraceNotWritten, TraceTooLarge
from expert.trace.records import Record

MOST_REMARK_LINES = 3


def lines_on_screen(job: Job, records: Iterable[Record], width: int) -> list[Line]:
    """What records say, wrapped to the terminal's width, each line with its manner."""
    return [
        (manner, harmless(line))
        for manner, text in lines_of_reply(job, records)
        for line in ([text] if manner in AS_IT_STANDS else wrapped(text, width))
    ]


def show_records(job: Job, records: Iterable[Record]) -> None:
    """Print all that records say, as wide as the terminal is."""
    show_lines(lines_on_screen(job, records, get_app_session().output.get_size().columns))


def show_lines(lines: Iterable[Line]) -> None:
    """Print the lines, each in the style of its manner."""
    _print([(OF_MANNER[manner], f"{line}\n") for manner, line in lines])


def _print(fragments: StyleAndTextTuples) -> None:
    print_formatted_text(FormattedText(fragments), style=STYLE, end="", color_depth=color_depth())


class Chat:
    """One job at one terminal. `again` is a line that could not be recorded and is offered once more."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.again = ""
        self.interrupted = self.leaving = self.gave_up = False
        self.trouble_told = False
        self.history = TypedBefore(history_file())
        self.prompt: PromptSession[str] = PromptSession(
            [(PROMPT, "> ")],
            style=STYLE,
            color_depth=color_depth(),
            history=self.history,
            completer=JobCompleter(lambda: session.job),
            complete_while_typing=Condition(lambda: owner_at(session.job).offers_at_once),
            reserve_space_for_menu=6,
            key_bindings=paste_bindings(),
            bottom_toolbar=self.bottom,
        )
        shorten_pastes(self.prompt.app.input)
        self._stood: tuple[Job | None, tuple[str, ...]] = (None, ())
        self._remarked: tuple[Job | None, str, str, str] = (None, "", STATUS, "")

    def talk(self, opening: Iterable[Record]) -> None:
        """Show the opening, then take lines until the job is closed or left."""
        try:
            with nothing_typed_is_shown():
                self.show(opening)
                while not (self.session.is_over or self.gave_up):
                    line = self.ask()
                    if line is not None:
                        self.send(line)
        except EndedFromOutside:
            with contextlib.suppress(OSError):  # the terminal may be gone
                self.tell("Ended from outside.")
                self.tell_way_back()
            raise

    def ask(self) -> str | None:
        """The next line; None when Ctrl-C was pressed once."""
        again, self.again = self.again, ""
        if owner_at(self.session.job).drops_typed_ahead and drop_from_chat(self.prompt.app.input):
            self.tell(say.TYPED_AHEAD_IS_DROPPED, "small")
        try:
            line = self.prompt.prompt(default=again)
        except EndedFromOutside:
            raise
        except KeyboardInterrupt:
            return self._on_interrupt()
        except EOFError:
            return self._way_out()
        self.interrupted = self.leaving = False
        return line

    def send(self, line: str) -> None:
        """Say the line and show the replies. A line that was not recorded is kept for sending again."""
        try:
            records = self.session.say(line)
        except (TraceNotWritten, TraceTooLarge) as problem:
            self.again = clean(line)
            self.tell(f"NOT RECORDED: {problem}", "danger")
            if self.leaving:
                self._give_up()
            else:
                self.tell(say.NOTHING_ELSE_HAS_CHANGED)
            return
        except NotTaken as problem:
            for line in str(problem).split("\n"):
                self.tell(line, "command" if line.startswith("  ") else "danger")
            if self.leaving:
                self._give_up()
            return
        except EndedFromOutside:
            raise
        except KeyboardInterrupt:
            self.again = clean(line)
            self.tell(say.INTERRUPTED)
            return
        _print([("", "\n")])
        self.show(records)
        if self.history.trouble and not self.trouble_told:
            self.trouble_told = True
            self.tell(self.history.trouble, "small")

    def show(self, records: Iterable[Record]) -> None:
        """Show what records say; a reply that is longer than the screen in pages, each after an Enter."""
        size = get_app_session().output.get_size()
        *before, last = pages(lines_on_screen(self.session.job, records, size.columns), size.rows)
        for page in before:
            show_lines(page)
            self._wait_for_enter()
        show_lines(last)

    def _wait_for_enter(self) -> None:
        """Until a page was read. What was typed instead of Enter is kept for the prompt, and not sent."""
        page: PromptSession[str] = PromptSession(
            [(OF_MANNER["small"], say.ENTER_SHOWS_THE_REST)], style=STYLE, color_depth=color_depth()
        )
        try:
            self.again = page.prompt() or self.again
        except EndedFromOutside:
            raise
        except (EOFError, KeyboardInterrupt):
            return

    def tell(self, text: str, manner: str = "plain") -> None:
        """A sentence of the terminal's own; it is no part of the job's record."""
        width = get_app_session().output.get_size().columns
        lines = [clean(text)] if manner == "command" else wrapped(clean(text), width)
        _print([(OF_MANNER[manner], line + "\n") for line in lines])

    def _on_interrupt(self) -> str | None:
        if self.interrupted:
            return self._way_out()
        self.interrupted = True
        self.tell(say.NOTHING_IS_LOST)
        return None

    def _way_out(self) -> str | None:
        """What has to be said to leave from here. An open take-back is answered with no first."""
        self.leaving = True
        if not owner_at(self.session.job).takes_commands:
            self.send("no")
        return "pause"

    def _give_up(self) -> None:
        """Not even leaving works: the job is left as it stands on the disk."""
        self.gave_up = True
        self.tell_way_back()

    def tell_way_back(self) -> None:
        """The command that goes on with the job, on a line of its own so that it can be copied."""
        said, command = way_back(self.session.job).split("\n")
        self.tell(said)
        self.tell(command, "command")

    # ------------------------------------------------------------ the bottom lines

    def bottom(self) -> StyleAndTextTuples:
        """The remark on the line typed, or the bench where nothing is typed; below it where the job stands."""
        width = get_app().output.get_size().columns
        style, text = self._remark(self.prompt.default_buffer.text)
        upper = wrapped(text, width)[:MOST_REMARK_LINES] if text else self._bench(width)
        lower = joined(self._standing(), width)
        return [*((style, line + "\n") for line in upper), (STATUS, "\n".join(lower))]

    def _bench(self, width: int) -> tuple[str, ...]:
        """How the bench stands and the time so far, as one line; of a narrow one the time is left out."""
        job = self.session.job
        time = time_so_far(job, self.session.minutes_by_the_clock)
        both = tuple(part for part in (bench_in_words(job), time) if part)
        return joined(both, width)[:1]

    def _remark(self, typed: str) -> tuple[str, str]:
        job = self.session.job
        if self._remarked[0] is not job or self._remarked[1] != typed:
            remark = remark_on(job, typed) if typed else NOTHING
            style = STATUS if not remark.text else REFUSED if remark.refused else UNDERSTOOD
            self._remarked = (job, typed, style, f"{'? ' if remark.refused else ''}{remark.text}")
        return self._remarked[2], self._remarked[3]

    def _standing(self) -> tuple[str, ...]:
        if self._stood[0] is not self.session.job:
            self._stood = (self.session.job, where_it_stands(self.session.job))
        return self._stood[1]
