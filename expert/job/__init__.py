"""One job, from intake to close. Pure as a whole: no clock, no files, no chance. The heart is `steps.step`.

Read from the bottom up; a folder imports only those above it in this list:

- `sentences/`: what is said, in one place for each phase; to reword or translate the program, read and edit these
- `state/`: all that is known of a job, and what follows from it: values, suspects, how the bench stands
- `wording/`: what the technician reads: records, reasons, limits, the customer's summary
- `answers/`: from a typed line to what is known: words, readings, slips, the rules' conclusions
- `bench/`: bringing the bench into the state that the next step needs
- `search/`: what to ask next, the short list, and how a search ends
- `prompts/`: what the job can wait at, one module for each kind; `registry.py` lists them
- `figures/`: the calculations of the trade, typed at the prompt
- `commands/`: why, how, what if, answers, take back and the rest: what may be typed at any prompt
- `beginning.py`: a new job and its first prompt
- `steps.py`: step, and what comes next
"""
