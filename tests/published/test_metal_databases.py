"""Open database of material properties, mill data sheets and a web copy: copper alloys (all seen).

The database rounds to two digits, and works densities out from the composition; the mill sheets are
C26000 strip to ASTM B36 and C51000 strip of 1 mm. What they print must stand among the values that
this handbook keeps, as the leader or as an alternative: exact, as printed.
"""

import pytest

from hollowright.handbook.metals import metal

DATABASE = [
    ("C22000", "yield_annealed", 69), ("C22000", "youngs_modulus", 110), ("C22000", "density", 8.7),
    ("C22000", "conductivity", 190), ("C22000", "specific_heat", 390), ("C22000", "expansion", 18),
    ("C22000", "solidus", 1020), ("C22000", "liquidus", 1040), ("C23000", "yield_annealed", 83),
    ("C23000", "youngs_modulus", 110), ("C23000", "specific_heat", 390), ("C26000", "density", 8.2),
    ("C51000", "solidus", 960), ("C51000", "liquidus", 1050), ("C26000", "youngs_modulus", 117),
    ("C12200", "yield_annealed", 75),
]  # fmt: skip
MILL = [
    ("C26000", "conductivity", 121), ("C26000", "density", 8.53), ("C26000", "youngs_modulus", 112),
    ("C26000", "yield_annealed", 145), ("C26000", "expansion", 19.08),
    ("C51000", "yield_annealed", 130), ("C51000", "yield_annealed", 140),
    ("C51000", "yield_annealed", 150), ("C51000", "conductivity", 84), ("C51000", "density", 8.86),
    ("C51000", "specific_heat", 380), ("C51000", "expansion", 17.8),
]  # fmt: skip
COPIES = [
    ("C51000", "conductivity", 77), ("C51000", "youngs_modulus", 117), ("C51000", "solidus", 954),
    ("C12200", "conductivity", 380), ("C12200", "density", 8.94), ("C12200", "solidus", 1083),
    ("C12200", "expansion", 17.0), ("C26000", "solidus", 915), ("C26000", "liquidus", 955),
    ("C11000", "density", 8.92), ("C11000", "density", 8.89), ("C11000", "density", 8.94),
    ("C11000", "conductivity", 394), ("C11000", "specific_heat", 385),
    ("Au750Y", "solidus", 895), ("Au750Y", "liquidus", 930), ("C26000", "conductivity", 110),
]  # fmt: skip
MEMORY = [  # ASM Handbook volume 2, 1990; refiners' sheets: from memory
    ("C11000", "yield_annealed", 69), ("C26000", "yield_annealed", 105),
    ("C75200", "yield_annealed", 170), ("Ag999", "yield_annealed", 54),
    ("Ag999", "youngs_modulus", 71), ("Ag925", "youngs_modulus", 75), ("Ag925", "solidus", 802),
    ("Ag925", "liquidus", 893), ("Ag925", "conductivity", 361), ("Au585Y", "solidus", 830),
    ("Au585Y", "yield_annealed", 350), ("Au750Y", "yield_annealed", 300),
]  # fmt: skip


@pytest.mark.parametrize(("alloy", "name", "value"), DATABASE + MILL + COPIES + MEMORY)
def test_what_is_printed_is_kept(alloy: str, name: str, value: float) -> None:
    leader = getattr(metal(alloy), name)
    assert value in {leader.value, *(each.value for each in leader.alternatives)}


def test_the_mill_sheet_s_misprints() -> None:
    # 16e6 psi is 110.3 GPa, not 112; 11.1e-6/F is 19.98e-6/K, not 19.08: neither leads.
    assert metal("C26000").youngs_modulus.value == pytest.approx(16e6 * 6.894757e-6, abs=0.5)
    assert metal("C26000").expansion.value == pytest.approx(11.1 * 1.8, abs=0.05)
