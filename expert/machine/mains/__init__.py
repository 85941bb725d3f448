"""The electrical side: a linear network of layout A's wiring, solved for what consumers get and what meters show.

`network.py` solves any network; `wiring.py` is the layout; `insulation.py` the paths to the body; `supply.py` what
every consumer gets with the machine on; `control_volts.py` the controller's direct voltage; `signals.py` what board
and controller see at their inputs.
"""
