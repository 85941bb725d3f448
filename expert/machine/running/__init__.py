"""Time: the machine's state, and how it changes while the clock runs.

`state.py` is what changes, `machine.py` the whole value, `advance.py` the stepping from event to event.
"""
