"""The calculations of the trade as people type them, and their results in words."""
