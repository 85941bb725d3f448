"""What people type and read: kinds of quantity with their units, typed text to a quantity, a quantity to text.

`units.py` is the front and enough for nearly everybody. `bench_kinds.py` lists the kinds met on the bench; a new unit
or spelling goes there or into `spellings.py`. No physics here.
"""
