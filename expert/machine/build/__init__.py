"""What a machine is made of: rating plate, place, and the parameters of every part, sound or not.

Everything here is a frozen value. A fault is nothing but other numbers in `Parts` (see `faults/`). Start with
`plate.py`, then `parts.py`.
"""
