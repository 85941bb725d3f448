"""Possible outcomes and how rules narrow them. Pure: no files, no clock, no chance; nothing here knows of YAML.

Read in this order:

- `outcomes.py`: sets of outcomes as whole numbers
- `facts.py`: the facts by number
- `gates.py`: conditions as gates that count what they lack
- `order.py`: facts in an order in which premises come first
- `network.py`: all of that for one rule base, built once, never changed
- `spreading.py`: how a change spreads; all the work is done here
- `state.py`: what is known at one moment of a job; answers in, changes out
- `reasons.py`: why, down to the answers; and which answers contradict each other
- `from_rules.py`: from a rule base to its network

>>> from expert.language.model import Is
>>> network = Network.build(
...     {"fill_coil": ("open", "shorted", "sound"), "coil_broken": ("present", "absent")},
...     [("coil_is_open", Is("fill_coil", ("open",)), (("coil_broken", ("present",)),))],
... )
>>> state = State(network)
>>> state.narrow("answer 1", "fill_coil", ["open"]).fired
('coil_is_open',)
>>> state.possible("coil_broken")
('present',)
"""

from expert.engine.from_rules import network_of
from expert.engine.network import Network
from expert.engine.order import Circular
from expert.engine.outcomes import UnknownName
from expert.engine.reasons import Follows, Reason, Said
from expert.engine.state import Change, State

__all__ = ["Change", "Circular", "Follows", "Network", "Reason", "Said", "State", "UnknownName", "network_of"]
