"""The bench: in which state the machine stands, and what hands do to it.

`bench.py` is the state (plugged, covers, lever, taps, what was altered for a test), `actions.py` what can be done, one
frozen value each, and `hands.py` does it: `do(machine, action) -> machine`.
"""
