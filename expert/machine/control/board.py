"""The control board's programme: level, fill call with delay and time-out, empty-tank lock, brewing, lamps."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from expert.machine.build.mains_parts import Board
from expert.machine.running.state import BoardMemory


@dataclass(frozen=True, slots=True)
class Inputs:
    """What the board is given: supply, and what is at its three inputs. float_water: the float's contact is closed."""

    powered: bool
    probe_ohms: float
    brew: bool
    float_water: bool


@dataclass(frozen=True, slots=True)
class Outputs:
    """The board's contacts and lamps now."""

    pump: bool = False
    fill: bool = False
    release: bool = False
    call_lamp: bool = False
    empty_lamp: bool = False
    alarm_lamp: bool = False


def sees_water(board: Board, inputs: Inputs) -> bool:
    """Whether the board takes the level probe for wet."""
    if board.probe_input != "works":
        return board.probe_input == "always wet"
    return inputs.probe_ohms < board.probe_wet_below


def outputs(board: Board, inputs: Inputs, memory: BoardMemory) -> Outputs:
    """Contacts and lamps for what the board is given and remembers. A welded contact stays closed whatever happens."""
    awake = inputs.powered and board.alive
    empty = awake and not inputs.float_water
    free = awake and not memory.alarm and not empty
    fills = free and memory.calling and board.fill_output.state != "dead"
    brews = free and inputs.brew
    welded_fill = board.fill_output.state == "stuck on"
    released = awake and not memory.alarm and not (empty and board.empty_blocks_heat)
    return Outputs(
        pump=((fills or brews) and board.pump_output.state != "dead")
        or board.pump_output.state == "stuck on"
        or welded_fill,
        fill=fills or welded_fill,
        release=(released and board.release.state != "dead") or board.release.state == "stuck on",
        call_lamp=awake and memory.calling and not memory.alarm,
        empty_lamp=empty,
        alarm_lamp=awake and memory.alarm,
    )


def remember(board: Board, inputs: Inputs, memory: BoardMemory, seconds: float) -> BoardMemory:
    """The board's memory after some seconds with unchanged inputs; without power it is empty."""
    if not (inputs.powered and board.alive):
        return BoardMemory()
    if memory.alarm:
        return memory
    wet = sees_water(board, inputs)
    dry_for = 0.0 if wet else memory.dry_for + seconds
    wet_for = memory.wet_for + seconds if wet else 0.0
    calling = (memory.calling and wet_for < board.wet_delay) or dry_for >= board.fill_delay
    # With the tank empty nothing is pumped, so the time does not count.
    counts = calling and memory.calling and inputs.float_water
    call_for = (memory.call_for + seconds if counts else memory.call_for) if calling else 0.0
    return replace(
        memory,
        dry_for=dry_for,
        wet_for=wet_for,
        calling=calling,
        call_for=call_for,
        alarm=call_for >= board.fill_timeout,
    )


def seconds_to_change(board: Board, inputs: Inputs, memory: BoardMemory) -> float:
    """Time until the board's memory next changes what it does, inputs unchanged [s]; infinite if it never does."""
    if not (inputs.powered and board.alive) or memory.alarm:
        return math.inf
    if sees_water(board, inputs):
        return max(board.wet_delay - memory.wet_for, 0.0) if memory.calling else math.inf
    if not memory.calling:
        return max(board.fill_delay - memory.dry_for, 0.0)
    return max(board.fill_timeout - memory.call_for, 0.0) if inputs.float_water else math.inf
