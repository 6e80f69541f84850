"""ISO 286-1 and ISO 286-2: limits and fits.

Clearance and interference by their definitions; deviations of H7, g6, p6 for 10 to 50 mm from
part 2 (seen). Micrometres in the table, millimetres in the formula. Tolerance: rounding of floats.
"""

import pytest

from hollowright.formulas.fit import clearance, odds_between
from hollowright.quantity import rectangular, root
from hollowright.quantity.montecarlo import simulate

HOLE_H7 = {14.0: (0, 18), 24.0: (0, 21), 36.0: (0, 25)}
SHAFT_G6 = {14.0: (-17, -6), 24.0: (-20, -7), 36.0: (-25, -9)}
SHAFT_P6 = {14.0: (18, 29), 24.0: (22, 35), 36.0: (26, 42)}


def least_and_most(size: float, shaft: tuple[int, int]) -> tuple[float, float]:
    """Clearances [um] of the worst pairs of an H7 hole and a shaft."""
    low, high = HOLE_H7[size]
    tight = clearance(size + low / 1000, size + shaft[1] / 1000)
    loose = clearance(size + high / 1000, size + shaft[0] / 1000)
    return 1000 * tight, 1000 * loose


@pytest.mark.parametrize(("size", "least", "most"), [(14.0, 6, 35), (24.0, 7, 41), (36.0, 9, 50)])
def test_h7_g6_slides(size: float, least: float, most: float) -> None:
    tight, loose = least_and_most(size, SHAFT_G6[size])
    assert tight == pytest.approx(least, abs=1e-6)
    assert loose == pytest.approx(most, abs=1e-6)


@pytest.mark.parametrize(("size", "least", "most"), [(14.0, 0, 29), (24.0, 1, 35), (36.0, 1, 42)])
def test_h7_p6_presses(size: float, least: float, most: float) -> None:
    # Interference is negative clearance.
    tight, loose = least_and_most(size, SHAFT_P6[size])
    assert -loose == pytest.approx(least, abs=1e-6)
    assert -tight == pytest.approx(most, abs=1e-6)


def test_odds_of_a_fit_from_two_rectangular_parts() -> None:
    # H7/g6 at 24, both parts anywhere in their limits: the clearance is a trapezoid from 7 to 41
    # um; by its area, 1 - 2 x 7^2 / (2 x 21 x 13) lies between 14 and 34. 100,000 draws: 0.5 %.
    hole = root("hole", "hole", "mm", 24.0105, rectangular(0.0105))
    shaft = root("shaft", "shaft", "mm", 23.9865, rectangular(0.0065))
    gap = clearance(hole, shaft)
    drawn = simulate([gap], 100_000)[gap]
    exact = 1 - 7**2 / (21 * 13)
    seen = float(((drawn > 0.014) & (drawn < 0.034)).mean())
    assert seen == pytest.approx(exact, abs=0.005)
    # The normal law is near it, 2 in 100.
    assert odds_between(gap.value, gap.uncertainty, 0.014, 0.034) == pytest.approx(exact, abs=0.02)
