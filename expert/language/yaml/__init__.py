"""YAML text to light nodes with their places, what is wrong with a text that is no YAML, and data back to text.

Start with `nodes.py` (what comes out) and `tree.py` (how).
"""
