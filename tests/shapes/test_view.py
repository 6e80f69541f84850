"""What is seen against a slow, plain reference: marching along each ray in small steps."""

import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.shapes.curves import EllipseArc
from hollowright.shapes.rims import Rim
from hollowright.shapes.solids import Turned, disc, ring, spread, tube
from hollowright.shapes.space import add, dot, unit
from hollowright.shapes.spots import spots
from hollowright.shapes.strokes import strokes
from hollowright.shapes.view import dimetric, isometric, view_from
from hollowright.shapes.visible import pieces

STEP = 0.04


def inside(solid, points):
    """Whether points lie in a solid: the even-odd rule in its profile's plane."""
    axis = np.array(solid.axis)
    rest = points - np.array(solid.origin)
    z = rest @ axis
    r = np.linalg.norm(rest - z[..., None] * axis, axis=-1)
    odd = np.zeros(z.shape, dtype=bool)
    for (r0, z0), (r1, z1) in solid.edges:
        if z0 == z1:
            continue
        across = (z0 <= z) != (z1 <= z)
        odd ^= across & (r < r0 + (z - z0) * (r1 - r0) / (z1 - z0))
    return odd


def metal_above(solids, view, point, step=STEP):
    """Length of metal between a point and the eye, counted in steps [mm]."""
    reach = max(
        dot(solid.origin, view.eye) + 2 * max(abs(solid.low), abs(solid.high)) + solid.radius
        for solid in solids
    )
    far = max(0.0, reach - dot(point, view.eye))
    steps = (np.arange(int(far / step) + 1) + 0.5)[:, None] * step
    along = np.array(point) + steps * np.array(view.eye)
    return step * sum(int(inside(solid, along).sum()) for solid in solids)


def disagreements(solids, view, axes=(), samples=7):
    """Samples on seen pieces with metal before them, and on hidden ones without; and how many."""
    wrong, count = [], 0
    for piece in pieces(solids, view, axes):
        span = piece.end - piece.start
        size = (
            math.sqrt(dot(piece.source.u, piece.source.u)) * span
            if isinstance(piece.source, Rim)
            else span * math.dist(piece.source.start, piece.source.end)
        )
        if size < 0.3:
            continue
        for i in range(samples):
            t = piece.start + span * (0.03 + 0.94 * i / (samples - 1))
            metal = metal_above(solids, view, piece.at(t))
            if piece.hidden and metal == 0:  # a sliver may fall between two steps
                metal = metal_above(solids, view, piece.at(t), STEP / 100)
            count += 1
            if (metal > 2.5 * STEP) if not piece.hidden else (metal == 0):
                wrong.append((piece, t, metal))
    return wrong, count


def box(gap=None):
    solids = (
        disc("body_cap", 38.05, 0.7),
        tube("body", 38.05, 1.02, 30).along(0.7),
        ring("ring", 36.0, 0.64, 16.6).along(28.7),
        tube("lid", 38.05, 1.02, 15).along(30.7),
        disc("lid_cap", 38.05, 0.7).along(45.7),
    )
    return solids if gap is None else spread(solids, gap)


@pytest.mark.parametrize("view", [isometric(), dimetric(), view_from((0.3, 0.9, -0.4))])
@pytest.mark.parametrize("gap", [None, 2.0, 16.0])
def test_the_lidded_box(view, gap):
    wrong, count = disagreements(box(gap), view, [((0, 0, -12), (0, 0, 140))])
    assert count > 300
    assert wrong == []


def random_solid(rng, name, origin, direction):
    """A tube, disc, cone or chamfered ring within 12 mm of its origin."""
    r, h, w = rng.uniform(4, 9), rng.uniform(0.8, 12), rng.uniform(0.6, 3)
    profile = rng.choice(
        [
            ((r - w, 0), (r, 0), (r, h), (r - w, h)),
            ((0, 0), (r, 0), (r, h), (0, h)),
            ((0, 0), (r, 0), (0, h)),
            ((r - w, 0), (r, 0), (r * 0.6, h), (r * 0.6 - w / 2, h)),
            ((r - w, 0), (r - w / 3, 0), (r, h / 3), (r, h), (r - w, h)),
        ]
    )
    half = h / 2
    return Turned(
        name, tuple((x, z - half) for x, z in profile), origin, direction, (rng.uniform(-3, 3),)
    )


def random_assembly(rng, view, coaxial):
    """Three solids that overlap on the paper but stand one behind another."""
    solids = []
    shared = unit((rng.gauss(0, 1), rng.gauss(0, 1), rng.gauss(0, 1)))
    for i in range(3):
        direction = shared if coaxial else (rng.gauss(0, 1), rng.gauss(0, 1), rng.gauss(0, 1))
        aside = add(add((0, 0, 0), view.right, rng.uniform(-6, 6)), view.up, rng.uniform(-6, 6))
        origin = add(aside, view.eye, 25.0 * i)
        solids.append(random_solid(rng, str(i), origin, direction))
    return spread(solids, rng.uniform(0, 4)) if coaxial else tuple(solids)


@given(st.integers(0, 10**9), st.booleans())
@settings(max_examples=20, deadline=None)
def test_random_assemblies(seed, coaxial):
    rng = random.Random(seed)
    view = view_from((rng.gauss(0, 1), rng.gauss(0, 1), rng.uniform(-1, 1)))
    wrong, count = disagreements(random_assembly(rng, view, coaxial), view)
    assert count > 50
    assert wrong == []


