"""The figures: every calculation that a rule formula or a person may call by name.

`calculation.py` is the record of one figure, `register.py` the list of all; an `of_...` module names the figures of one
subject and says what they take and give.
"""
