"""The desk that a job lies on: its trace, its files, a re-run, a play with nobody at the keyboard.

- `session.py`: the job with its trace; `opening.py`, `pinning.py`: its files; `result.py`: its result as plain data
- `replay.py`: runs a trace again; `differences.py`: how a re-run differs, in sentences
- `unattended.py`: plays a job from an answers file; `answer_checks.py`: refuses such a file before anything is played
"""
