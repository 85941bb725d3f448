"""What an edit of the rules would have changed in saved jobs: `expert impact`.

`answers.py` makes answers of a trace, `ends.py` plays them and compares two ends, `running.py` does it for many jobs on
all cores or on a cluster, `telling.py` puts it into words. `rules_of.py` finds the rules that are compared.
"""
