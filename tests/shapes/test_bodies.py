"""Every kind of body: closed, as large as its formula or an independent library says, rigid."""

import dataclasses
import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import dblquad
from scipy.spatial import ConvexHull

from hollowright.shapes.carved import Carved
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, EllipseArc, Line
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.frames import Frame
from hollowright.shapes.looped import Looped
from hollowright.shapes.meshes import SMOOTH, Mesh, creases, edges
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle
from hollowright.shapes.ovals import ellipse, regular_polygon
from hollowright.shapes.plated import Plated
from hollowright.shapes.polygons import inside, meeting
from hollowright.shapes.solids import Turned, ring, tube
from hollowright.shapes.space import dot
from hollowright.shapes.turned_curve import turned_curve
from tests.shapes.random_bodies import circle, convex, cut_tube, frame, hull, read, seeds, wall
from tests.shapes.random_outlines import random_outline

BRICK = (
    ((0, 0, 0), (7, 0, 0), (7, 2, 0), (0, 2, 0), (0, 0, 3), (7, 0, 3), (7, 2, 3), (0, 2, 3)),
    ((3, 2, 1, 0), (4, 5, 6, 7), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7)),
)
DOME = (
    Line((0, 0), (9, 0)),
    EllipseArc((0, 0), (9, 0), (0, 6), 0, math.pi / 2),
    Line((0, 6), (0, 0)),
)
CONE = (
    circle(9, lambda a: 0, 60),
    ((0, 0, 14.0),),
    ((0, 0, 12.0),),
    circle(8, lambda a: 0, 60),
)
BORE = Turned("bore", ((0, 0), (7, 0), (7, 30), (0, 30)), (0, 0, 30), (1, 0, 0))
LOOP = Outline((Cubic((0, 0), (60, 0), (-50, 30), (0, 0)),))
BODIES = [
    tube("tube", 38.05, 1.02, 30),
    ring("ring", 36, 0.64, 16.6),
    turned_curve("dome", DOME),
    Extruded("plate", annulus(38.05, 31.3), 0.71, (1, 2, 3), (0.3, -1, 0.5)),
    Extruded("wall", wall(rectangle(50, 30, 5), 1), 22.5),
    Looped("mitre", cut_tube(10, 1, lambda x, y: 0, lambda x, y: 20 + x / 2, 96), (3,)),
    Looped("cone", CONE),
    Plated("brick", *BRICK),
    Carved("carved", tube("main", 40, 1, 60), (BORE,)),
]
every = pytest.mark.parametrize("body", BODIES, ids=lambda body: body.id)


def lengths(mesh):
    return [
        math.dist(mesh.vertices[a], mesh.vertices[b]) for t in mesh.triangles for a, b in edges(t)
    ]


@every
@pytest.mark.parametrize("tolerance", [0.05, 0.002])
def test_a_mesh_is_closed_and_close_to_what_the_body_says(body, tolerance):
    mesh = body.mesh(tolerance)
    assert mesh.is_closed
    found = read(mesh)
    assert found.volume == pytest.approx(mesh.volume, rel=1e-9)
    assert found.area == pytest.approx(mesh.surface, rel=1e-9)
    assert np.array(mesh.bounds) == pytest.approx(found.bounds)
    assert mesh.volume == pytest.approx(body.volume, rel=0.005)
    assert mesh.surface == pytest.approx(body.surface, rel=0.005)


@every
def test_what_is_drawn_are_edges_of_the_mesh_and_every_crease_is_drawn(body):
    mesh = body.mesh()
    sides = {frozenset(edge) for triangle in mesh.triangles for edge in edges(triangle)}
    drawn = {frozenset(line) for line in mesh.lines}
    assert drawn <= sides
    assert len(drawn) == len(mesh.lines)
    assert {frozenset(line) for line in creases(mesh)} <= drawn


