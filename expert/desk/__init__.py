"""The desk that a job lies on: its trace, its files, a re-run, a play with nobody at the keyboard.

- `session.py`: the job with its trace; `opening.py`, `pinning.py`: its files; `result.py`: its result as plain data
- `replay.py`: runs a trace again, by question; `comparing.py`: what is decided or said otherwise; `differences.py`: the
  same in sentences
- `unattended.py`: plays a job from an answers file; `answer_checks.py`: refuses such a file before anything is played
- `job_list.py`: the jobs of a folder; `profile/`: the shop's own; `intake_lines.py`: the intake of older traces
- `program.py`: which program this is; `faults.py`: where the program itself fails
"""
