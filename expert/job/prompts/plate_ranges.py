"""Plates that state a range: one power for 220-240 V, or a pair of powers, each with its own voltage."""

from __future__ import annotations

from expert.job.answers.reading import NotAnAnswer
from expert.job.sentences import intake as say
from expert.job.state.job import Job, Turn
from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.quantities.ranges import written_range
from expert.trade.quantities.units import Quantity, read_quantity, show

Ends = tuple[Quantity, Quantity]


def middle_of_range(turn: Turn, name: str, kind: str, text: str) -> Quantity | None:
    """The one value that a range on the plate stands for; None for a single value. Raises NotAnAnswer, NotAQuantity.

    A range of voltages stands for its middle. A pair of powers belongs to the range of voltages told before it, the
    lower with the lower, and stands for the power at the middle of that range.
    """
    written = written_range(text)
    if written is None or kind not in ("ac_voltage", "power"):
        return None
    default = "V" if kind == "ac_voltage" else "W"
    low, high = (read_quantity(f"{end} {written[2] or default}", kind) for end in written[:2])
    if kind == "power":
        return _power_of_pair(turn, name, (low, high))
    middle = _worked_out(name, "middle_voltage", low, high, otherwise=say.THE_VOLTAGE_HERE)
    turn.job.plate_ranges[name] = (low, high)
    turn.tell(say.power_goes_with_the_middle(name, show(middle)))
    return middle


def forget_range(job: Job, name: str) -> None:
    """A single value was told after all."""
    job.plate_ranges.pop(name, None)


def _power_of_pair(turn: Turn, name: str, powers: Ends) -> Quantity:
    voltages = next(iter(turn.job.plate_ranges.values()), None)
    if voltages is None:
        raise NotAnAnswer(say.each_power_has_its_voltage(name, show(powers[1])))
    pair = say.pair_to_type(show(voltages[1]), name, show(powers[1]))
    resistance = _worked_out(name, "pair_resistance", *voltages, *powers, otherwise=say.one_pair(pair))
    middle = _worked_out(name, "middle_voltage", *voltages, otherwise=say.one_pair(pair))
    power = _worked_out(name, "element_power", middle, resistance, otherwise=say.one_pair(pair))
    turn.tell(
        say.powers_agree(
            name, show(powers[0]), show(voltages[0]), show(powers[1]), show(voltages[1]), show(power), show(middle)
        )
    )
    return power


def _worked_out(name: str, figure: str, *values: Quantity, otherwise: str) -> Quantity:
    """A trade calculation. Raises NotAnAnswer with what to type instead."""
    # Here and not above: the calculations are only loaded where a plate has a range.
    from expert.trade.figures.register import FIGURES, work_out

    try:
        return work_out(FIGURES[figure], list(values))
    except (OutOfRange, WrongArguments) as problem:
        raise NotAnAnswer(say.trouble_so_type(name, str(problem), otherwise)) from None
