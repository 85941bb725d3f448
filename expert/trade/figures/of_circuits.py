"""The figures about leads, joints, capacitors on the mains, relays and motors."""

from __future__ import annotations

from expert.trade.figures.calculation import Figure, Input
from expert.trade.physics import leads, mains_circuits, relay_heat

_CURRENT = Input("current", "current", "A", "through it, effective")
_DROP = Input("voltage_drop", "ac_voltage", "V", "measured across it under load")
_LENGTH = Input("length", "length", "m", "of the lead, counted once")
_SECTION = Input("section", "area", "mm2", "of one core; a gauge such as 14 AWG will do")
_CORE = Input("temperature", "temperature", "degC", "of the core", 20.0)
_VOLTAGE = Input("voltage", "ac_voltage", "V", "of the mains")
_ACROSS = Input("voltage", "ac_voltage", "V", "across the capacitor itself")
_FREQUENCY = Input("frequency", "frequency", "Hz", "of the mains", 50.0)
_AROUND = Input("surroundings", "temperature", "degC", "of the air inside the machine", 40.0)
_FORWARD = Input("forward_drop", "ac_voltage", "V", "across the conducting relay, 1.0 to 1.6 V", relay_heat.DROP)
_REACTANCE = "reactance of a capacitor"
_SINK = "thermal resistances in series, as in makers' data sheets"

CIRCUIT_FIGURES: tuple[Figure, ...] = (
    Figure(
        "lead_resistance",
        "Resistance of one core of copper",
        "R = rho L / A",
        (
            _LENGTH,
            _SECTION,
            _CORE,
        ),
        "resistance",
        "ohm",
        "IEC 60028: 1/58 ohm mm2/m at 20 degC",
        "pub",
        "-50 to 200 degC; stranded cores have up to 8 % more",
        leads.lead_resistance,
    ),
    Figure(
        "lead_drop",
        "Voltage that a two-core lead drops, there and back",
        "U = 2 I rho L / A",
        (
            _CURRENT,
            _LENGTH,
            _SECTION,
            _CORE,
        ),
        "ac_voltage",
        "V",
        "Ohm's law; IEC 60028",
        "pub",
        "0 to 125 A",
        leads.lead_drop,
    ),
    Figure(
        "joint_heat",
        "Heat that a joint or a contact gives off",
        "P = U I",
        (
            _CURRENT,
            _DROP,
        ),
        "power",
        "W",
        "Joule's law",
        "law",
        "0 to 125 A; what scorches a terminal is some 2 W and more",
        leads.joint_heat,
    ),
    Figure(
        "joint_resistance",
        "Resistance of a joint or a contact from its voltage drop",
        "R = U / I",
        (
            _CURRENT,
            _DROP,
        ),
        "resistance",
        "ohm",
        "Ohm's law",
        "law",
        "above 0 A",
        leads.joint_resistance,
    ),
    Figure(
        "ghost_voltage",
        "What a meter shows behind an open relay with a snubber, no load on it",
        "U Rm / sqrt(Rm^2 + 1/(2 pi f C)^2)",
        (
            _VOLTAGE,
            Input("capacitance", "capacitance", "uF", "of the snubber", needs_unit=True),
            _FREQUENCY,
            Input("meter_resistance", "resistance", "ohm", "input of the meter", mains_circuits.METER),
        ),
        "ac_voltage",
        "V",
        "impedance of a capacitor in series with a resistance",
        "lib",
        "40 to 70 Hz; the snubber's own resistor left out",
        mains_circuits.ghost_voltage,
    ),
    Figure(
        "leakage_sum",
        "Leakage of filters and damp insulation together",
        "I = U sqrt((2 pi f C)^2 + 1/R^2)",
        (
            Input("capacitance", "capacitance", "uF", "of all filters to earth together", needs_unit=True),
            Input("insulation", "resistance", "ohm", "of all parts to earth together", needs_unit=True),
            _VOLTAGE,
            _FREQUENCY,
        ),
        "leakage_current",
        "mA",
        "capacitor and resistance in parallel",
        "lib",
        "40 to 70 Hz",
        mains_circuits.leakage_sum,
    ),
    Figure(
        "machines_on_rcd",
        "How many machines of a leakage one residual current device carries",
        "0.3 I_rated / I, whole machines",
        (
            Input("leakage", "leakage_current", "mA", "of one machine"),
            Input("rated", "leakage_current", "mA", "residual current on the device", 30.0),
        ),
        "number",
        "",
        "IEC 60364-5-53 and BS 7671:2018, 531.3",
        "pub",
        "6 to 500 mA",
        mains_circuits.machines_on_rcd,
    ),
    Figure(
        "run_capacitor_current",
        "Current that a sound run capacitor takes",
        "I = 2 pi f C U",
        (
            Input("capacitance", "capacitance", "uF", "printed on it"),
            _ACROSS,
            _FREQUENCY,
        ),
        "current",
        "A",
        _REACTANCE,
        "lib",
        "40 to 70 Hz",
        mains_circuits.run_capacitor_current,
    ),
    Figure(
        "run_capacitance",
        "Capacitance of a run capacitor from its current",
        "C = I / (2 pi f U)",
        (
            Input("current", "current", "A", "of the capacitor alone"),
            _ACROSS,
            _FREQUENCY,
        ),
        "capacitance",
        "uF",
        _REACTANCE,
        "lib",
        "40 to 70 Hz; sound within 10 % of the print (common practice)",
        mains_circuits.run_capacitance,
    ),
    Figure(
        "motor_speed",
        "Turns a minute of an induction motor",
        "n = 120 f / p (1 - slip)",
        (
            Input("poles", "number", "", "2, 4, 6 or 8"),
            _FREQUENCY,
            Input("slip", "number", "%", "below synchronous speed", 4.0),
        ),
        "number",
        "",
        "synchronous speed of an induction machine",
        "law",
        "40 to 70 Hz, slip 0 to 30 %",
        mains_circuits.motor_speed,
    ),
    Figure(
        "relay_loss",
        "Heat that a conducting solid-state relay gives off",
        "P = U I",
        (
            _CURRENT,
            _FORWARD,
        ),
        "power",
        "W",
        "makers' data sheets: about 1.2 W per ampere",
        "cp",
        "0 to 125 A; times the duty where it cycles",
        relay_heat.relay_loss,
    ),
    Figure(
        "relay_base_temperature",
        "Steady temperature of a relay's base plate on its heat sink",
        "T = Ta + U I Rth",
        (
            _CURRENT,
            Input("sink_resistance", "number", "", "of sink and paste in K/W, as a plain number"),
            _AROUND,
            _FORWARD,
        ),
        "temperature",
        "degC",
        _SINK,
        "cp",
        "steady load; a fifth out, by the forward drop",
        relay_heat.relay_base_temperature,
    ),
    Figure(
        "sink_resistance",
        "Highest thermal resistance that keeps a relay cool enough, in K/W",
        "Rth = (T - Ta) / (U I)",
        (
            _CURRENT,
            Input("base_temperature", "temperature", "degC", "allowed at the base plate", 85.0),
            _AROUND,
            _FORWARD,
        ),
        "number",
        "",
        _SINK,
        "cp",
        "steady load; a fifth out, by the forward drop",
        relay_heat.sink_resistance,
    ),
)