@pytest.mark.parametrize("view", [isometric(), dimetric()])
def test_views_are_square_and_upright(view):
    for a, b in ((view.right, view.up), (view.up, view.eye), (view.eye, view.right)):
        assert dot(a, b) == pytest.approx(0, abs=1e-15)
    assert view.project((0, 0, 1))[0] == pytest.approx(0, abs=1e-15)


def test_isometric_axes_by_iso_5456_3():
    """ISO 5456-3:1996, 5.1: x and y 30 degrees off level, equal scales (from memory)."""
    view = isometric()
    x, y, z = (view.project(axis) for axis in ((1, 0, 0), (0, 1, 0), (0, 0, 1)))
    assert math.hypot(*x) == pytest.approx(math.hypot(*z)) == pytest.approx(math.hypot(*y))
    assert abs(math.degrees(math.atan(x[1] / x[0]))) == pytest.approx(30)
    assert abs(math.degrees(math.atan(y[1] / y[0]))) == pytest.approx(30)


def test_dimetric_axes_by_iso_5456_3():
    """ISO 5456-3:1996, 5.2: 7 and 42 degrees, scales 1 : 0.5 : 1 (from memory)."""
    view = dimetric()
    x, y, z = (view.project(axis) for axis in ((1, 0, 0), (0, 1, 0), (0, 0, 1)))
    assert math.hypot(*x) == pytest.approx(math.hypot(*z))
    assert math.hypot(*y) == pytest.approx(math.hypot(*z) / 2)
    assert abs(math.degrees(math.atan(x[1] / x[0]))) == pytest.approx(7, abs=0.5)
    assert abs(math.degrees(math.atan(y[1] / y[0]))) == pytest.approx(42, abs=0.7)


def test_a_disc_shows_its_top_rim_half_its_bottom_rim_and_two_contours():
    view = dimetric()
    drawn = strokes([disc("cap", 30, 2)], view)
    seen = [stroke for stroke in drawn if stroke.visible]
    sweeps = sorted(s.curve.sweep for s in seen if isinstance(s.curve, EllipseArc))
    assert sweeps == pytest.approx([math.pi, math.tau], abs=1e-9)
    contours = [stroke for stroke in seen if stroke.kind == "contour"]
    assert [c.curve.length() for c in contours] == pytest.approx([2 * math.sqrt(8) / 3] * 2)
    hidden = [stroke for stroke in drawn if not stroke.visible]
    assert [stroke.curve.sweep for stroke in hidden] == pytest.approx([math.pi], abs=1e-9)


def test_circles_are_exact_ellipses():
    """A level circle in the dimetric view is a third as high as wide."""
    (top,) = (
        s.curve
        for s in strokes([disc("cap", 30, 2)], dimetric())
        if isinstance(s.curve, EllipseArc) and s.curve.closed
    )
    assert math.hypot(*top.major) == pytest.approx(15)
    assert math.hypot(*top.minor) == pytest.approx(5)


def test_coincident_rims_are_drawn_once():
    touching = (tube("a", 20, 1, 5), tube("b", 20, 1, 5).along(5))
    rims = [s for s in strokes(touching, dimetric()) if s.kind == "rim" and s.visible]
    places = [tuple(round(x, 6) for x in (*s.curve.bounds(),)) for s in rims]
    assert len(places) == len(set(places))


def test_a_side_view_of_a_circle_is_a_line():
    flat = strokes([disc("cap", 30, 2)], view_from((1, 0, 0)))
    seen = [s for s in flat if s.visible]
    lengths = sorted(round(s.curve.length(), 6) for s in seen)
    assert lengths == [2, 2, 30, 30]


def test_a_view_along_the_axis_shows_circles():
    view = view_from((0.6, 0, 0.8))
    end_on = strokes([Turned("tube", tube("t", 20, 2, 5).profile, (0, 0, 0), (0.6, 0, 0.8))], view)
    assert {round(s.curve.radius, 6) for s in end_on if s.visible} == {8, 10}


def test_nothing_gives_nothing():
    assert strokes([], dimetric()) == ()
    alone = strokes([], dimetric(), [((0, 0, 0), (0, 0, 9))])
    assert [stroke.visible for stroke in alone] == [True]


def test_an_axis_shows_from_where_it_leaves_the_metal():
    view = dimetric()
    seen = [
        s.curve
        for s in strokes([disc("cap", 30, 2)], view, [((0, 0, -20), (0, 0, 20))])
        if s.kind == "axis" and s.visible
    ]
    ends = sorted(y for line in seen for y in (line.start[1], line.end[1]))
    up = view.up[2]
    assert ends == pytest.approx([-20 * up, -5, 2 * up, 20 * up])


def test_spots_are_seen_and_on_their_own_part():
    view, solids = dimetric(), box(16.0)
    for solid, spot in zip(solids, spots(solids, view), strict=True):
        assert metal_above(solids, view, spot) <= 2 * STEP
        rest = np.subtract(spot, solid.origin)
        z = float(rest @ np.array(solid.axis))
        assert solid.low - 1e-9 <= z <= solid.high + 1e-9
        assert math.hypot(*(rest - z * np.array(solid.axis))) <= solid.radius + 1e-9
