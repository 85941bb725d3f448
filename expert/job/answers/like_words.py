"""Words that people use for one another when they tell what a machine does. Common speech, no source.

Only what is the same thing at every place of the machine: a word that means two things stands in no row. The first word
of a row stands for all of it.
"""

from __future__ import annotations

_ROWS = """
wand lance arm
tank reservoir container
gauge needle manometer dial
pump motor
display screen lcd readout
breaker rcd gfci rcbo mcb
drip dribble weep droplet
leak seep ooze escape
cool tepid lukewarm
hiss fizz sizzle
weak feeble thin poor faint puny
fade peter collapse dwindle
loud noisy noise racket rattle din screech clatter
steam vapour vapor
puddle pool ring patch
shock zap jolt sting tingle prickle
lamp light glow led indicator
froth foam
housing case casing chassis frame shell cabinet
smell stink reek odour
crawl ages forever sluggish
below under beneath underneath
counter worktop table bench
brew extraction

quit stop
fill refill

suck swallow draw
heater element
ground grounds
explode burst
"""


def rows() -> tuple[tuple[str, ...], ...]:
    """The words of each row, the one that stands for it first."""
    return tuple(tuple(line.split()) for line in _ROWS.split("\n") if line)
