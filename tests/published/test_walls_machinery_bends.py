"""Machinery's Handbook, 31st ed., p. 1421, eq. 32 to 34: strips of rectangular walls with bends.

A 90 degree bend takes 0.55 T + 1.57 R (soft brass and copper), 0.64 T + 1.57 R (half-hard), 0.71 T
+ 1.57 R (hard), R its inside radius. Where the handbook prints 1.57, ours has pi / 2.
"""

import math

import pytest

from hollowright.formulas.outline import rounded_round
from hollowright.formulas.ring import handbook_line
from hollowright.formulas.wall import length_on_line

PARTS = {"soft": 0.55, "half-hard": 0.64, "hard": 0.71}


@pytest.mark.parametrize("temper", PARTS)
@pytest.mark.parametrize(
    ("long", "wide", "radius", "wall"), [(50, 30, 5, 1.0), (73.1, 41.7, 3.3, 1.22)]
)
def test_four_bends_and_four_straights(
    temper: str, long: float, wide: float, radius: float, wall: float
) -> None:
    inner = radius - wall
    straights = 2 * (long + wide) - 8 * radius
    theirs = straights + 4 * (PARTS[temper] * wall + 1.57 * inner)
    ours = length_on_line(rounded_round(long, wide, radius), math.pi, wall, handbook_line(temper))
    # 1.57 for pi / 2 four times over the inner radius.
    assert ours == pytest.approx(theirs, abs=4 * (math.pi / 2 - 1.57) * inner + 1e-9)


def test_a_soft_box_by_the_printed_numbers() -> None:
    # 50 x 30, corners 5, wall 1: 120 + 4 x (0.55 + 1.57 x 4) = 147.32.
    ours = length_on_line(rounded_round(50, 30, 5), math.pi, 1.0, handbook_line("soft"))
    assert ours == pytest.approx(147.32, abs=0.014)
