"""The command line in tests: run in this process; what it said on both outputs, its exit code, never a traceback."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner

from expert.cli import main
from expert.trace.reading import read_trace
from expert.trace.records import Said
from tests.dialogue.small_folder import small_folder

INTAKE = "Ann\n1\nok\nno fill\nok\nno\n1\n"
ASKED = "Look before you touch anything. Is the machine still as it was: mains on,\n  covers on? (yes / no)\n"
HERE = "Ann\nno\n"  # who takes a job up again, and may do no live work
WHO = "Who is at the bench now? Type your name.\n"
MAY = (
    "Qualified for live work on mains, by your local rules? (qualified / no: then\n"
    "  nothing with covers off and mains on)\n"
)
STANDS = WHO + "> Ann\n" + MAY + "> no\n" + ASKED + "> yes\n"
PUMP_QUESTION = "How: Listen.\nDoes the pump run?\n  (yes / no)\n"
GO_ON = "The lines have ended. Nothing is lost. Go on with:\n  expert resume --rules RULES --jobs JOBS 7\n"
AT_THE_PUMP = INTAKE + "yes\n"  # switched on: the first question is put


@dataclass(frozen=True)
class Ran:
    """What a command said and how it ended."""

    code: int
    out: str
    err: str


@dataclass(frozen=True)
class Shop:
    """A folder of small rules and a folder of jobs."""

    rules: Path
    jobs: Path

    @classmethod
    def at(cls, folder: Path) -> Shop:
        return cls(small_folder(folder / "rules"), folder / "jobs")

    def trace(self, number: str = "7") -> Path:
        return self.jobs / f"{number}.jsonl"

    def bench(self, typed: str | bytes, number: str = "7") -> Ran:
        words = ("bench", "--plain", "--rules", self.rules, "--jobs", self.jobs, "--job", number)
        return self.with_short_paths(run(*words, typed=typed))

    def resume(self, typed: str | bytes = "", number: str = "7") -> Ran:
        words = ("resume", "--plain", "--rules", self.rules, "--jobs", self.jobs, number)
        return self.with_short_paths(run(*words, typed=typed))

    def with_short_paths(self, ran: Ran) -> Ran:
        """What was said, with RULES and JOBS for the two folders in the command that goes on with a job."""
        out = ran.out.replace(f"--rules {self.rules} ", "--rules RULES ").replace(
            f"--jobs {self.jobs} ", "--jobs JOBS "
        )
        return Ran(ran.code, out, ran.err)

    def play(self, text: str | bytes) -> Ran:
        """Play an answers file with this text, the outcome as JSON."""
        file = self.rules.parent / "answers.yaml"
        file.write_bytes(text if isinstance(text, bytes) else text.encode())
        return self.play_file(file)

    def play_file(self, file: Path) -> Ran:
        return run("bench", "--rules", self.rules, "--jobs", self.jobs, "--answers", file, "--json")

    def edit_rules(self, old: str, new: str, file: str = "circuits/fill.yaml") -> None:
        path = self.rules / file
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new), "utf-8")


def run(*words: object, typed: str | bytes = "") -> Ran:
    """Run a command. Fails when it ends in anything but an exit code."""
    result = CliRunner().invoke(main, [str(word) for word in words], input=typed)
    assert result.exception is None or isinstance(result.exception, SystemExit), repr(result.exception)
    assert "Traceback" not in result.output and "The program failed here" not in result.output, result.output
    return Ran(result.exit_code, result.stdout, result.stderr)


def said(path: Path) -> list[str]:
    """The lines that were typed, as the trace has them."""
    return [record.text for record in read_trace(path).records if isinstance(record, Said)]
