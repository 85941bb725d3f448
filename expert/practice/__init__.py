"""Practice: a hidden fault on the simulated machine, found by choosing the tests.

`levels.py` says what kinds of machines there are to practise on, `scenario.py` makes one from a level and a seed, the
same for a whole class; `score.py` counts a junior's way beside the expert's, `season.py` sums a technician's scores.
The dialogue is `step(practice, line) -> (practice, lines)` in `stepping.py`, pure. It keeps a real job, so that the
gates and cautions are the real ones (`testing.py`, `moving.py`); `finding.py` knows what words mean, `naming.py` what
comes of a name, `ending.py` what is told at the end. `opening.py` loads, `at_terminal.py` is the skin.
"""
