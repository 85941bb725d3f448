"""What something else did to a part: whoever names such a part condemns nothing sound."""

from __future__ import annotations

from collections.abc import Iterable

from expert.machine import Machine


def consequences(machine: Machine) -> set[str]:
    """Parts of the rules that are as they are because something else acted on them."""
    state = machine.state
    happened: Iterable[tuple[bool, str]] = (
        (state.fuse_blown or state.board_fuse_blown, "mains_fuse"),
        (state.board_fuse_blown, "board_supply"),
        (state.tank < 0.2, "water_tank"),
        (state.limit_1_open or state.limit_2_open, "high_limit"),
        (state.element_burnt, "heating_element"),
        (state.boiler_water < 0.7, "boiler_water"),
        (state.limiter_open, "pump_limiter"),
        (state.loop_air, "thermosyphon"),
        (not state.primed, "vibration_pump"),
        (state.moisture > 0.2, "insulation"),
    )
    return {part for is_so, part in happened if is_so}
