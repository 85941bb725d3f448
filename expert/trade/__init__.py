"""Units, instruments and the calculations of the trade, each with its source.

Pure functions on plain numbers and small frozen values: no files, no clock, and no imports from the rest of the
program. Start with `quantities/units.py` (reading and showing quantities as people type them), then
`sensors/instruments.py` (how far a reading can be trusted), then `figures/register.py` (the register of every
calculation that a rule or a person may ask for). `physics/` holds the calculations, `limits/` what countries and
standards set. One calculation kind, one file.
"""
