"""Formulas: text to a raw tree (`syntax.py`), kinds settled (`kinds.py`), worked out (`formula.py`)."""
