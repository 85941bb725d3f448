"""The job and its talk with the technician. The heart is `steps.step(job, line) -> (job, records)`: pure.

- `job.py`: all that is known of one job, and the prompt it waits at
- `steps.py`: begin, step, and what comes next
- `intake.py`, `bench_moves.py`, `asking.py`, `searching.py`, `ending.py`, `dangers.py`, `mending.py`, `closing.py`: one
  part of the talk each; `situation.py`: where the search stands
- `after_opening.py`: the safety tests of a machine that was opened and goes back unrepaired
- `standing.py`: whether a machine still stands as recorded, when its job is taken up again
- `commands.py`: why, how, what if, suspects, note and the rest; `taking_back.py`: answers, take back;
  `command_words.py`, `mistyped.py`: the words of the commands, and what a mistyped line was meant to be
- `values.py`: plate, readings and worked-out values for the formulas
- `wording.py`: records as the technician reads them
- `unattended.py`: plays a job from an answers file; `replay.py`: runs a trace again
- `differences.py`: how a re-run differs, in sentences
- `session.py`: the job with its trace; `opening.py`, `pinning.py`: its files; `outcome.py`: its result as plain data
- `plain.py`, `chat.py` with its `chat_*.py`: the terminals that speak for the job
- `demo.py`, `demo_phases.py`: saved jobs, played and rendered
"""