@every
@given(seeds)
@settings(max_examples=10)
def test_a_place_is_rigid(body, seed):
    there = frame(seed)
    put = body.placed(there)
    before, after = body.mesh(), put.mesh()
    assert put.id == body.id
    near = 1e-5 if isinstance(body, Carved) else 1e-9
    assert put.volume == pytest.approx(body.volume, rel=near)
    assert put.surface == pytest.approx(body.surface, rel=near)
    if isinstance(body, Carved) or body.id == "ring":  # where a circle's corners lie is its own
        assert after.volume == pytest.approx(before.volume, rel=1e-4)
    else:
        assert after.volume == pytest.approx(before.volume, rel=1e-9)
        assert sorted(lengths(after)) == pytest.approx(sorted(lengths(before)), abs=1e-9)
    low, high = body.reach((0, 0, 1))
    base = dot(there.origin, there.up)
    assert put.reach(there.up) == pytest.approx((low + base, high + base), abs=0.002)


@every
def test_a_seam_and_a_hole_go_where_their_body_goes(body):
    there = Frame((3, -4, 5), (1, 2, -0.5), (0, 1, 1))
    spots = [there.at(vertex) for vertex in body.mesh(0.001).vertices]
    put = body.placed(there).mesh(0.001)
    across, beyond, up = there.axes
    for way in (across, beyond, up):
        there_reach = [dot(spot, way) for spot in spots]
        reach = [dot(vertex, way) for vertex in put.vertices]
        assert (min(reach), max(reach)) == pytest.approx(
            (min(there_reach), max(there_reach)), abs=0.01
        )


def test_a_seam_stays_at_its_place_in_the_metal():
    bent = ring("ring", 36, 0.64, 16.6, seam=0.7)
    there = Frame((3, -4, 5), (1, 2, -0.5), (0, 1, 1))
    put = bent.placed(there)
    for r, z in bent.profile:
        assert put.at(r, z, put.seams[0]) == pytest.approx(there.at(bent.at(r, z, 0.7)), abs=1e-12)


@every
def test_a_shift_is_a_shift(body):
    moved = body.moved((1, -2, 3))
    assert moved.volume == pytest.approx(body.volume, rel=1e-9)
    expected = np.add(body.mesh().vertices, (1, -2, 3))
    assert np.array(moved.mesh().vertices) == pytest.approx(expected, abs=1e-9)


@every
def test_reach_follows_the_mesh(body):
    axis = (0.36, 0.48, 0.8)
    heights = [dot(vertex, axis) for vertex in body.mesh(0.0005).vertices]
    assert body.reach(axis) == pytest.approx((min(heights), max(heights)), abs=0.003)


def plain(thing):
    if dataclasses.is_dataclass(thing):
        return all(plain(getattr(thing, field.name)) for field in dataclasses.fields(thing))
    if isinstance(thing, tuple):
        return all(map(plain, thing))
    return thing is None or isinstance(thing, str | int | float)


@every
def test_a_body_holds_plain_tuples_and_numbers(body):
    assert plain(body)
    assert hash(body) == hash(dataclasses.replace(body))


ROUND = [
    tube("tube", 38.05, 1.02, 30),
    turned_curve("dome", DOME),
    Extruded("plate", annulus(38.05, 31.3), 0.71),
    Extruded("oval", ellipse(60, 40), 12),
]


@pytest.mark.parametrize("body", ROUND, ids=lambda body: body.id)
def test_the_error_falls_with_the_tolerance(body):
    """Chords lie off by the square of their length: a quarter of the tolerance, of the error."""
    if body.id == "dome":  # a profile of its own for each tolerance
        made = [turned_curve("dome", DOME, tolerance=t) for t in (0.008, 0.002)]
        meshes = [one.mesh(t) for one, t in zip(made, (0.008, 0.002), strict=True)]
    else:
        meshes = [body.mesh(0.008), body.mesh(0.002)]
    volumes = [body.volume - mesh.volume for mesh in meshes]
    surfaces = [body.surface - mesh.surface for mesh in meshes]
    halved = (3, 17) if body.id in ("dome", "oval") else (3.5, 4.6)  # free curves: by halves
    for first, second in (volumes, surfaces):
        assert first > 0
        assert halved[0] < first / second < halved[1]


