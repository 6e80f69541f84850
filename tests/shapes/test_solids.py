"""Solids of revolution: volume and mesh against two mesh libraries, places in space."""

import math
from itertools import pairwise

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from hollowright.shapes import along
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, EllipseArc, Line
from hollowright.shapes.solids import Turned, disc, mesh, reach, ring, spread, tube
from hollowright.shapes.space import dot
from hollowright.shapes.turned_curve import turned_curve

CHAMFERED = Turned("chamfered", ((5, 0), (9, 0), (10, 1), (10, 7), (5, 7)), (1, 2, 3), (1, 1, 0.3))
CONE = Turned("cone", ((0, 0), (10, 0), (0, 20)), (4, 0, -2), (0.2, -1, 1))
SOLIDS = [tube("tube", 38.05, 1.02, 30), disc("disc", 38.05, 0.71), CHAMFERED, CONE]


def inscribed(segments):
    """An inscribed polygon's area over its circle's."""
    return segments / math.tau * math.sin(math.tau / segments)


@pytest.mark.parametrize("solid", SOLIDS, ids=lambda solid: solid.id)
@pytest.mark.parametrize("segments", [3, 24, 180])
def test_meshes_are_closed_and_hold_the_volume(solid, segments):
    found = mesh(solid, segments)
    body = trimesh.Trimesh(found.vertices, found.triangles, process=False)
    assert body.is_watertight
    assert body.is_winding_consistent
    assert body.volume == pytest.approx(solid.volume * inscribed(segments), rel=1e-9)
    packed = manifold3d.Manifold(
        manifold3d.Mesh(
            np.array(found.vertices, dtype=np.float32), np.array(found.triangles, dtype=np.uint32)
        )
    )
    assert packed.status() == manifold3d.Error.NoError
    assert packed.volume() == pytest.approx(body.volume, rel=1e-5)


def test_volume_and_surface_of_a_tube_by_the_textbook():
    half = tube("half", 38.05, 1.02, 30)
    assert half.volume == pytest.approx(math.pi / 4 * (38.05**2 - 36.01**2) * 30, rel=1e-12)
    faces = math.pi / 2 * (38.05**2 - 36.01**2)
    assert half.surface == pytest.approx(math.pi * (38.05 + 36.01) * 30 + faces, rel=1e-12)


def test_volume_of_a_cone():
    assert CONE.volume == pytest.approx(math.pi * 10**2 * 20 / 3, rel=1e-12)


@given(st.lists(st.floats(0.2, 30), min_size=1, max_size=6), st.floats(0, 20))
@settings(max_examples=50)
def test_spread_leaves_the_gap_between_neighbours(heights, gap):
    axis = (0.0, 0.6, 0.8)
    stack = [
        Turned(str(i), ((0, 0), (5, 0), (5, h), (0, h)), (1, 2, 3), axis)
        for i, h in enumerate(heights)
    ]
    placed = spread(stack, gap)
    reaches = [reach(solid, axis) for solid in placed]
    for below, above in pairwise(reaches):
        assert above[0] - below[1] == pytest.approx(gap, abs=1e-9)
    assert placed[0] == stack[0]


def test_reach_of_a_tilted_solid_follows_its_mesh():
    axis = (0.36, 0.48, 0.8)
    heights = [dot(vertex, axis) for vertex in mesh(CHAMFERED, 720).vertices]
    assert reach(CHAMFERED, axis) == pytest.approx((min(heights), max(heights)), abs=1e-3)


def test_along_and_at():
    moved = CHAMFERED.along(5)
    offset = np.subtract(moved.at(9, 0, 1.0), CHAMFERED.at(9, 0, 1.0))
    assert offset == pytest.approx(np.multiply(CHAMFERED.axis, 5))
    assert ring("ring", 36, 0.64, 16.6, seam=0.5).seams == (0.5,)


@pytest.mark.parametrize(
    "profile", [((0, 0), (1, 1)), ((-1, 0), (1, 0), (1, 1)), ((0, 0), (1, 1), (2, 2))]
)
def test_profiles_that_make_no_solid_are_refused(profile):
    with pytest.raises(ValueError, match="profile"):
        Turned("bad", profile)


def test_tubes_without_a_bore_are_refused():
    with pytest.raises(ValueError, match="bore"):
        tube("bad", 2, 1, 5)
    with pytest.raises(ValueError, match="thickness"):
        disc("bad", 2, 0)


