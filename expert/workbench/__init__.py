"""For the senior technician: verifying a rule base (`check.py`), running its worked cases (`cases.py`, `case_runs`)."""
