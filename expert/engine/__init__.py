"""Possible outcomes, how rules narrow them, and what to ask next. Pure: no files, no clock, no chance; no YAML.

The inference engine, in the order in which it is best read:

- `outcomes.py`, `facts.py`: sets of outcomes as whole numbers, and the facts by number
- `gates.py`: conditions as gates that count what they lack
- `order.py`: facts in an order in which premises come first
- `network.py`: all of that for one rule base, built once, never changed
- `spreading.py`: how a change spreads; all the work is done here
- `state.py`: what is known at one moment of a job; answers in, changes out
- `reasons.py`: why, down to the answers; and which answers contradict each other
- `from_rules.py`: from a rule base to its network

>>> from expert.language.model import All, Is
>>> network = Network.build(
...     {
...         "pump": ("runs", "silent"),
...         "level": ("rises", "stays"),
...         "coil": ("open", "shorted", "sound"),
...         "water_held_up": ("yes", "no"),
...         "valve": ("shut", "works"),
...     },
...     [
...         ("held_up", All((Is("pump", ("runs",)), Is("level", ("stays",)))), (("water_held_up", ("yes",)),)),
...         ("shut", All((Is("water_held_up", ("yes",)), Is("coil", ("open", "shorted")))), (("valve", ("shut",)),)),
...     ],
... )
>>> state = State(network)
>>> state.narrow("answer 1", "pump", ["runs"]).fired
()
>>> state.narrow("answer 2", "level", ["stays"]).fired
('held_up',)
>>> state.narrow("answer 3", "coil", ["open", "shorted"]).fired    # the meter could not tell which; either will do
('shut',)
>>> state.possible("valve")
('shut',)
>>> sorted(state.reasons("valve").sources())
['answer 1', 'answer 2', 'answer 3']
>>> state.what_if("level", ["rises"]).narrowed["level"]    # would contradict answer 2
(('stays',), ())
>>> state.take_back("answer 2").unfired
('held_up', 'shut')
>>> state.possible("valve"), state.possible("coil")
(('shut', 'works'), ('open', 'shorted'))
"""

from expert.engine.from_rules import network_of
from expert.engine.network import Network
from expert.engine.order import Circular
from expert.engine.outcomes import UnknownName
from expert.engine.reasons import Follows, Reason, Said
from expert.engine.state import Change, State

__all__ = ["Change", "Circular", "Follows", "Network", "Reason", "Said", "State", "UnknownName", "network_of"]
