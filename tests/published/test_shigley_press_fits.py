"""Shigley's Mechanical Engineering Design, press and shrink fits, equations 3-56 and 3-57.

p = E d / (2 R^3) (ro^2 - R^2)(R^2 - ri^2) / (ro^2 - ri^2), d the radial interference: two rings of
one metal, plane stress. The equation was seen; the cases say where they come from. Case c of the
collection (steel on brass) has two metals: eq. 3-57 doesn't hold there and it isn't compared.
"""

import math

import pytest

from hollowright.formulas.fit import elastic_limit, press_pressure, pull_off_force


def test_solid_shaft_in_a_hub() -> None:
    # Worked by hand from eq. 3-57: 50 shaft, 100 hub, radial interference 0.020, E 207 GPa.
    p = press_pressure(0.040, 50.0, 0.0, 100.0, 207.0)
    assert p == pytest.approx(62.10, abs=0.005)
    # Hub's hoop stress at the bore: p (ro^2 + R^2) / (ro^2 - R^2) = 103.5.
    assert p * (50**2 + 25**2) / (50**2 - 25**2) == pytest.approx(103.50, abs=0.01)


def test_exam_problem_of_two_tubes() -> None:
    # Radii 50, 100, 150, radial allowance 0.02, E 208 GPa: 9.75 MPa; and half the scale, the same.
    assert press_pressure(0.04, 200.0, 100.0, 300.0, 208.0) == pytest.approx(9.75, abs=0.005)
    assert press_pressure(0.02, 100.0, 50.0, 150.0, 208.0) == pytest.approx(9.75, abs=0.005)


def test_text_book_case_that_means_plane_strain() -> None:
    # Radii 50, 75, 150, outside of the inner 75.025, E 200 GPa, nu 0.28. The book prints 16.9 MPa:
    # that is the plane-strain value, E / (1 - nu^2) for E. Plane stress, as eq. 3-57, gives 15.63.
    ours = press_pressure(0.05, 150.0, 100.0, 300.0, 200.0)
    assert ours == pytest.approx(15.63, abs=0.01)
    assert ours / (1 - 0.28**2) == pytest.approx(16.9, abs=0.06)


@pytest.mark.parametrize(("thin", "thick"), [(0.30, 0.75), (0.5, 0.5)])
def test_elastic_limit_is_where_the_thinner_ring_yields(thin: float, thick: float) -> None:
    # Squeeze two thin rings by the limit: eq. 3-57's pressure gives p R / thin = yield in the
    # thinner one. Thin-ring theory against thick-wall: some thickness / R, 2.5 % here.
    diameter, strength, modulus = 80.0, 110.0, 110.0
    limit = elastic_limit(diameter, strength * thin, modulus, thin, modulus, thick)
    p = press_pressure(limit, diameter, diameter - 2 * thin, diameter + 2 * thick, modulus)
    assert p * diameter / 2 / thin == pytest.approx(strength, rel=0.025)


def test_pull_off_force() -> None:
    # F = friction x p x pi d L, by hand.
    by_hand = 0.12 * 2.5 * math.pi * 36.0 * 1.4
    assert pull_off_force(2.5, 36.0, 1.4, 0.12) == pytest.approx(by_hand, rel=1e-12)
