"""Rule files in YAML to a checked, immutable rule base; problems with file, line and column.

`model.py` holds the records: start there. `load.py` is the way in: text (`text_check.py`) to nodes (`nodes.py`),
a survey of all names (`survey.py`), nodes to records (`small_files.py`, `bench_file.py`, `circuit_file.py`), then the
checks on the whole (`checks/`). `formula.py` works formulas out; `cases.py` reads worked cases and answers files;
`printing.py` writes a rule base back. No YAML leaves this package, and nothing in it is ever executed.
"""

from expert.language.load import load_rules, read_rules
from expert.language.problems import Problem, RulesRefused

__all__ = ["Problem", "RulesRefused", "load_rules", "read_rules"]
