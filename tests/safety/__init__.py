"""Nothing dangerous, ever: random jobs through the real dialogue, and a judge with code of its own.

The judge reads the records of a trace and the declared data of the rule base, and nothing else: never the functions
that the dialogue decides with. `account` keeps what is on record, `watching` the declared hazards, `judge` holds every
record to the invariants; `technicians` are random people who seek the dangers, `playing` lets one of them play a job.
Start with judge.py.
"""
