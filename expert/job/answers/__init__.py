"""From a typed line to what is known: `reading.py` understands it, `taking.py` lets the rules conclude from it."""