def drawn(solid, tolerance=0.05):
    """Its lines as pairs of points."""
    mesh = solid.mesh(tolerance)
    return [(mesh.vertices[a], mesh.vertices[b]) for a, b in mesh.lines]


@pytest.mark.parametrize("tolerance", [0.5, 0.05, 0.002])
def test_circles_keep_to_the_tolerance_and_to_eight_degrees(tolerance):
    mesh = tube("tube", 38.05, 1.02, 30).mesh(tolerance)
    count = len(mesh.vertices) // 4
    assert 360 / count <= 8
    assert 19.025 * (1 - math.cos(math.pi / count)) <= tolerance


@pytest.mark.parametrize("tolerance", [0.05, 0.02, 0.003])
@pytest.mark.parametrize("radius", [3.1, 18.0, 24.6, 41.0, 97.0])
def test_what_slides_in_a_bore_stays_within_it_as_a_mesh(radius, tolerance):
    """A ring with 0.015 mm of play all round, in its bore: polygons with corners side by side."""
    inner = Turned(
        "ring", ((radius - 1, 0), (radius - 0.015, 0), (radius - 0.015, 5), (radius - 1, 5))
    )
    outer = Turned("body", ((radius, 0), (radius + 1, 0), (radius + 1, 5), (radius, 5)))
    meshes = [outer.mesh(tolerance), inner.mesh(tolerance)]
    one, other = (
        manifold3d.Manifold(
            manifold3d.Mesh64(np.array(m.vertices), np.array(m.triangles, dtype=np.uint64))
        )
        for m in meshes
    )
    assert (one ^ other).volume() == 0


def test_rims_are_drawn_and_smooth_corners_are_not():
    assert len(drawn(tube("tube", 38, 1, 30))) == 4 * 48
    assert len(drawn(disc("disc", 20, 1))) == 2 * 48
    assert len(drawn(Turned("cone", ((0, 0), (4, 0), (0, 9))))) == 48  # none at the tip
    gentle = Turned(
        "gentle", ((0, 0), (10, 0), (10.5, 5), (10.2, 10), (0, 10))
    )  # 5.7 + 3.4 degrees
    heights = {round(a[2], 9) for a, _ in drawn(gentle)}
    assert heights == {0, 10}


def test_a_dome_of_many_points_has_its_rims_alone():
    steps = [math.pi / 2 * i / 40 for i in range(41)]
    outer = [(10 * math.cos(a), 10 * math.sin(a)) for a in steps[:-1]] + [(0.0, 10.0)]
    inner = [(9 * math.cos(a), 9 * math.sin(a)) for a in steps[:-1]] + [(0.0, 9.0)]
    dome = Turned("dome", (*outer, *inner[::-1]))
    assert {(round(math.hypot(*a[:2]), 6), a[2]) for a, _ in drawn(dome)} == {(10, 0), (9, 0)}


def test_points_that_lie_twice_or_in_line_change_nothing():
    plain = tube("tube", 20, 2, 30)
    twice = Turned("t", ((8, 0), (10, 0), (10, 0), (10, 12), (10, 30), (8, 30), (8, 30)))
    assert twice.volume == pytest.approx(plain.volume)
    assert twice.mesh().is_closed
    assert len(drawn(twice)) == len(drawn(plain))


@pytest.mark.parametrize(
    "seams", [(0.3,), (-1.75, 0.3), (0.3, 2.0, 2.01, 6.0), (0.3, 0.3 + math.tau)]
)
def test_seams_run_round_the_section_at_their_angles(seams):
    solid = Turned("band", ((8, 0), (10, 0), (10, 6), (8, 6)), (1, 2, 3), (1, -1, 0.4), seams)
    mesh = solid.mesh()
    plain = Turned("band", solid.profile, solid.origin, solid.direction).mesh()
    assert mesh.is_closed
    rims = sum(math.dist(a, b) for a, b in drawn(solid))
    count = len({round(seam % math.tau, 9) for seam in seams})
    expected = sum(math.dist(plain.vertices[a], plain.vertices[b]) for a, b in plain.lines)
    assert rims == pytest.approx(expected + 16 * count, rel=2e-3)
    for seam in seams:
        ends = [solid.at(r, z, seam) for r, z in solid.profile]
        for a, b in zip(ends, ends[1:] + ends[:1], strict=True):
            assert any(both_at(line, a, b) or both_at(line, b, a) for line in drawn(solid))


