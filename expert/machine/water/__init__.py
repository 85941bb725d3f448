"""The water side: the pump's curve (`pump.py`), holes in a row (`holes.py`), the whole piping solved (`flows.py`)."""
