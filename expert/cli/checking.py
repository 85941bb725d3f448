"""For whoever edits the rules: verify them, once or after each edit."""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

import click

from expert.cli.shared import refuse
from expert.terminal.out import complain, say


@click.command()
@click.argument("rules", type=click.Path(path_type=Path), required=False)
@click.option("--advice/--no-advice", default=True, help="Also tell what could be better.")
@click.option("--json", "as_json", is_flag=True, help="The same as one JSON object.")
@click.option(
    "--explain", "code", default=None, metavar="CODE", help="What the code in a message means, and what to do."
)
@click.option("--witness", is_flag=True, help="For each machine and fault, the answers that find it.")
@click.option("--watch", is_flag=True, help="Check again after every edit, until Ctrl-C.")
def check(rules: Path | None, advice: bool, as_json: bool, code: str | None, witness: bool, watch: bool) -> None:
    """Verify a rule base: every problem with file, line and column.

    Exit code 2 when the rules are refused, 1 when a confirm is not proved, else 0: advice is not wrong.
    """
    from expert.language.shipped import shipped
    from expert.workbench.checking import as_data, in_a_line, look_at, witnesses
    from expert.workbench.manual import NoSuchCode, explained

    if code is not None:
        try:
            say(explained(code))
        except NoSuchCode as unknown:
            refuse(unknown)
        return
    folder = rules or shipped("rules")
    if watch:
        watch_over(folder, advice)
        return
    look = look_at(folder, advice)
    if as_json:
        say(json.dumps(as_data(look), indent=2, ensure_ascii=False))
        sys.exit(2 if look.base is None else 1 if look.problems else 0)
    for problem in (*look.problems, *look.advice):
        complain(problem)
    if look.base is None:
        refuse(in_a_line(look))
    if witness:
        for line in witnesses(look.base):
            say(line)
    say(in_a_line(look))
    sys.exit(1 if look.problems else 0)


GLANCE = 0.05  # seconds between two looks at the files' times


def watch_over(folder: Path, with_advice: bool) -> None:
    """Check after each edit until Ctrl-C. What is new since the last edit is told first; what is gone is counted."""
    from expert.workbench.checking import in_a_line, looks

    before: set[str] = set()
    try:
        for look in looks(folder, with_advice, lambda: time.sleep(GLANCE)):
            found = [str(problem) for problem in (*look.problems, *look.advice)]
            gone = len(before - set(found))
            for line in sorted(found, key=lambda line: line in before):
                say(line)
            say(f"{time.strftime('%H:%M:%S')} {in_a_line(look)}" + (f"; {gone} gone" if gone else ""))
            before = set(found)
    except KeyboardInterrupt:
        say("")
