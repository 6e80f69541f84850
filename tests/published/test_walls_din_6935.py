"""DIN 6935, Cold bending of flat rolled steel: strips of walls with bent corners.

k = 0.65 + 0.5 log10(r / s), at most 1; each bend by pi (180 - b) / 180 (r + s k / 2). The strip is
summed bend by bend here, from the standard's formula alone.
"""

import math

import pytest

from hollowright.formulas.outline import rounded_round
from hollowright.formulas.ring import din_line
from hollowright.formulas.wall import length_on_line


def by_the_standard(long: float, wide: float, radius: float, s: float) -> float:
    r = radius - s
    k = min(1.0, 0.65 + 0.5 * math.log10(r / s))
    return 2 * (long + wide) - 8 * radius + 4 * math.pi / 2 * (r + s * k / 2)


@pytest.mark.parametrize(
    ("long", "wide", "radius", "s"),
    [(50, 30, 5, 1.0), (61.7, 38.2, 2.9, 1.02), (44.1, 43.3, 6.7, 0.81), (90.3, 21.9, 2.3, 0.64)],
)
def test_rectangles_with_bent_corners(long: float, wide: float, radius: float, s: float) -> None:
    line = din_line(radius - s, s)
    ours = length_on_line(rounded_round(long, wide, radius), math.pi, s, line)
    # Both are exact.
    assert ours == pytest.approx(by_the_standard(long, wide, radius, s), rel=1e-12)


def test_the_rectangle_of_50_by_30() -> None:
    # Worked to three decimals.
    line = din_line(4.0, 1.0)
    ours = length_on_line(rounded_round(50, 30, 5), math.pi, 1.0, line)
    assert ours == pytest.approx(148.120, abs=5e-4)