@given(seeds, st.floats(0.2, 1.5), st.floats(0.3, 60), st.sampled_from([0.05, 0.004]))
@settings(max_examples=60, deadline=None)
def test_walls_of_any_convex_outline(seed, thickness, height, tolerance):
    region = wall(convex(seed), thickness)
    body = Extruded("wall", region, height)
    inner = region.holes[0]
    rims = region.perimeter + inner.perimeter
    assert body.volume == pytest.approx((Outline(region.segments).area - inner.area) * height)
    mesh = body.mesh(tolerance)
    assert mesh.is_closed
    assert abs(mesh.volume - body.volume) <= rims * tolerance * height
    assert abs(mesh.surface - body.surface) <= 2 * rims * tolerance + 0.002 * rims * height
    read(mesh)


@given(seeds, st.integers(0, 3))
@settings(max_examples=60, deadline=None)
def test_plates_of_any_outline_with_holes(seed, holes):
    """Outlines of lines, arcs and cubics, with round holes punched where there is room."""
    outer = random_outline(seed)
    spot = outer.centroid
    punched = tuple(disc(0.5).moved(spot[0] + 0.8 * i, spot[1]) for i in range(holes))
    punched = tuple(
        hole for hole in punched if inside(hole, outer) and meeting(hole, outer) is None
    )
    body = Extruded("plate", Outline(outer.segments, punched), 1.3)
    mesh = body.mesh(0.01)
    found = read(mesh)
    rims = outer.perimeter + sum(hole.perimeter for hole in punched)
    assert found.volume == pytest.approx(body.volume, abs=rims * 0.01 * 1.3)
    assert found.euler_number == 2 - 2 * len(punched)


def test_corners_along_a_side_and_a_start_half_way_are_kept_closed():
    """Points in one line are no corners, but belong to the mesh all the same."""
    sides = polygon([(0, 0), (4, 0), (9, 0), (20, 0), (20, 6), (20, 10), (0, 10), (0, 5), (0, 2)])
    body = Extruded("plate", Outline(sides.segments, (rectangle(3, 3).moved(5, 4),)), 2)
    mesh = body.mesh()
    assert mesh.is_closed
    assert mesh.volume == pytest.approx(191 * 2, rel=1e-12)
    uprights = [
        line for line in mesh.lines if mesh.vertices[line[0]][2] != mesh.vertices[line[1]][2]
    ]
    assert len(uprights) == 8


def test_uprights_are_drawn_where_the_outline_has_corners_alone():
    def uprights(outline):
        mesh = Extruded("plate", outline, 2).mesh()
        ends = [(mesh.vertices[a][2], mesh.vertices[b][2]) for a, b in mesh.lines]
        return sum(low != high for low, high in ends)

    assert uprights(rectangle(50, 30, 5)) == 0
    assert uprights(disc(20)) == 0
    assert uprights(ellipse(60, 12)) == 0
    assert uprights(regular_polygon(6, 40)) == 6
    assert uprights(regular_polygon(60, 40)) == 0  # 6 degrees each
    assert uprights(Outline(rectangle(50, 30).segments, (rectangle(5, 5).moved(3, 3),))) == 8
    drop = Outline((Arc((0, 0), 5, 0, math.pi), Line((-5, 0), (0, -20)), Line((0, -20), (5, 0))))
    assert uprights(drop) == 3


@pytest.mark.parametrize("outline", [ellipse(60, 12), rectangle(50, 30, 5), disc(3), LOOP])
def test_no_chord_turns_by_more_than_eight_degrees(outline):
    body = Extruded("plate", outline, 2)
    mesh = body.mesh(5.0)  # a tolerance that asks for nothing
    sharp = {frozenset(line) for line in creases(mesh, SMOOTH * 1.02)}
    level = {pair for pair in sharp if len({mesh.vertices[i][2] for i in pair}) == 1}
    assert len(sharp - level) <= 1  # the loop of one curve has a corner of its own


def test_a_wall_stands_where_it_is_put():
    plate = Extruded("plate", rectangle(4, 3), 2, (10, 20, 30), (1, 0, 0), (0, 1, 0))
    low, high = plate.mesh().bounds
    assert low == pytest.approx((10, 20, 30))
    assert high == pytest.approx((12, 24, 33))


@pytest.mark.parametrize("outline", [rectangle(4, 3, 1), rectangle(4, 3, 1).reversed()])
def test_either_way_round_makes_the_same_plate(outline):
    ring_shaped = Outline(outline.segments, (disc(1).moved(2, 1.5).reversed(),))
    mesh = Extruded("plate", ring_shaped, 2).mesh(0.0001)
    assert mesh.volume == pytest.approx(2 * (12 - 4 + math.pi - math.pi / 4), rel=1e-4)
    assert mesh.is_closed


