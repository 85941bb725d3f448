"""The heat side: properties of water and steam, the boiler's pressure, steam through holes, the sensor's curve.

All of it textbook physics on plain numbers and parameters; the clock is in `running/`.
"""
