"""Parallel curves against the polygon library and against a slow, plain reference.

The library's own buffers of fine polygons simplify their input by up to a hundredth of the
distance, so that is the bound against them. The plain reference is exact: a point belongs to the
parallel's inside by its distance from the outline, and by the kites that sharp corners add.
"""

import math
import random
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.errors import PlanRefused
from hollowright.shapes.biarcs import bits
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.offset import TOLERANCE, ParallelRefused, offset, offset_pieces
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle
from hollowright.shapes.ovals import ellipse, regular_polygon
from tests.shapes.random_outlines import FINE, fine, random_outline

MARGIN = 3e-3  # what the polygons' own coarseness leaves undecided [mm]

seeds = st.integers(0, 10**6)


def whole(pieces):
    """Pieces with their holes as one region."""
    parts = [
        shapely.Polygon(piece.points(FINE), [hole.points(FINE) for hole in piece.holes])
        for piece in pieces
    ]
    assert all(part.is_valid for part in parts)
    return shapely.union_all(parts)


def some_distance(seed):
    rng = random.Random(seed)
    return rng.choice((-1, 1)) * rng.uniform(0.2, 9)


def kites(outline, distance):
    """The quadrangle from each corner that opens to its sharp tip, on the corner's two normals."""
    run = outline.run_anticlockwise()
    found = []
    for before, after in zip(run.segments[-1:] + run.segments[:-1], run.segments, strict=True):
        a, b = (
            np.diff(fan, axis=0)[0] for fan in (before.points(1e-7)[-2:], after.points(1e-7)[:2])
        )
        a, b = a / np.hypot(*a), b / np.hypot(*b)
        turn = math.atan2(a[0] * b[1] - a[1] * b[0], a @ b)
        if turn * distance > 0.01 and math.cos(turn / 2) > 0.1:
            corner = np.array(after.start)
            normals = [np.array((way[1], -way[0])) for way in (a, b)]
            tip = corner + distance * (normals[0] + normals[1]) / (1 + a @ b)
            ends = [corner + distance * normal for normal in normals]
            found.append(shapely.Polygon([corner, ends[0], tip, ends[1]]))
    return found


def reference(outline, distance, corners, points):
    """For each point whether it belongs inside the parallel, and whether that can be told."""
    polygon = fine(outline)
    off = shapely.distance(polygon.exterior, points)
    signed = np.where(shapely.contains(polygon, points), -off, off)
    belongs, sure = signed < distance, np.abs(signed - distance) > MARGIN
    if corners == "sharp":
        for kite in kites(outline, distance):
            within = shapely.contains(kite, points)
            belongs = belongs | within if distance > 0 else belongs & ~within
            sure &= shapely.distance(kite.exterior, points) > 3 * MARGIN
    return belongs, sure


def trial_points(region, outline, distance, seed):
    """Points all over, and points on both sides of the result's edge."""
    rng = np.random.default_rng(seed)
    low_x, low_y, high_x, high_y = outline.bounds
    reach = max(distance, 0) * 3 + 1
    spread = rng.uniform((low_x - reach, low_y - reach), (high_x + reach, high_y + reach), (400, 2))
    edge = shapely.get_coordinates(shapely.segmentize(region, 0.5))
    angles = rng.uniform(0, math.tau, len(edge))
    beside = edge + 4 * MARGIN * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    return shapely.points(np.concatenate([spread, beside]))


@pytest.mark.parametrize("corners", ["round", "sharp"])
@settings(max_examples=60, deadline=None)
@given(seed=seeds)
def test_a_point_lies_inside_when_its_distance_says_so(corners, seed):
    outline, distance = random_outline(seed), some_distance(seed)
    region = whole(offset_pieces(outline, distance, corners))
    points = trial_points(region, outline, distance, seed)
    belongs, sure = reference(outline, distance, corners, points)
    wrong = sure & (shapely.contains(region, points) != belongs)
    assert not wrong.any(), shapely.get_coordinates(points[wrong])[:3]


@settings(max_examples=60, deadline=None)
@given(seed=seeds)
def test_rounded_parallels_and_the_librarys_buffers(seed):
    outline, distance = random_outline(seed), some_distance(seed)
    ours = whole(offset_pieces(outline, distance, "round"))
    slack = MARGIN + 0.012 * abs(distance)
    source = fine(outline)
    low, high = (source.buffer(distance + way * slack, quad_segs=128) for way in (-1, 1))
    assert low.difference(ours).area < 1e-6  # Hausdorff: the library's, made smaller, is inside
    assert ours.difference(high).area < 1e-6  # and ours inside the library's, made larger
    assert low.area - 1e-6 <= ours.area <= high.area + 1e-6


