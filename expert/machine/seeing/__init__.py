"""Observing: every question that can be put to the machine, one frozen value each, and what comes back.

`observations.py` is the list of what can be asked, `seen.py` of what can come back, and `observe.py` answers:
`observe(machine, observation) -> (machine, seen)`. Behind it `electrical.py`, `gauges.py`, `sights.py`,
`inspections.py` and `watching.py`, each for its kind; `instruments.py` says how exact a reading is.
"""
