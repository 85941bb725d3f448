"""Bringing the bench into the state that the next step needs, one confirmed move at a time."""
