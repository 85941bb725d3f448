"""`python -m tests.benchmarks.broken_figures [--places N] [--seed N] [--only TEXT] [--json]`: is each figure held?

N random places (10) of what `expert/trade` works out are broken, one at a time, in a copy: a number by a tenth, a sign
to its opposite, a function to its neighbour. `tests/reference` is run on each. Prints for each place the best thing
that failed: a comparison that is *independent*, a *transcription*, a *round trip* or *restated*, another test, or
`nothing`. What only says where a figure holds (`within`, `above`, `raise`) is left alone: no outside source tells that.
"""

from __future__ import annotations

import argparse
import ast
import json
import random
import re
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.reference.sources import Basis

TOP = Path(__file__).resolve().parents[2]
FOLDERS = (
    "physics",
    "limits",
    "sensors",
    "quantities/units.py",
    "quantities/unit_names.py",
    "quantities/wire_gauge.py",
)
SIGNS: dict[type[ast.operator], str] = {ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*", ast.Pow: "*"}
NEIGHBOURS = {
    "log": "log10",
    "log10": "log",
    "exp": "expm1",
    "sqrt": "cbrt",
    "min": "max",
    "max": "min",
    "hypot": "dist",
}
TESTS = "tests/reference"
OPTIONS = ["-q", "-n0", "-pno:cacheprovider", "--tb=short", "--ignore=tests/reference/diagnosis"]
ANOTHER_TEST, NOTHING = "another test", "nothing"


@dataclass(frozen=True, slots=True)
class Break:
    """One change of one file: the text from `start` to `end` becomes `text`."""

    path: str
    line: int
    start: int
    end: int
    text: str
    was: str


def places(path: Path) -> Iterator[Break]:
    """What can be broken in a file, top to bottom."""
    source = path.read_text(encoding="utf-8")
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))

    def at(line: int, column: int) -> int:
        return starts[line - 1] + len(source.splitlines()[line - 1].encode()[:column].decode())

    for node in _worked_out(ast.parse(source)):
        for first, last, text in _changes(node):
            start, end = at(*first), at(*last)
            yield Break(str(path.relative_to(TOP)), node.lineno, start, end, text, source[start:end])


def _worked_out(node: ast.AST) -> Iterator[ast.expr]:
    """Every expression that takes part in a result."""
    for child in ast.iter_child_nodes(node):
        call = child.value if isinstance(child, ast.Expr) else child
        if isinstance(child, ast.Raise | ast.Import | ast.ImportFrom | ast.arg) or (
            isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id in ("within", "above")
        ):
            continue
        if isinstance(child, ast.expr):
            yield child
        yield from _worked_out(child)


def _changes(node: ast.expr) -> Iterator[tuple[tuple[int, int], tuple[int, int], str]]:
    """How one expression can be broken: from where to where, and by which text."""
    here, there = (node.lineno, node.col_offset), (node.end_lineno or 0, node.end_col_offset or 0)
    if isinstance(node, ast.Constant) and isinstance(node.value, float | int) and not isinstance(node.value, bool):
        yield here, there, repr(round(node.value * 1.1, 12) if node.value else 1.0)
    elif isinstance(node, ast.BinOp) and type(node.op) in SIGNS:
        left, right = node.left, node.right
        whole = f"({ast.unparse(left)}) {SIGNS[type(node.op)]} ({ast.unparse(right)})"
        yield here, there, f"({whole})"
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute | ast.Name):
        name = node.func.attr if isinstance(node.func, ast.Attribute) else node.func.id
        if name in NEIGHBOURS and name != "hypot":
            end = (node.func.end_lineno or 0, node.func.end_col_offset or 0)
            yield (end[0], end[1] - len(name)), end, NEIGHBOURS[name]


def chosen(count: int, seed: int, only: str) -> list[Break]:
    """Places drawn without regard to whether anything holds them."""
    trade = TOP / "expert" / "trade"
    files = sorted(path for name in FOLDERS for path in (trade / name, *(trade / name).glob("*.py")) if path.is_file())
    found = [broken for path in files if only in str(path) and (broken := list(places(path)))]
    draw = random.Random(seed)
    return [draw.choice(draw.choice(found)) for _ in range(count)]  # the file first: tables are long


def judged(place: Break, copy: Path) -> str:
    """The best thing that fails with this place broken; the tests that name its module are asked first."""
    file = copy / place.path
    whole = (TOP / place.path).read_text(encoding="utf-8")
    file.write_text(whole[: place.start] + place.text + whole[place.end :], encoding="utf-8")
    module = place.path.removesuffix(".py").replace("/", ".")
    near = [
        str(test.relative_to(copy)) for test in (copy / TESTS).glob("test_*.py") if module in test.read_text("utf-8")
    ]
    best = failing(near, copy) if near else NOTHING
    if best != Basis.INDEPENDENT.value:
        best = failing([TESTS], copy)
    file.write_text(whole, encoding="utf-8")
    return best


def failing(tests: list[str], copy: Path) -> str:
    """The best thing that fails in these tests."""
    command = [sys.executable, "-m", "pytest", *OPTIONS, *tests]
    run = subprocess.run(command, cwd=copy, capture_output=True, text=True, check=False)
    failed = {basis for basis in Basis if re.search(rf"^E .*\({basis.value}: ", run.stdout, re.MULTILINE)}
    best = next((basis.value for basis in Basis if basis in failed), None)
    return best or (ANOTHER_TEST if run.returncode else NOTHING)


def copy_of_the_house(folder: Path) -> Path:
    """What the tests of the figures need, and no more."""
    shutil.copytree(TOP / "expert", folder / "expert", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(TOP / "tests" / "reference", folder / "tests" / "reference")
    for name in ("tests/__init__.py", "tests/conftest.py", "pyproject.toml"):
        shutil.copy(TOP / name, folder / name)
    return folder


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--places", type=int, default=10)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--only", default="", help="only files whose path contains this")
    parser.add_argument("--json", action="store_true")
    asked = parser.parse_args()
    rows: list[dict[str, object]] = []
    with tempfile.TemporaryDirectory() as folder:
        copy = copy_of_the_house(Path(folder))
        for place in chosen(asked.places, asked.seed, asked.only):
            by = judged(place, copy)
            rows.append({"place": f"{place.path}:{place.line}", "was": place.was, "broken": place.text, "failed": by})
            if not asked.json:
                print(f"{by:14} {place.path}:{place.line}  {place.was}  ->  {place.text}", flush=True)
    counts = Counter(str(row["failed"]) for row in rows)
    print(json.dumps({"places": len(rows), "failed": counts, "rows": rows}) if asked.json else dict(counts))


if __name__ == "__main__":
    main()
