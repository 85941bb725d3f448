"""Worked cases and answers files: what a technician would type, and what should come of it."""
