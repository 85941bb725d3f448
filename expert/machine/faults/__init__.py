"""Every failure mode of layout A as a change of parameters, named by part and mode in plain words.

`change.py` says what a change is and how it is undone, `fault.py` what a fault is; `mains.py`, `heat.py`, `boiler.py`,
`fill.py`, `brew.py` and `circumstances.py` are the rows, `catalogue.py` puts them together. No rule's names here.
"""
