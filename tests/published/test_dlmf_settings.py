"""NIST DLMF 19.30.5 by SciPy's ellipe: the girdle of an oval stone, and the strip bent round it.

Perimeter of an ellipse = 4 a E(1 - b^2 / a^2). The strip lies at half the room and half the
thickness outside it: its length again by quadrature of the parallel curve itself, whose element is
(1 + distance x curvature) x the ellipse's. Tolerance: rounding of floats, quadrature's 1e-10.
"""

import math

import pytest
from scipy.integrate import quad
from scipy.special import ellipe

from hollowright.formulas.outline import oval_round
from hollowright.formulas.setting import seat_length, strip_length

STONES = [(10.2, 8.11), (7.93, 5.04), (25.4, 18.7), (8.11, 10.2)]


def ellipse(length: float, width: float) -> float:
    a, b = max(length, width) / 2, min(length, width) / 2
    return 4 * a * float(ellipe(1 - (b / a) ** 2))


def parallel(length: float, width: float, distance: float) -> float:
    """Length of the parallel curve [mm] by quadrature: speed and curvature of the ellipse."""
    a, b = length / 2, width / 2

    def element(t: float) -> float:
        speed = math.hypot(a * math.sin(t), b * math.cos(t))
        return speed + distance * a * b / speed**2

    return float(4 * quad(element, 0, math.pi / 2, epsabs=1e-12)[0])


@pytest.mark.parametrize(("length", "width"), STONES)
def test_girdle(length: float, width: float) -> None:
    assert oval_round(length, width) == pytest.approx(ellipse(length, width), rel=1e-12)


@pytest.mark.parametrize(("length", "width"), STONES)
def test_strip_and_seat_are_parallels_of_the_girdle(length: float, width: float) -> None:
    gap, thickness = 0.13, 0.47
    girdle = oval_round(length, width)
    strip = strip_length(girdle, gap, thickness)
    out = (gap + thickness) / 2
    assert strip == pytest.approx(parallel(length, width, out), rel=1e-9)
    seat = seat_length(strip, thickness)
    assert seat == pytest.approx(parallel(length, width, out - thickness), rel=1e-9)
    # The ellipse of the longer axes is no parallel: by it the strip would come out short.
    assert ellipse(length + 2 * out, width + 2 * out) < strip - 0.004
