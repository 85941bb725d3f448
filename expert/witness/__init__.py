"""The simulated machine at the bench: it answers the dialogue's questions as a technician who looks would.

The machine (`expert.machine`) knows physics and no rules; the rules know no simulation. They meet in one table for each
layout, `rules/simulated/`. Start with `table.py` (reading it), then `answering.py` (an answer from the machine), then
`playing.py` (a whole job through the real dialogue).
"""
