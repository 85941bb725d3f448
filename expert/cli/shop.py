"""For the shop: the audit of a trace."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from expert.cli.out import complain, say, say_data
from expert.cli.shared import JOBS, RULES, load, refuse


@click.command()
@RULES
@JOBS
@click.option("--rerun", is_flag=True, help="Also run the recorded lines again and compare.")
@click.option("--json", "as_json", is_flag=True, help="The same as one JSON object.")
@click.argument("trace")
def audit(rules: Path | None, jobs: Path | None, rerun: bool, as_json: bool, trace: str) -> None:
    """Verify a trace and tell its reasoning. TRACE is a job number or the path of a trace.

    Exit code 1 when the trace was changed, or when --rerun does not give the same job.
    """
    from expert.desk.opening import trace_path
    from expert.shop.audit import audit_as_data, audit_in_words, audit_trace, rules_at_hand, verdict_on
    from expert.trace.errors import TraceDamaged, TraceError

    try:
        path = trace_path(trace, jobs)
        base = load(rules).base if rules else rules_at_hand(path)
        result = audit_trace(path, base, (base or load(None).base) if rerun else None)
    except TraceDamaged as damage:
        complain(damage)
        sys.exit(1)
    except TraceError as problem:
        refuse(problem)
    # The story first, then what is wrong with it, then the verdict: in this order also where both go to one terminal.
    say_data(audit_as_data(result)) if as_json else say("\n".join(audit_in_words(result)))
    sys.stdout.flush()
    for found in result.problems:
        complain(found)
    if not as_json:
        say(verdict_on(result))
    sys.exit(0 if result.is_good else 1)