def both_at(line, a, b):
    return math.dist(line[0], a) < 1e-9 and math.dist(line[1], b) < 1e-9


HALF_RING = [Arc((30, 0), 4, -math.pi, 2 * math.pi)]
BELL = [
    Line((0, 0), (12, 0)),
    Cubic((12, 0), (12, 6), (5, 9), (4, 20)),
    Line((4, 20), (3, 20)),
    Cubic((3, 20), (4, 9), (11, 6), (11, 1)),
    Line((11, 1), (0, 1)),
    Line((0, 1), (0, 0)),
]


def test_a_turned_curve_is_as_large_as_its_formula():
    """A torus by Pappus and half an ellipsoid by the textbook."""
    torus = turned_curve("torus", HALF_RING)
    assert torus.volume == pytest.approx(2 * math.pi**2 * 30 * 16, rel=1e-12)
    assert torus.surface == pytest.approx(4 * math.pi**2 * 30 * 4, rel=1e-12)
    quarter = EllipseArc((0, 0), (9, 0), (0, 6), 0, math.pi / 2)
    dome = turned_curve("dome", [Line((0, 0), (9, 0)), quarter, Line((0, 6), (0, 0))])
    assert dome.volume == pytest.approx(2 / 3 * math.pi * 81 * 6, rel=1e-12)
    bend = math.sqrt(1 - 36 / 81)
    oblate = math.pi * 81 * (1 + (1 - bend**2) / bend * math.atanh(bend)) + math.pi * 81
    assert dome.surface == pytest.approx(oblate, rel=1e-9)


def test_a_turned_curve_against_quadrature():
    bell = turned_curve("bell", BELL)

    def swept(curve):
        return math.tau * quad(lambda u: radius(curve, u) * speed(curve, u), 0, 1)[0]

    def within(curve):
        return abs(quad(lambda u: radius(curve, u) ** 2 * along.velocity(curve, u)[1], 0, 1)[0])

    def radius(curve, u):
        return along.place(curve, u)[0]

    def speed(curve, u):
        return math.hypot(*along.velocity(curve, u))

    outer, inner = BELL[1], BELL[3]
    flats = math.pi * (144 + 7 + 121)
    assert bell.surface == pytest.approx(swept(outer) + swept(inner) + flats, rel=1e-9)
    assert bell.volume == pytest.approx(math.pi * (within(outer) - within(inner)), rel=1e-9)
    assert bell.mesh(0.005).volume == pytest.approx(bell.volume, rel=0.01)
    assert {round(a[2], 6) for a, _ in drawn(bell)} == {0, 1, 20}


@given(st.floats(0.5, 20), st.floats(3, 80), st.floats(0.3, 1.5))
def test_a_shell_of_two_arcs_tends_to_its_formula(rise, diameter, share):
    """A shallow dome of sheet: two caps of one centre (volume of a cap: pi h2 (3 R - h) / 3)."""
    half = diameter / 2
    radius = (half**2 + rise**2) / (2 * rise) if rise < half else half
    inner = radius * (1 - 0.1 * share / 1.5)
    sweep = math.asin(min(1.0, half / radius))
    start = math.pi / 2 - sweep
    edge = (inner * math.cos(start), inner * math.sin(start))
    profile = [
        Arc((0, 0), radius, start, sweep),
        Line((0, radius), (0, inner)),
        Arc((0, 0), inner, math.pi / 2, -sweep),
        Line(edge, (radius * math.cos(start), radius * math.sin(start))),
    ]
    shell = turned_curve("shell", profile)
    solid_angle = math.tau * (1 - math.cos(sweep))
    assert shell.volume == pytest.approx(solid_angle * (radius**3 - inner**3) / 3, rel=1e-9)
    rim = math.pi * (radius**2 - inner**2) * math.sin(sweep)
    assert shell.surface == pytest.approx(solid_angle * (radius**2 + inner**2) + rim, rel=1e-9)
    mesh = shell.mesh()
    assert mesh.is_closed
    assert mesh.surface == pytest.approx(shell.surface, rel=0.01)


def test_profiles_of_curves_with_a_gap_are_refused():
    with pytest.raises(ValueError, match="gap"):
        turned_curve("bad", [Line((0, 0), (5, 0)), Line((5, 1), (0, 1)), Line((0, 1), (0, 0))])
