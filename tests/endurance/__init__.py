"""It holds: contradictions sought and cleared, traces edited, programs killed, files that nobody wrote in good faith.

A small dose runs with the ordinary tests; `python -m tests.benchmarks.endurance` gives the whole of it in one command.
"""
