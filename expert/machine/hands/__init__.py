"""Doing: `do.py` carries an action out, `arrival.py` makes machines as a customer brings them."""
