"""What an edit changes in saved jobs."""

from __future__ import annotations

# ------------------------------------------------------------ answers

NEVER_THROUGH_INTAKE = "it never got through its intake"
NO_COMPLAINT_KNOWN = "these rules know none of its complaints"


def own_machine_does_not_fit(problem: object) -> str:
    return f"its own machine type does not fit these rules: {problem}"


def no_such_machine_type(machine: str) -> str:
    return f"these rules have no machine type '{machine}'"


# ------------------------------------------------------------ rules of

RULES_WERE_NOT_KEPT = "the rules it was opened with are not kept beside it; compare with --against"


def its_rules_are_refused(problem: object) -> str:
    return f"the rules it was opened with are refused by this program: {problem}"


def no_such_folder(folder: object) -> str:
    return f"{folder}: there is no such folder"


def git_cannot_be_asked(name: str, why: object) -> str:
    return f"'{name}' is no folder, and git cannot be asked: {why}"


def neither_folder_nor_revision(name: str, why: str) -> str:
    return f"'{name}' is neither a folder nor a revision of git: {why}"


def no_rules_at_revision(revision: str) -> str:
    return f"there are no rules in this folder at '{revision}'"


# ------------------------------------------------------------ running


def no_cluster_answers(address: str, problem: object) -> str:
    return f"no cluster answers at {address}: {problem}"


DASK_IS_NOT_INSTALLED = "--dask needs the package distributed: pip install 'bench-expert[dask]'"


def with_rules_of_before(problem: object) -> str:
    return f"with the rules of before: {problem}"


def with_edited_rules(problem: object) -> str:
    return f"with the edited rules: {problem}"


# ------------------------------------------------------------ telling


def was_and_is(what: str, was: str, now: str) -> str:
    return f"  {what}: {was} -> {now}"


def after_the_same(count: int, rest: str) -> str:
    return f"({count} alike) {rest or 'nothing more'}"


def asks_what_nobody_answered(questions: str) -> str:
    return f"  it now asks what nobody answered then: {questions}"


def more_in_json(count: int) -> str:
    return f"... and {count} more; --json has them all"


def not_compared(trace: str, trouble: str) -> str:
    return f"{trace}: not compared: {trouble}"


def compared(jobs: str, otherwise: int, same: int, untouched: int, not_compared: int) -> str:
    return (
        f"{jobs}: {otherwise} come out otherwise, {same} the same ({untouched} of them looked at nothing that was "
        f"edited), {not_compared} not compared"
    )
