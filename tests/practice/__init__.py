"""Practice: machines by level and seed, scores, seasons."""
