"""For whoever edits the rules: what there is, what uses what, a picture of it, and schemas for the editor."""

from __future__ import annotations

import json
import shutil
import sys
import textwrap
from pathlib import Path

import click

from expert.cli import sentences
from expert.cli.shared import JOBS, RULES, load, refuse
from expert.terminal.out import say


@click.command()
@RULES
@JOBS
@click.option("--all", "listed", is_flag=True, help="List every id; with words, those about them.")
@click.argument("words", nargs=-1)
def explain(rules: Path | None, jobs: Path | None, listed: bool, words: tuple[str, ...]) -> None:
    """Everything about an id of the rules: where it stands, what it uses and what uses it.

    Also the worked cases that name it, and the saved jobs in which it came up. With --all WORDS it answers: which
    question about this is there already?

    \b
    expert explain element_resistance
    expert explain --all steam pressure
    """
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped
    from expert.language.worked.cases import load_cases
    from expert.trace.places import jobs_folder
    from expert.workbench.explaining import NoSuchId, entries_of, explained_id, found_by

    base = load(rules).base
    if listed:
        found = found_by(entries_of(base), words)
        for entry in found:
            say_wrapped(f"{entry.sort} {entry.id}: {entry.about}")
        if not found:
            say(sentences.nothing_is_about(" ".join(words)))
        return
    if len(words) != 1:
        refuse(sentences.NAME_ONE_ID)
    try:
        cases = load_cases(rules or shipped("rules"), base)
    except RulesRefused as refused:
        refuse(*refused.problems)
    folder = jobs or jobs_folder()
    try:
        for line in explained_id(base, words[0], cases, folder if folder.is_dir() else None):
            say_wrapped(line)
    except NoSuchId as unknown:
        refuse(unknown)


def say_wrapped(line: str) -> None:
    """A line, on a terminal broken between words; in a pipe one line stays one line."""
    if not sys.stdout.isatty():
        say(line)
        return
    indent = " " * (len(line) - len(line.lstrip(" ")) + 2)
    width = shutil.get_terminal_size().columns
    for part in textwrap.wrap(line, width, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False):
        say(part)


@click.command("map")
@RULES
@click.option("--mermaid", "as_mermaid", is_flag=True, help="Mermaid text instead of Graphviz.")
@click.option("--svg", type=click.Path(path_type=Path, dir_okay=False), default=None, help="Draw it to this file.")
@click.argument("name", required=False)
def map_(rules: Path | None, as_mermaid: bool, svg: Path | None, name: str | None) -> None:
    """A picture of the rules: complaints, parts and faults by circuit, or around NAME.

    NAME is a circuit, complaint, part, fault, question, finding or rule. --svg needs Graphviz on this computer.

    \b
    expert map boiler_fill --svg fill.svg
    expert map heating_element.open_circuit --mermaid
    """
    from expert.workbench.drawing import CannotDraw, draw
    from expert.workbench.explaining import NoSuchId
    from expert.workbench.mapping import map_of
    from expert.workbench.picture import graphviz, mermaid

    try:
        picture = map_of(load(rules).base, name)
    except NoSuchId as unknown:
        refuse(unknown)
    if svg is not None:
        try:
            draw(graphviz(picture), svg)
        except CannotDraw as problem:
            refuse(problem)
        return
    say(mermaid(picture) if as_mermaid else graphviz(picture))


@click.command()
@RULES
@click.option("--write", "folder", type=click.Path(path_type=Path, file_okay=False), help="Write them all here.")
@click.argument("sort", required=False)
def schema(rules: Path | None, folder: Path | None, sort: str | None) -> None:
    """JSON Schemas of the rule files and of traces, for an editor that completes and underlines.

    SORT is circuit, machine, bench ... cases, answers or trace. They offer the ids of the rule base: after new ones
    were given, write them again. They are made from rules with mistakes in them, too.

    \b
    expert schema circuit
    expert schema --write .schemas
    """
    from expert.language.load import names_in
    from expert.language.schemas import file_schemas
    from expert.language.shipped import shipped
    from expert.trace.schema import trace_schema

    schemas = {**file_schemas(names_in(rules or shipped("rules"))), "trace": trace_schema()}
    if folder is not None:
        folder.mkdir(parents=True, exist_ok=True)
        for name, content in schemas.items():
            (folder / f"{name}.json").write_text(json.dumps(content, indent=1, ensure_ascii=False), encoding="utf-8")
        say(sentences.schemas_written(len(schemas), folder))
        return
    if sort not in schemas:
        refuse(sentences.name_a_sort_of_file(", ".join(schemas)))
    say(json.dumps(schemas[sort], indent=1, ensure_ascii=False))
