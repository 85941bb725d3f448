"""Limits that a country or a standard sets: electrical safety in service, and the voltage of the mains."""
