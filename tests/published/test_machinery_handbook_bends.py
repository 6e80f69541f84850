"""Machinery's Handbook, 31st edition, p. 1421: lengths of bends, equations 32 to 34.

L = 0.55 T + 1.57 R (soft brass, soft copper), 0.64 T (half-hard copper and brass, soft steel),
0.71 T (bronze, hard copper); other angles in proportion. Worked examples with Fig. 13 (seen).
The handbook rounds pi / 2 to 1.57; the code keeps pi / 2, so 0.05 % of R may differ.
"""

import math

import pytest

from hollowright.formulas.ring import handbook_line, length_on_line


def bend(temper: str, t: float, r: float, degrees: float) -> float:
    """Length of metal in a bend by the neutral line that the code gives [unit of t]."""
    return math.radians(degrees) * (r + handbook_line(temper) * t)


@pytest.mark.parametrize(
    ("temper", "factor"), [("soft", 0.55), ("half-hard", 0.64), ("hard", 0.71)]
)
def test_factors(temper: str, factor: float) -> None:
    # A quarter turn round nothing (R = 0) of unit thickness is the printed factor itself.
    assert bend(temper, 1.0, 0.0, 90) == pytest.approx(factor, rel=1e-12)


def test_first_worked_example() -> None:
    # T 1/8, R 3/8, 180 degrees, soft steel: printed 1.338 in. Within a unit of the last digit.
    assert bend("half-hard", 1 / 8, 3 / 8, 180) == pytest.approx(1.338, abs=0.001)


def test_second_worked_example() -> None:
    # T 1/8, R 5/8, 60 degrees: printed 0.707 in.
    assert bend("half-hard", 1 / 8, 5 / 8, 60) == pytest.approx(0.707, abs=0.001)


def test_total_with_the_straights() -> None:
    # 3.5 in of straight and both bends: printed 5.545 in. Two bends, each within a unit.
    both = bend("half-hard", 1 / 8, 3 / 8, 180) + bend("half-hard", 1 / 8, 5 / 8, 60)
    assert 3.5 + both == pytest.approx(5.545, abs=0.002)


@pytest.mark.parametrize("temper", ["soft", "half-hard", "hard"])
def test_a_ring_is_four_quarter_bends(temper: str) -> None:
    # T 0.8, R 6.2 (outside 14): four of the handbook's 90 degree bends; 1.57 against pi / 2.
    factor = {"soft": 0.55, "half-hard": 0.64, "hard": 0.71}[temper]
    printed = 4 * (factor * 0.8 + 1.57 * 6.2)
    ours = length_on_line(14.0, 0.8, handbook_line(temper))
    assert ours == pytest.approx(printed, rel=0.0006)
