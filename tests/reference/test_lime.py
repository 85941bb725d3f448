"""Descaling and blending: molar masses by periodictable, dissolution and mixing by PHREEQC."""

from __future__ import annotations

import periodictable
import pytest
from phreeqpython import PhreeqPython

from expert.trade.physics.blending import blend_share, blended_hardness, boiler_solids, drain_share
from expert.trade.physics.descaling import acid_for_lime, descaling_time

from .conftest import Check
from .sources import independent, restated, round_trip

KIND = "lime"
MASSES = independent("periodictable, molar masses")
KINETICS = independent("PHREEQC, its rate of calcite in moving acid")
MIXED = independent("PHREEQC, two waters mixed")
HAND = restated("balance of mass, by hand")

ACIDS = [  # acid, formula, hydrogens that lime takes
    ("citric", "C6H8O7", 3),
    ("citric_monohydrate", "C6H10O8", 3),
    ("lactic", "C3H6O3", 1),
    ("sulfamic", "H3NSO3", 1),
    ("acetic", "C2H4O2", 1),
    ("hydrochloric", "HCl", 1),
]


@pytest.mark.parametrize(("acid", "formula", "hydrogens"), ACIDS)
def test_dose(acid: str, formula: str, hydrogens: int, check: Check) -> None:
    lime = periodictable.formula("CaCO3").mass
    dose = 2 / hydrogens * periodictable.formula(formula).mass / lime
    check(acid_for_lime(100.0, acid), 100 * dose, MASSES, relative=2e-4, unit="g")


RATE = """
SOLUTION 1
 temp {celsius}
 units mol/kgw
 pH {ph} charge
 Cl {chloride}
KINETICS 1
 Calcite
 -m0 1
 -m 1
 -parms 1 0
 -tol 1e-12
 -steps 1
SELECTED_OUTPUT
 -reset false
 -high_precision true
USER_PUNCH
 -headings left acidity
 -start
 10 PUNCH KIN("Calcite"), -LA("H+")
 -end
END
"""


@pytest.mark.parametrize("celsius", [15.0, 25.0, 40.0])
@pytest.mark.parametrize("ph", [1.0, 1.5, 2.0, 2.5, 3.0])
def test_rate(ph: float, celsius: float, check: Check) -> None:
    """One square centimetre of calcite in a litre, for one second."""
    water = PhreeqPython(database="phreeqc.dat")
    water.ip.run_string(RATE.format(celsius=celsius, ph=ph, chloride=1.2 * 10**-ph))
    _, before, after = water.ip.get_selected_output_array()
    dissolved = 1.0 - after[0]  # mol
    layer = 0.1 * 2.71 / 100.087  # mol in a square centimetre, one millimetre thick
    found = descaling_time(1.0, before[1], celsius)
    check(found, layer / dissolved, KINETICS, relative=0.01, unit="s")


@pytest.mark.parametrize("share", [0.0, 10.0, 25.0, 50.0, 80.0, 100.0])
@pytest.mark.parametrize(("hard", "soft"), [(300.0, 10.0), (180.0, 60.0)])
def test_blends(hard: float, soft: float, share: float, check: Check) -> None:
    phreeqc = PhreeqPython()
    first, second = (
        phreeqc.add_solution({"units": "mmol/kgw", "pH": 7, "Ca": one / 100.087, "Cl": f"{2 * one / 100.087} charge"})
        for one in (hard, soft)
    )
    mixed = phreeqc.mix_solutions({first: share / 100, second: 1 - share / 100}).total("Ca", "mmol") * 100.087
    check(blended_hardness(hard, soft, share), mixed, MIXED, relative=2e-8, unit="mg/L")
    check(blend_share(hard, soft, mixed), share, MIXED, within=1e-5, unit="%") if 0 < share < 100 else None


def test_what_stays_in_a_boiler(check: Check) -> None:
    check(boiler_solids(150.0, 20000.0, 2000.0), 1650.0, HAND, within=1e-9, unit="mg/L")
    check(drain_share(150.0, 1500.0), 10.0, HAND, within=1e-9, unit="%")
    # Held there by draining: what comes in with the feed leaves with the drain.
    share = drain_share(150.0, 1500.0) / 100
    check(share * 1500.0, 150.0, round_trip("the balance with that share"), within=1e-9, unit="mg/L")
