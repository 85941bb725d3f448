"""Checks of the trade's calculations and of the diagnosis against sources outside this project.

Every expected number comes from the source named beside it, never from running our code; `sources.py` says what a
comparison with it is worth. A run of this folder prints what rests on what, and fails when too little is independent.
"""
