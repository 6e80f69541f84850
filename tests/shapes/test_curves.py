"""Curves against a plain reference: a fine polygon of the same curve."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Arc, Curve, EllipseArc, Line, around, chords

coordinate = st.floats(-50, 50)
point = st.tuples(coordinate, coordinate)
size = st.floats(0.5, 40)
angle = st.floats(-7, 7)
sweep = st.floats(0.05, TURN).flatmap(lambda s: st.sampled_from([s, -s]))


@st.composite
def ellipse_arcs(draw):
    turn, a, b = draw(angle), draw(size), draw(size)
    major = (a * math.cos(turn), a * math.sin(turn))
    minor = (-b * math.sin(turn), b * math.cos(turn))
    return EllipseArc(draw(point), major, minor, draw(angle), draw(sweep))


curves = st.one_of(
    st.builds(Line, point, point),
    st.builds(Arc, point, size, angle, sweep),
    ellipse_arcs(),
    st.builds(Cubic, point, point, point, point),
)


def polygon_length(points):
    return sum(math.dist(a, b) for a, b in pairwise(points))


def polygon_moment(points):
    pairs = pairwise(points)
    return sum((a[0] * b[1] - b[0] * a[1]) / 2 for a, b in pairs)


@given(curves)
def test_length_moment_and_bounds_follow_a_fine_polygon(curve: Curve):
    fine = curve.points(1e-4)
    scale = 1 + polygon_length(fine)
    assert curve.length() == pytest.approx(polygon_length(fine), abs=3e-4 * scale)
    assert curve.moment() == pytest.approx(polygon_moment(fine), abs=2e-4 * scale)
    assert curve.bounds() == pytest.approx(around(fine), abs=2e-4)
    assert fine[0] == curve.start
    assert fine[-1] == curve.end


@given(curves, coordinate, coordinate, st.floats(0.1, 5))
def test_moving_and_scaling(curve: Curve, dx, dy, factor):
    moved = curve.moved(dx, dy)
    assert moved.length() == pytest.approx(curve.length(), rel=1e-9, abs=1e-9)
    assert moved.start == pytest.approx((curve.start[0] + dx, curve.start[1] + dy), abs=1e-9)
    larger = curve.scaled(factor)
    assert larger.length() == pytest.approx(factor * curve.length(), rel=1e-9, abs=1e-9)
    assert larger.moment() == pytest.approx(factor**2 * curve.moment(), rel=1e-9, abs=1e-6)


@given(size, sweep, st.floats(0.001, 1))
def test_chords_lie_within_the_tolerance(radius, sweep, tolerance):
    count = chords(radius, sweep, tolerance)
    assert radius * (1 - math.cos(abs(sweep) / count / 2)) <= tolerance * (1 + 1e-6) or count == 3


def test_full_turns_close_to_the_last_digit():
    assert Arc((3.1, 4.7), 19.025, 0.3, TURN).end == Arc((3.1, 4.7), 19.025, 0.3, TURN).start


def test_ellipse_perimeter_by_scipy():
    """SciPy's complete elliptic integral: 4 a E(1 - b2/a2)."""
    ellipe = pytest.importorskip("scipy.special").ellipe
    whole = EllipseArc((0, 0), (30, 0), (0, 20), 0.2, TURN)
    assert whole.length() == pytest.approx(4 * 30 * ellipe(1 - (20 / 30) ** 2), rel=1e-11)


def test_a_tolerance_must_be_positive():
    with pytest.raises(ValueError, match="tolerance"):
        Arc((0, 0), 1, 0, 1).points(0)
    with pytest.raises(ValueError, match="tolerance"):
        Cubic((0, 0), (1, 0), (1, 1), (0, 1)).points(-1)
