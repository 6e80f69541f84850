"""Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, Table A.1, 300 K (from memory).

A second opinion on density, specific heat and conductivity. The alloys and temperatures are not
quite ours, so the tolerances are those of the spread between handbooks, given beside each check.
"""

import pytest

from hollowright.handbook.metals import metal

# density kg/m3, specific heat J/kgK, conductivity W/mK
TABLE = {"C11000": (8933, 385, 401), "C26000": (8530, 380, 110), "Ag999": (10500, 235, 429)}


@pytest.mark.parametrize(("alloy", "row"), TABLE.items())
def test_table(alloy: str, row: tuple[float, float, float]) -> None:
    found = metal(alloy)
    # Densities agree to the third digit; 0.2 % is the copper's grade.
    assert found.density.value == pytest.approx(row[0] / 1000, rel=0.002)
    # Specific heats: 1 %, the rounding of 0.09 cal/g C.
    assert found.specific_heat.value == pytest.approx(row[1], rel=0.01)
    # Conductivity: 3 % for purity; 10 % for brass, where the sources themselves disagree.
    assert found.conductivity.value == pytest.approx(
        row[2], rel=0.10 if alloy == "C26000" else 0.03
    )


def test_the_disagreement_on_brass_is_kept() -> None:
    values = {each.value for each in metal("brass").conductivity.alternatives}
    assert 110 in values
