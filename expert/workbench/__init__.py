"""For the senior technician: verifying a rule base (`check.py`) and running its worked cases (`cases.py`)."""
