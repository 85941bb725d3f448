"""For the whole run: the table of checks against outside sources, also when several processes share the tests."""

from __future__ import annotations

from typing import Any

import pytest

from tests.reference.tallies import TALLIES, packed, unpack


def pytest_sessionfinish(session: pytest.Session) -> None:
    """A process that runs a share of the tests sends its tallies to the one that prints them."""
    output: dict[str, Any] | None = getattr(session.config, "workeroutput", None)
    if output is not None:
        output["tallies"] = packed()


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node: Any, error: object) -> None:
    """Take over what a process counted that has come to its end."""
    unpack(getattr(node, "workeroutput", {}).get("tallies", []))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    if not TALLIES:
        return
    terminalreporter.section("checks against outside sources")
    terminalreporter.write_line(f"{'kind':13}{'values':>7}  {'worst deviation (allowed)':32} source")
    for (kind, source), tally in sorted(TALLIES.items()):
        worst = f"{tally.deviation:.2g} ({tally.allowed:.2g}) {tally.unit}".rstrip()
        terminalreporter.write_line(f"{kind:13}{tally.values:>7}  {worst:32} {source}")
    total = sum(tally.values for tally in TALLIES.values())
    kinds = len({kind for kind, _ in TALLIES})
    terminalreporter.write_line(f"{total} values in {kinds} kinds")
