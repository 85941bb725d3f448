"""The simulated machine against the real dialogue."""