@settings(max_examples=60, deadline=None)
@given(seed=seeds)
def test_out_and_in_again(seed):
    # What goes out and comes back closes hollows; it never loses any of the outline.
    outline, distance = random_outline(seed), abs(some_distance(seed)) / 3
    outer = max(offset_pieces(outline, distance, "round"), key=lambda piece: piece.area)
    back = whole(offset_pieces(Outline(outer.segments), -distance, "round"))
    assert fine(outline).difference(back.buffer(4 * MARGIN)).area < 1e-6


@given(st.floats(4, 200), st.floats(0.05, 0.95), st.floats(-0.4, 2))
def test_a_disc_stays_an_exact_arc(diameter, share, out):
    distance = out * diameter if out > 0.01 else -share * diameter / 2
    edge = offset(disc(diameter), distance)
    (arc,) = edge.segments
    assert isinstance(arc, Arc)
    assert arc.radius == pytest.approx(diameter / 2 + distance, rel=1e-14)


def test_a_rounded_rectangle_keeps_eight_exact_curves():
    inner = offset(rectangle(50, 30, 5), -1)
    assert [type(segment) for segment in inner.segments].count(Arc) == 4
    assert len(inner.segments) == 8
    radii = {round(segment.radius, 12) for segment in inner.segments if isinstance(segment, Arc)}
    assert radii == {4.0}
    assert inner.bounds == pytest.approx((1, 1, 49, 29), abs=1e-12)
    assert inner.area == pytest.approx(48 * 28 - (4 - math.pi) * 16, rel=1e-12)


def test_arcs_that_just_vanish_leave_sharp_corners():
    inner = offset(rectangle(50, 30, 5), -5)
    assert [type(segment) for segment in inner.segments] == [Line] * 4
    assert inner.area == pytest.approx(40 * 20)


def test_sharp_corners_stay_sharp_both_ways_and_round_when_asked():
    ell = polygon([(0, 0), (40, 0), (40, 10), (10, 10), (10, 30), (0, 30)])
    assert offset(ell, 2).perimeter == pytest.approx(140 + 2 * 2 * 4, abs=1e-9)
    assert offset(ell, -2).perimeter == pytest.approx(140 - 2 * 2 * 4, abs=1e-9)
    assert all(isinstance(s, Line) for s in offset(ell, 2).segments)
    assert len(offset(ell, 2).segments) == 6
    rounded = offset(ell, 2, "round")
    assert sum(isinstance(s, Arc) for s in rounded.segments) == 5
    # Five outer corners become quarter arcs; the inner corner loses 2 on each side.
    assert rounded.perimeter == pytest.approx(140 - 4 + 5 * math.pi, abs=1e-9)


def test_corners_between_a_line_and_an_arc_are_trimmed_exactly():
    # A half disc of radius 20 set in by 1: chord at y = 1, arc of radius 19 round the same centre.
    half = Outline((Arc((0, 0), 20, 0, math.pi), Line((-20, 0), (20, 0))))
    inner = offset(half, -1)
    reach = math.sqrt(19**2 - 1)
    assert inner.bounds == pytest.approx((-reach, 1, reach, 19), abs=1e-9)
    sweep = math.pi - 2 * math.asin(1 / 19)
    assert inner.perimeter == pytest.approx(2 * reach + 19 * sweep, abs=1e-9)


@pytest.mark.parametrize("distance", [-2.0, -0.5, 0.5, 3.0])
def test_an_ellipse_becomes_smooth_arcs_within_the_tolerance(distance):
    edge = offset(ellipse(60, 40), distance)
    assert all(isinstance(segment, Arc) for segment in edge.segments)
    assert max(abs(turn) for turn in edge.turns) < 1e-6
    ring = shapely.LinearRing(edge.points(1e-6))
    for t in np.linspace(0.01, 6.28, 97):
        c, s = math.cos(t), math.sin(t)
        size = math.hypot(20 * c, 30 * s)
        on = (30 * c + distance * 20 * c / size, 20 * s + distance * 30 * s / size)
        assert ring.distance(shapely.Point(on)) < TOLERANCE


@pytest.mark.parametrize(
    "controls",
    [
        [(0, 0), (20, 0), (40, 0), (60, 0)],
        [(0, 0), (0, 0), (60, 0), (60, 0)],
        [(0, 0), (0, 0), (60, 30), (60, 0)],
        [(0, 0), (60, 60), (0, 60), (60, 0)],
        [(0, 0), (30, 40), (30, 40), (60, 0)],
    ],
    ids=["straight", "straight, handles drawn in", "a handle drawn in", "turning fast", "peaked"],
)
def test_odd_cubics_are_followed_too(controls):
    curve = Cubic(*controls)
    chain = bits(curve, 1e-4)
    assert chain[0].curve.start == pytest.approx(curve.start)
    assert chain[-1].curve.end == pytest.approx(curve.end)
    for a, b in pairwise(chain):
        assert math.dist(a.curve.end, b.curve.start) < 1e-9
        assert a.last == b.first
    path = shapely.LineString([p for bit in chain for p in bit.curve.points(1e-6)])
    for i in range(200):
        assert path.distance(shapely.Point(curve.at(i / 199))) < 1.01e-4


