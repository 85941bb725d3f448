"""Finding: what to ask next, and how a search ends."""
