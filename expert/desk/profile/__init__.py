"""The shop's profile: said once, kept in a small YAML file that a person can edit.

- `keys.py`: what may stand in it; `reading.py`: from its text to a `Profile`, or all problems with line and column
- `writing.py`: back to text; `setting_up.py`: the dialogue of `expert shop --set-up`
- `using.py`: what a job takes from it, and how the trace keeps that
"""