def test_bodies_that_are_none_are_refused():
    with pytest.raises(ValueError, match="height"):
        Extruded("plate", disc(3), 0)
    with pytest.raises(ValueError, match="across"):
        Extruded("plate", disc(3), 1, across=(0, 0, 2))
    with pytest.raises(ValueError, match="same number"):
        Looped("skin", (circle(3, lambda a: 0, 12), circle(3, lambda a: 1, 13)))
    with pytest.raises(ValueError, match="same number"):
        Looped("skin", (((0, 0, 0),), ((0, 0, 1),)))
    with pytest.raises(ValueError, match="close"):
        Plated("plate", BRICK[0], BRICK[1][:-1])
    with pytest.raises(ValueError, match="same way"):
        Plated("plate", BRICK[0], (*BRICK[1][:-1], BRICK[1][-1][::-1]))
    with pytest.raises(ValueError, match="nothing"):
        Plated("plate", tuple((x, y, 0) for x, y, _ in BRICK[0]), BRICK[1])
    with pytest.raises(ValueError, match="cross or touch"):
        Extruded("plate", polygon([(0, 0), (30, 20), (30, 0), (0, 20)]), 1).mesh()


# Skins through rails


@given(st.floats(4, 30), st.floats(0.2, 0.9), st.floats(-0.8, 0.8), st.integers(48, 130))
@settings(max_examples=30)
def test_a_mitred_tube_has_the_length_of_its_middle(radius, share, slope, count):
    """Volume of a tube cut by planes: section x length of the axis; here of a polygon."""
    thickness = share * radius
    low, high = (lambda x, y: 0.3 * y), (lambda x, y: 40 + slope * x)
    body = Looped("mitre", cut_tube(radius, thickness, low, high, count))
    inscribed = count / math.tau * math.sin(math.tau / count)
    section = math.pi * (radius**2 - (radius - thickness) ** 2)
    assert body.volume == pytest.approx(inscribed * section * 40, rel=1e-9)
    back = dataclasses.replace(body, rails=body.rails[::-1])
    assert back.volume == pytest.approx(body.volume, rel=1e-9)
    assert back.mesh().is_closed


def saddle(count):
    """A branch of 16 mm bore 14 between a plane and a main tube of 30 that it stands on."""
    return Looped(
        "saddle", cut_tube(8, 1, lambda x, y: math.sqrt(225 - x * x), lambda x, y: 40, count)
    )


def test_a_saddled_tube_against_quadrature():
    """Volume by integrating the branch's height over its section, in polar form (scipy's dblquad).

    Its end is ruled from the outer edge on the main tube to the inner edge there.
    """

    def end(angle, share):
        inner, outer = (math.sqrt(225 - (r * math.cos(angle)) ** 2) for r in (7, 8))
        return inner + share * (outer - inner)

    def strip(share, angle):
        return (7 + share) * (40 - end(angle, share))

    exact = dblquad(strip, 0, math.tau, 0, 1)[0]
    errors = [exact - saddle(count).volume for count in (60, 120, 240)]
    assert errors[0] == pytest.approx(0, abs=0.005 * exact)
    assert errors[0] / errors[1] == pytest.approx(4, abs=0.02)
    assert errors[1] / errors[2] == pytest.approx(4, abs=0.005)
    assert saddle(240).mesh().volume == pytest.approx(saddle(240).volume, rel=3e-5)


def test_lines_of_a_saddled_tube_are_its_four_rims_and_its_seam():
    body = saddle(96)
    assert len(body.mesh().lines) == 4 * 96
    seamed = dataclasses.replace(body, seams=(5,)).mesh()
    assert len(seamed.lines) == 4 * 96 + 4
    extra = set(seamed.lines) - set(body.mesh().lines)
    spots = [seamed.vertices[i] for line in extra for i in line]
    angles = [math.atan2(y, x) for x, y, _ in spots]
    assert angles == pytest.approx([math.tau * 5 / 96] * 8)


