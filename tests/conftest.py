"""For the whole run: the table of checks against outside sources, also when several processes share the tests."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

from tests.reference.tallies import TALLIES, counted, packed, shortfall, table, unpack

REFERENCE = Path(__file__).parent / "reference"

# The ordinary run tries the same examples every time, and none fails for being slow: what a change broke is then all
# that can fail. `--hypothesis-profile=wander` looks for examples that nobody has tried yet.
settings.register_profile(
    "steady", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
settings.register_profile("wander", deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("steady")


def pytest_configure() -> None:
    """Nothing that the tests do is kept in the cache of whoever runs them, and nobody's own shop plays in them."""
    os.environ["XDG_CACHE_HOME"] = tempfile.mkdtemp(prefix="expert-cache-")
    os.environ["EXPERT_SHOP"] = str(Path(os.environ["XDG_CACHE_HOME"]) / "no-shop.yaml")


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    """A process that runs a share of the tests sends its tallies to the one that prints them.

    That one fails a run of the whole folder in which too little was compared with something independent.
    """
    output: dict[str, Any] | None = getattr(session.config, "workeroutput", None)
    if output is not None:
        output["tallies"] = packed()
    elif exitstatus == pytest.ExitCode.OK and whole_folder_ran(session.config) and shortfall(counted(TALLIES)):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node: Any, error: object) -> None:
    """Take over what a process counted that has come to its end."""
    unpack(getattr(node, "workeroutput", {}).get("tallies", []))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    if not TALLIES:
        return
    terminalreporter.section("checks against outside sources")
    for line in table(TALLIES):
        terminalreporter.write_line(line)
    if whole_folder_ran(config) and (missing := shortfall(counted(TALLIES))):
        terminalreporter.write_line(f"FAILED: {missing}", red=True)


def whole_folder_ran(config: pytest.Config) -> bool:
    """Whether every test of `tests/reference` was wanted: a part of them need not reach the whole's numbers."""
    options = config.option
    if options.keyword or options.markexpr or options.collectonly or getattr(options, "lf", False) or options.deselect:
        return False
    start = Path(str(config.invocation_params.dir))
    left_out = [(start / str(path)).resolve() for path in options.ignore or ()]
    roots = [(start / argument).resolve() for argument in config.args if "::" not in argument]
    return any(root in (REFERENCE, *REFERENCE.parents) for root in roots) and not any(
        path == REFERENCE or REFERENCE in path.parents for path in left_out
    )
