"""SciPy 1.x, special.ellipe: walls that follow an oval, their mid line a parallel of the ellipse.

The perimeter is 4 a E(1 - b2/a2); a parallel half the thickness inside is shorter by pi x
thickness. The same mid line is taken by quadrature of the parallel curve itself.
"""

import math

import pytest
from scipy.integrate import quad
from scipy.special import ellipe

from hollowright.designs import forms
from hollowright.formulas.outline import oval_round
from hollowright.formulas.wall import length
from hollowright.quantity import exact

SIZES = [(60.0, 40.0, 1.0), (57.3, 33.1, 0.82), (41.9, 39.7, 1.21), (120.4, 31.7, 0.51)]


def perimeter(long: float, wide: float) -> float:
    a, b = long / 2, wide / 2
    return 4 * a * float(ellipe(1 - (b / a) ** 2))


@pytest.mark.parametrize(("long", "wide", "wall"), SIZES)
def test_length_round_an_oval(long: float, wide: float, wall: float) -> None:
    del wall
    # Floats carry some 16 digits.
    assert oval_round(long, wide) == pytest.approx(perimeter(long, wide), rel=1e-13)
    assert oval_round(wide, long) == pytest.approx(perimeter(long, wide), rel=1e-13)


@pytest.mark.parametrize(("long", "wide", "wall"), SIZES)
def test_mid_line_of_an_oval_wall(long: float, wide: float, wall: float) -> None:
    a, b = long / 2, wide / 2

    def speed(t: float) -> float:
        s, c = math.sin(t), math.cos(t)
        along = math.hypot(a * s, b * c)
        bend = a * b / along**3
        return along * (1 - bend * wall / 2)

    # SciPy's quadrature tells its own error, below 1e-9 here.
    theirs = 4 * quad(speed, 0, math.pi / 2, epsabs=1e-11)[0]
    ours = length(oval_round(long, wide), math.pi, wall)
    assert ours == pytest.approx(theirs, abs=1e-8)


def test_the_oval_of_60_by_40() -> None:
    # Printed to three decimals.
    assert length(oval_round(60, 40), math.pi, 1.0) == pytest.approx(155.513, abs=5e-4)


@pytest.mark.parametrize(("long", "wide", "wall"), SIZES)
def test_area_inside_an_oval_wall(long: float, wide: float, wall: float) -> None:
    outside, inset = oval(long, wide), exact("depth", "depth", "mm", wall)
    inner = forms.parallel(outside, inset, "the wall")
    a, b = long / 2, wide / 2

    def moment(t: float) -> float:
        s, c = math.sin(t), math.cos(t)
        along = math.hypot(a * s, b * c)
        x, y = a * c - wall * b * c / along, b * s - wall * a * s / along
        turn = a * b / along**2
        dx, dy = -a * s + wall * turn * a * s / along, b * c - wall * turn * b * c / along
        return (x * dy - y * dx) / 2

    theirs = quad(moment, 0, 2 * math.pi, epsabs=1e-10, limit=200)[0]
    assert inner.area.value == pytest.approx(theirs, rel=1e-9)
    # The arcs that it is drawn by lie within 0.00002 mm.
    assert inner.outline.area == pytest.approx(theirs, abs=2e-5 * perimeter(long, wide))


def oval(long: float, wide: float) -> forms.Form:
    return forms.oval(exact("l", "length", "mm", long), exact("w", "width", "mm", wide))
