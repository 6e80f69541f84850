"""Sizes of outlines (perimeter, area, centroid, bends, places) against polygons and formulas."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from hollowright.shapes import along
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, EllipseArc, Line
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle
from hollowright.shapes.ovals import ellipse, regular_polygon
from tests.shapes.random_outlines import random_outline

seeds = st.integers(0, 10**6)
LEAF = Outline(
    (
        Cubic((0, 0), (10, -18), (45, -14), (60, 0)),
        Cubic((60, 0), (45, 16), (12, 22), (0, 0)),
    )
)


@settings(max_examples=60, deadline=None)
@given(seeds)
def test_perimeter_area_and_centroid_against_a_fine_polygon(seed):
    outline = random_outline(seed).moved(7, -11)
    theirs = shapely.Polygon(outline.points(1e-5))
    assert outline.perimeter == pytest.approx(theirs.length, rel=2e-5)
    assert outline.area == pytest.approx(theirs.area, abs=1e-5 * theirs.length + 1e-9)
    at = theirs.centroid
    assert math.dist(outline.centroid, (at.x, at.y)) < 1e-4


@settings(max_examples=60, deadline=None)
@given(seeds)
def test_the_other_way_round_nothing_changes(seed):
    outline = random_outline(seed)
    back = outline.reversed()
    assert back.anticlockwise != outline.anticlockwise
    assert back.area == pytest.approx(outline.area, rel=1e-12)
    assert back.perimeter == pytest.approx(outline.perimeter, rel=1e-12)
    assert back.centroid == pytest.approx(outline.centroid, abs=1e-9)
    assert back.convex == outline.convex
    assert back.tightest().radius == pytest.approx(outline.tightest().radius, rel=1e-6)
    assert back.run_anticlockwise().anticlockwise


@settings(max_examples=60, deadline=None)
@given(seeds)
def test_convex_as_the_hull_has_it(seed):
    outline = random_outline(seed)
    polygon_ = shapely.Polygon(outline.points(1e-5))
    filled = polygon_.area / polygon_.convex_hull.area
    if outline.convex:
        assert filled > 1 - 1e-6
    if filled < 1 - 1e-4:
        assert not outline.convex


@settings(max_examples=40, deadline=None)
@given(seeds, st.floats(-2, 3))
def test_a_place_along_the_edge_as_the_polygon_has_it(seed, turns):
    outline = random_outline(seed)
    ring = shapely.LinearRing(outline.points(1e-5))
    at = outline.point_at(turns * outline.perimeter)
    theirs = ring.interpolate((turns % 1) * ring.length)
    assert math.dist(at, (theirs.x, theirs.y)) < 2e-3


@settings(max_examples=40, deadline=None)
@given(seeds, st.floats(0, 1))
def test_started_elsewhere_it_is_the_same_outline(seed, share):
    outline = random_outline(seed)
    begun = outline.started_at(share * outline.perimeter)
    assert begun.segments[0].start == pytest.approx(
        outline.point_at(share * outline.perimeter), abs=1e-6
    )
    assert begun.perimeter == pytest.approx(outline.perimeter, rel=1e-9)
    assert begun.area == pytest.approx(outline.area, rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(seeds)
def test_once_round_is_one_turn(seed):
    outline = random_outline(seed).run_anticlockwise()
    whole = sum(along.turning(segment) for segment in outline.segments) + sum(outline.turns)
    assert whole == pytest.approx(math.tau, abs=1e-9)


CURVES = [
    Line((1, 2), (9, 5)),
    Arc((1, 2), 7, 0.4, -3.3),
    EllipseArc((1, 2), (9, 3), (-1, 3), 0.3, 4.1),
    EllipseArc((1, 2), (2, 0), (0, -7), 0.3, -2.0),
    Cubic((0, 0), (10, 20), (30, -20), (40, 5)),
    Cubic((0, 0), (0, 0), (30, -20), (40, 5)),
]


@pytest.mark.parametrize("curve", CURVES, ids=range(len(CURVES)))
@pytest.mark.parametrize("u", [0.03, 0.35, 0.8])
def test_velocity_heading_and_curvature_by_differences(curve, u):
    h = 1e-4
    before, at, after = (complex(*along.place(curve, u + k * h)) for k in (-1, 0, 1))
    speed, rate = (after - before) / (2 * h), (after - 2 * at + before) / h**2
    assert along.velocity(curve, u) == pytest.approx((speed.real, speed.imag), rel=1e-4, abs=1e-4)
    ways = math.remainder(along.heading(curve, u) - math.atan2(speed.imag, speed.real), math.tau)
    assert abs(ways) < 1e-4
    bend = (speed.conjugate() * rate).imag / abs(speed) ** 3
    assert along.curvature(curve, u) == pytest.approx(bend, rel=1e-3, abs=1e-6)


@pytest.mark.parametrize("curve", CURVES, ids=range(len(CURVES)))
def test_parts_lengths_and_turns_add_up(curve):
    cuts = [0.0, 0.21, 0.5, 0.77, 1.0]
    parts = [along.part(curve, a, b) for a, b in pairwise(cuts)]
    assert sum(part.length() for part in parts) == pytest.approx(curve.length(), rel=1e-10)
    turns = [along.turning(curve, a, b) for a, b in pairwise(cuts)]
    assert sum(turns) == pytest.approx(along.turning(curve), abs=1e-9)
    for part, cut in zip(parts, cuts[1:], strict=True):
        assert part.end == pytest.approx(along.place(curve, cut), abs=1e-12)
    u = along.at_length(curve, 0.37 * curve.length())
    assert along.part(curve, 0, u).length() == pytest.approx(0.37 * curve.length(), rel=1e-9)
    back = along.reverse(curve)
    assert along.place(back, 0.3) == pytest.approx(along.place(curve, 0.7), abs=1e-12)


def test_a_cubics_length_by_another_quadrature():
    curve = CURVES[4]
    theirs, _ = quad(lambda t: math.hypot(*along.velocity(curve, t)), 0, 1, epsabs=1e-12)
    assert curve.length() == pytest.approx(theirs, abs=1e-9)


@given(st.floats(2, 200), st.floats(0.05, 1))
def test_the_tightest_bend_of_an_ellipse_is_at_its_ends(length, share):
    width = share * length
    found = ellipse(length, width).tightest()
    assert found.radius == pytest.approx((width / 2) ** 2 / (length / 2), rel=1e-9)
    if share < 0.99:
        assert (abs(found.at[0]), abs(found.at[1])) == pytest.approx((length / 2, 0), abs=1e-9)


def test_the_tightest_bend_of_an_oval_60_by_10():
    # b2 / a = 25 / 30.
    assert ellipse(60, 10).tightest().radius == pytest.approx(0.8333, abs=5e-5)
    assert ellipse(60, 10).tightest(hollow=True).radius == math.inf


def test_the_tightest_bend_of_a_leaf_by_trial():
    found = LEAF.tightest()
    trials = [along.curvature(s, i / 5000) for s in LEAF.segments for i in range(5001)]
    assert 1 / found.radius == pytest.approx(max(trials), rel=1e-5)


def test_bends_outwards_and_inwards():
    assert rectangle(50, 30, 5).tightest().radius == pytest.approx(5)
    assert rectangle(50, 30).tightest().radius == math.inf
    inner = Outline(
        (
            Arc((0, 0), 4, 0, -math.pi),
            Line((-4, 0), (-9, 0)),
            Arc((0, 0), 9, math.pi, math.pi),
            Line((9, 0), (4, 0)),
        )
    )
    assert inner.tightest(hollow=True).radius == pytest.approx(4)
    assert inner.tightest().radius == pytest.approx(9)
    assert not inner.convex


@given(st.integers(3, 16), st.floats(1, 200))
def test_regular_polygons(sides, across):
    made = regular_polygon(sides, across)
    assert made.perimeter == pytest.approx(sides * across * math.tan(math.pi / sides), rel=1e-12)
    assert made.area == pytest.approx(made.perimeter * across / 4, rel=1e-12)
    assert made.bounds[1] == pytest.approx(-across / 2)
    assert made.convex
    assert made.turns == pytest.approx((math.tau / sides,) * sides)


def test_centroid_leaves_holes_out():
    flat = Outline(rectangle(40, 20).segments, (disc(10).moved(30, 10),))
    hole = 25 * math.pi
    assert flat.centroid == pytest.approx(((800 * 20 - hole * 30) / (800 - hole), 10))
    assert annulus(40, 10).moved(3, 4).centroid == pytest.approx((3, 4))


def test_corners_turn_as_drawn():
    assert polygon([(0, 0), (4, 0), (0, 3)]).turns == pytest.approx(
        (math.pi / 2, math.pi - math.atan2(3, 4), math.pi - math.atan2(4, 3))
    )
    assert rectangle(50, 30, 5).turns == (0,) * 8


@pytest.mark.parametrize(
    "make",
    [
        lambda: ellipse(0, 3),
        lambda: ellipse(5, math.inf),
        lambda: regular_polygon(2, 10),
        lambda: regular_polygon(6, -1),
    ],
)
def test_sizes_that_make_no_outline_are_refused(make):
    with pytest.raises(ValueError, match=r"must"):
        make()
