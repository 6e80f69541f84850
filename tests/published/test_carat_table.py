"""Table of precious metals and carat golds in a jeweller's reference, Table 4 (open copy, seen).

With its worked example of the volume rule: 583 Au, 104 Ag, 313 Cu gives 13.33. The same page tables
13.07 for '14K yellow', another recipe: the rule needn't match a named carat. Sterling's 10.36 is a
supplier's data sheet (seen); 8.53 of brass the CDA's.
"""

import pytest

from hollowright.handbook.metals import density_by_volume, metal


def test_the_worked_example() -> None:
    # Printed to two decimals: half of the last digit.
    assert density_by_volume({"Au": 583, "Ag": 104, "Cu": 313}) == pytest.approx(13.33, abs=0.005)


def test_sterling() -> None:
    # The rule gives 10.357 for the published 10.36: half of the last printed digit.
    assert density_by_volume({"Ag": 925, "Cu": 75}) == pytest.approx(10.36, abs=0.005)
    assert metal("sterling").density.value == 10.36


def test_brass_shrinks() -> None:
    # 8.323 by the rule against 8.53 measured: the rule is 2.4 % low for alpha brass.
    low = density_by_volume({"Cu": 700, "Zn": 300}) / metal("brass").density.value - 1
    assert low == pytest.approx(-0.024, abs=0.001)


@pytest.mark.parametrize(
    ("alloy", "gravity", "troy", "fahrenheit"),
    [("14k", 13.07, 6.885, 1615), ("18k", 15.58, 8.211, 1700)],
)
def test_carat_golds(alloy: str, gravity: float, troy: float, fahrenheit: float) -> None:
    found = metal(alloy)
    assert found.density.value == gravity
    # The same row in troy ounces a cubic inch (31.1034768 g in 16.387064 cm3), printed to 0.001:
    # half of it is 0.001 g/cm3, and the gravity's own rounding 0.005.
    assert found.density.value == pytest.approx(troy * 31.1034768 / 16.387064, abs=0.006)
    melting = {found.liquidus.value, *(each.value for each in found.liquidus.alternatives)}
    # Degrees F printed to 5: 2.8 C.
    assert any(each == pytest.approx((fahrenheit - 32) / 1.8, abs=2.8) for each in melting)
