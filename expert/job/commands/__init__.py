"""Plain words that may be typed at any prompt."""