def test_bends_tighter_than_the_distance_are_refused_with_the_place():
    with pytest.raises(ParallelRefused) as refused:
        offset(ellipse(60, 10), -1)
    assert refused.value.kind == "bend"
    assert refused.value.radius == pytest.approx(25 / 30)
    assert abs(refused.value.at[0]) == pytest.approx(30)
    assert "0.833 mm" in str(refused.value)
    assert "x 30.00, y 0.00" in str(refused.value)
    assert isinstance(refused.value, PlanRefused | ValueError)


def test_just_within_the_tightest_bend_goes():
    edge = offset(ellipse(60, 10), -0.8333)
    assert edge.perimeter == pytest.approx(
        ellipse(60, 10).perimeter - 2 * math.pi * 0.8333, abs=1e-3
    )


def test_a_hollow_bend_is_refused_outwards_only():
    # A square with a round bite of radius 4 in its top edge.
    bite = Outline(
        (
            Line((0, 0), (20, 0)),
            Line((20, 0), (20, 20)),
            Line((20, 20), (14, 20)),
            Arc((10, 20), 4, 0, -math.pi),
            Line((6, 20), (0, 20)),
            Line((0, 20), (0, 0)),
        )
    )
    assert bite.area == pytest.approx(400 - 8 * math.pi)
    assert offset(bite, -1).area > 0
    with pytest.raises(ParallelRefused, match=r"4 mm\. Up to 4\.00 mm goes") as refused:
        offset(bite, 5)
    assert math.dist(refused.value.at, (10, 20)) == pytest.approx(4)


LEFT_BELL = [(20, 11), (20, 20), (0, 20), (0, 0), (20, 0), (20, 9)]
RIGHT_BELL = [(30, 9), (30, 0), (50, 0), (50, 20), (30, 20), (30, 11)]


def dumb_bell():
    return polygon([*LEFT_BELL, *RIGHT_BELL])


def test_an_offset_that_splits_says_so():
    assert len(offset_pieces(dumb_bell(), -2)) == 2
    with pytest.raises(
        ParallelRefused, match=r"2 pieces, at x 10\.00, y 10\.00 and x 40\.00"
    ) as refused:
        offset(dumb_bell(), -2)
    assert refused.value.kind == "split"


def test_an_offset_that_vanishes_says_so():
    with pytest.raises(ParallelRefused, match="nothing is left") as refused:
        offset(regular_polygon(5, 30), -15.5)
    assert refused.value.kind == "nothing"
    assert offset_pieces(rectangle(50, 30), -15) == ()


def test_a_hook_that_closes_leaves_a_pocket():
    outer = [(30, 16), (30, 30), (0, 30), (0, 0), (30, 0), (30, 14)]
    inner = [(27, 14), (27, 3), (3, 3), (3, 27), (27, 27), (27, 16)]
    hook = polygon([*outer, *inner])
    (piece,) = offset_pieces(hook, 1.5)
    assert len(piece.holes) == 1
    assert piece.holes[0].area == pytest.approx((24 - 3) ** 2, rel=1e-9)
    with pytest.raises(ParallelRefused, match="pocket"):
        offset(hook, 1.5)


def test_holes_grow_when_the_outside_shrinks():
    flat = offset(annulus(40, 20), -2)
    assert flat.width == pytest.approx(36)
    assert flat.holes[0].width == pytest.approx(24)
    with pytest.raises(ValueError, match="hole"):
        offset(Outline(rectangle(40, 40).segments, (disc(30).moved(20, 20),)), -3)


@given(seeds)
@settings(max_examples=40, deadline=None)
def test_the_way_round_doesnt_matter(seed):
    outline, distance = random_outline(seed), some_distance(seed)
    one, two = (offset_pieces(o, distance) for o in (outline, outline.reversed()))
    assert sum(p.area for p in one) == pytest.approx(sum(p.area for p in two), abs=1e-3)


@pytest.mark.parametrize("distance", [math.nan, math.inf])
def test_a_distance_that_is_none_is_refused(distance):
    with pytest.raises(ValueError, match="distance"):
        offset_pieces(disc(10), distance)