def test_a_cone_of_sheet_by_the_textbook():
    outer, inner = (circle(radius, lambda a: 0, 360) for radius in (9, 8))
    cone = Looped("cone", (outer, ((0, 0, 14.0),), ((0, 0, 12.0),), inner))
    assert cone.volume == pytest.approx(math.pi / 3 * (81 * 14 - 64 * 12), rel=1e-4)
    assert len(cone.mesh().lines) == 720  # no line at the apex


def test_what_is_known_exactly_is_said_exactly():
    given_both = Looped("cone", CONE, (), 381.7, 920.0)
    assert (given_both.volume, given_both.surface) == (381.7, 920.0)
    assert given_both.placed(frame(3)).volume == 381.7


def test_rails_that_meet_leave_no_empty_triangles():
    """A lens: outer and inner rail are the same, so the rim between them has no width."""
    rim = circle(9, lambda a: 0, 48)
    mesh = Looped("lens", (rim, ((0, 0, 4.0),), ((0, 0, 3.0),), rim)).mesh()
    assert mesh.is_closed
    assert len(mesh.triangles) == 96
    assert mesh.volume == pytest.approx(read(mesh).volume)


# Flat faces


def test_a_brick():
    brick = Plated("brick", *BRICK)
    assert (brick.volume, brick.surface) == pytest.approx((42, 82))
    assert len(brick.mesh().lines) == 12
    inward = Plated("brick", BRICK[0], tuple(face[::-1] for face in BRICK[1]))
    assert inward.volume == pytest.approx(42)
    assert inward.mesh().volume == pytest.approx(42)


@given(seeds)
@settings(max_examples=30)
def test_random_convex_plates_against_a_hull_library(seed):
    rng = np.random.default_rng(seed)
    points = rng.normal(size=(14, 3)) * (9, 5, 4)
    around = ConvexHull(points)
    centred = points - points.mean(axis=0)
    outward = tuple(
        tuple(face if np.linalg.det(centred[face]) > 0 else face[::-1])
        for face in around.simplices.tolist()
    )
    body = Plated("hull", tuple(map(tuple, points.tolist())), outward)
    assert body.volume == pytest.approx(around.volume, rel=1e-9)
    assert body.surface == pytest.approx(around.area, rel=1e-9)
    mesh = body.mesh()
    assert mesh.is_closed
    assert mesh.volume == pytest.approx(around.volume, rel=1e-9)


@given(seeds, st.floats(0.5, 20))
@settings(max_examples=30)
def test_faces_that_are_not_convex_and_faces_in_one_plane(seed, height):
    """An upright prism on a notched polygon: the same as the extruded plate."""
    corners = [segment.start for segment in hull_with_notch(seed).segments]
    count = len(corners)
    points = tuple((x, y, z) for z in (0.0, height) for x, y in corners)
    sides = tuple((i, (i + 1) % count, count + (i + 1) % count, count + i) for i in range(count))
    floor, roof = tuple(range(count))[::-1], tuple(range(count, 2 * count))
    body = Plated("prism", points, (floor, roof, *sides)).placed(frame(seed))
    plate = Extruded("plate", polygon(corners), height)
    assert body.volume == pytest.approx(plate.volume, rel=1e-9)
    assert body.surface == pytest.approx(plate.surface, rel=1e-9)
    mesh = body.mesh()
    assert mesh.is_closed
    assert mesh.volume == pytest.approx(plate.volume, rel=1e-9)
    assert len(mesh.lines) == 3 * count - 1  # one corner lies in a line: its upright isn't drawn


def hull_with_notch(seed):
    """A convex polygon with a notch in its first side and a corner in the middle of its second."""
    a, b, c, *rest = [segment.start for segment in hull(random.Random(seed)).segments]
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    centre = hull(random.Random(seed)).centroid
    notch = (0.7 * middle[0] + 0.3 * centre[0], 0.7 * middle[1] + 0.3 * centre[1])
    return polygon([a, notch, b, ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2), c, *rest])


def test_an_open_mesh_is_seen_to_be_open():
    mesh = Plated("brick", *BRICK).mesh()
    assert not Mesh(mesh.vertices, mesh.triangles[1:]).is_closed
    a, b, c = mesh.triangles[0]
    assert not Mesh(mesh.vertices, ((a, c, b), *mesh.triangles[1:])).is_closed
