"""Practice: a hidden fault on the simulated machine, found by choosing the tests.

`levels.py` says what kinds of machines there are to practise on, `scenario.py` makes one from a level and a seed, the
same for a whole class; `score.py` counts a junior's way beside the expert's, `season.py` sums a technician's scores.
"""
