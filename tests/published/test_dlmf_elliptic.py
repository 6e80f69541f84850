"""NIST Digital Library of Mathematical Functions, ch. 19: E(m) and the perimeter of an ellipse.

E(m) is that of Abramowitz & Stegun ch. 17 (parameter m = k2): m 0.01 to 1 to twenty digits from
GNU Octave's test table of that definition, m 0.25 and 0.75 from A&S Table 17.1 (from memory). The
perimeter is DLMF 19.30.5. Machinery's Handbook's short formula and Ramanujan's second stand beside
it: the first is 2.6 % high at 2 to 1, so it must not be taken for the perimeter.
"""

import math

import pytest
from scipy.special import ellipe, ellipeinc, ellipk

from hollowright.shapes.curves import EllipseArc
from hollowright.shapes.elliptic import ellipse_perimeter, elliptic_e
from hollowright.shapes.ovals import ellipse

TO_TWENTY_DIGITS = [
    (0.0, 1.5707963267948966192),
    (0.01, 1.5668619420216682912),
    (0.1, 1.5307576368977632025),
    (0.5, 1.3506438810476755025),
    (0.9, 1.1047747327040733261),
    (0.99, 1.0159935450252239356),
    (1.0, 1.0),
]


@pytest.mark.parametrize(("m", "e"), TO_TWENTY_DIGITS)
def test_e_to_all_digits(m: float, e: float) -> None:
    # Floats carry some 16 digits.
    assert elliptic_e(m) == pytest.approx(e, rel=5e-15)


@pytest.mark.parametrize(("m", "e"), [(0.25, 1.4674622093), (0.75, 1.2110560276)])
def test_table_17_1(m: float, e: float) -> None:
    # Half of the last digit printed.
    assert elliptic_e(m) == pytest.approx(e, abs=5e-11)


@pytest.mark.parametrize("m", [0.0, 0.037, 0.2718, 0.5, 0.6667, 0.91, 0.9973, 1.0])
def test_against_scipy(m: float) -> None:
    assert elliptic_e(m) == pytest.approx(float(ellipe(m)), rel=1e-14)


def test_legendre_relation() -> None:
    # DLMF 19.7.1 at m = 1/2: 2 E K - K2 = pi / 2.
    k = float(ellipk(0.5))
    assert 2 * elliptic_e(0.5) * k - k * k == pytest.approx(math.pi / 2, rel=1e-14)


def test_ellipse_two_to_one_and_its_short_formulas() -> None:
    a, b = 2.0, 1.0
    assert ellipse_perimeter(a, b) == pytest.approx(9.688448221, abs=5e-10)
    h = 3 * ((a - b) / (a + b)) ** 2
    ramanujan = math.pi * (a + b) * (1 + h / (10 + math.sqrt(4 - h)))
    assert ramanujan == pytest.approx(9.688448216, abs=5e-10)
    handbook = math.pi * math.sqrt(2 * (a * a + b * b))
    # As the source has it: 9.93459, 2.6 % high (recomputed 2.54 %).
    assert handbook == pytest.approx(9.93459, abs=5e-6)
    assert 0.025 < handbook / ellipse_perimeter(a, b) - 1 < 0.0265


def test_a_tube_cut_at_45_degrees() -> None:
    # Cut edge of a 20 mm tube at 45 degrees, worked from E(m): 76.40396 mm.
    assert ellipse_perimeter(10, 10 / math.cos(math.radians(45))) == pytest.approx(
        76.40396, abs=5e-6
    )


@pytest.mark.parametrize(
    ("a", "share"), [(1.0, 1.0), (30.0, 0.6667), (17.3, 0.41), (79.0, 0.02), (5.5, 0.137)]
)
def test_perimeters_against_scipy(a: float, share: float) -> None:
    b = a * share
    theirs = 4 * a * float(ellipe(1 - (b / a) ** 2))
    assert ellipse_perimeter(a, b) == pytest.approx(theirs, rel=1e-13)
    assert ellipse_perimeter(b, a) == pytest.approx(theirs, rel=1e-13)
    assert ellipse(2 * a, 2 * b).perimeter == pytest.approx(theirs, rel=1e-13)


@pytest.mark.parametrize(
    ("share", "start", "sweep"),
    [(0.1, 0.0, 3.0), (0.6667, 0.4, 1.3), (0.31, 2.7, 0.11), (1.0, 1.1, 2.2), (0.85, 3.0, 2.9)],
)
def test_arcs_of_an_ellipse_against_the_incomplete_integral(
    share: float, start: float, sweep: float
) -> None:
    # DLMF 19.30.2; the parameter of SciPy's E(phi, m) runs from the minor axis for a > b.
    a, b = 30.0, 30.0 * share
    arc = EllipseArc((3.0, 4.0), (a, 0.0), (0.0, b), start, sweep)
    low, high = (float(ellipeinc(t - math.pi / 2, 1 - share**2)) for t in (start, start + sweep))
    assert arc.length() == pytest.approx(a * (high - low), rel=1e-9)
