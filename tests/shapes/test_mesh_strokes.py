"""What is seen of meshes against a plain ray at each sample, and against the exact strokes."""

import itertools
import math
import random
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.shapes.boxes import meeting
from hollowright.shapes.carved import Carved
from hollowright.shapes.chains import Run, chained, runs
from hollowright.shapes.coincident import Placed, coincident
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.looped import Looped
from hollowright.shapes.mesh_spots import mesh_spots
from hollowright.shapes.mesh_strokes import mesh_strokes
from hollowright.shapes.meshes import Mesh
from hollowright.shapes.outline import Outline, rectangle
from hollowright.shapes.polyline import Polyline, through
from hollowright.shapes.rims import bends
from hollowright.shapes.solids import Turned, disc, ring, spread, tube
from hollowright.shapes.strokes import strokes
from hollowright.shapes.view import dimetric, isometric, view_from
from tests.shapes.random_bodies import cut_tube
from tests.shapes.test_view import random_assembly

TOLERANCE = 0.02
VIEWS = [dimetric(), isometric(), view_from((0.3, 0.9, -0.4))]


def cuboid(id, low, high):
    (x0, y0, z0), (x1, y1, z1) = low, high
    return Extruded(id, rectangle(x1 - x0, y1 - y0), z1 - z0, low)


def cube_in_a_box():
    hollow = Outline(rectangle(20, 30).segments, (rectangle(18, 28).moved(1, 1),))
    return (
        cuboid("floor", (0, 0, 0), (20, 30, 1)),
        Extruded("wall", hollow, 9, (0, 0, 1)),
        cuboid("cube", (4, 6, 1), (11, 13, 8)),
    )


def rod_through_a_ring():
    return ring("ring", 30, 3, 8), Turned("rod", ((0, 0), (11, 0), (11, 40), (0, 40)), (0, 0, -16))


def mitred():
    rails = cut_tube(10, 1, lambda x, y: 0.0, lambda x, y: 25 + 0.9 * x + 0.2 * y, 144)
    return (Looped("mitre", rails, (30,)),)


def torus(id, middle, way, big=16, thin=3):
    profile = tuple(
        (big + thin * math.cos(t), thin * math.sin(t)) for t in np.linspace(0, math.tau, 64, False)
    )
    return Turned(id, profile, middle, way)


def links():
    return torus("level", (0, 0, 0), (0, 0, 1)), torus(
        "upright", (15.2, 1.3, 0.4), (0, 1, 0.1), 12, 2.3
    )


def can():
    body = tube("can", 40, 1, 50)
    hole = Turned("hole", ((0, 0), (6, 0), (6, 40), (0, 40)), (0, 0, 25), (1, -1, 1))
    return (
        disc("base", 40, 0.8).moved((0, 0, -0.8)),
        Carved("body", body, (hole,)),
    )


def lidded(gap=None):
    solids = (
        disc("body_cap", 38.05, 0.7),
        tube("body", 38.05, 1.02, 30).along(0.7),
        ring("ring", 36.0, 0.64, 16.6).along(28.7),
        tube("lid", 38.05, 1.02, 15).along(30.7),
        disc("lid_cap", 38.05, 0.7).along(45.7),
    )
    return solids if gap is None else spread(solids, gap)


SCENES = {
    "cube in a box": cube_in_a_box,
    "rod through a ring": rod_through_a_ring,
    "mitred tube": mitred,
    "links": links,
    "can with a hole": can,
    "lidded box": lidded,
    "lidded box apart": lambda: lidded(12.0),
}


def meshed(bodies, tolerance=TOLERANCE):
    return [(body.id, body.mesh(tolerance)) for body in bodies]


class Rays:
    """Every triangle asked one by one: the slow, plain reference."""

    def __init__(self, meshes, view):
        self.frame = np.array([view.right, view.up, view.eye])
        triangles = [
            np.array(mesh.vertices)[np.array(mesh.triangles)] @ self.frame.T for _, mesh in meshes
        ]
        self.owner = np.repeat(np.arange(len(meshes)), [len(t) for t in triangles])
        self.a, self.b, self.c = np.concatenate(triangles).transpose(1, 0, 2)

    def hits(self, x, y):
        """Heights towards the eye at which the line of sight meets triangles, and their owners."""
        p = np.array([x, y])
        a, b, c = (corner[:, :2] - p for corner in (self.a, self.b, self.c))
        weights = np.stack(
            [u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0] for u, v in ((b, c), (c, a), (a, b))]
        )
        total = weights.sum(axis=0)
        met = ((weights >= 0).all(axis=0) | (weights <= 0).all(axis=0)) & (np.abs(total) > 1e-12)
        depths = np.stack([self.a[met, 2], self.b[met, 2], self.c[met, 2]])
        return (weights[:, met] * depths).sum(axis=0) / total[met], self.owner[met]

    def covered(self, point, ahead=6 * TOLERANCE):
        """Whether something is met before a point; None where it hangs on a hair."""
        x, y, z = point
        votes = set()
        for dx, dy in ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1)):
            found, _ = self.hits(x + 4 * TOLERANCE * dx, y + 4 * TOLERANCE * dy)
            votes.add(bool((found > z + ahead).any()))
        return votes.pop() if len(votes) == 1 else None


def near(curve, point, within):
    corners = np.array(curve.points(0.001))
    start, step = corners[:-1], np.diff(corners, axis=0)
    square = np.maximum((step**2).sum(axis=1), 1e-18)
    t = np.clip(((point - start) * step).sum(axis=1) / square, 0, 1)
    return np.linalg.norm(start + t[:, None] * step - point, axis=1).min() < within


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("scene", SCENES)
def test_lines_are_seen_where_nothing_stands_before_them(scene, view):
    """Along the meshes' lines: a point before which a ray meets nothing is on a seen stroke.

    Any other is on a hidden stroke of its part.
    """
    meshes = meshed(SCENES[scene]())
    drawn = mesh_strokes(meshes, view, tolerance=TOLERANCE)
    rays = Rays(meshes, view)
    rng = random.Random(4)
    wrong, asked = [], 0
    for name, mesh in meshes:
        ends = np.array(mesh.vertices) @ rays.frame.T
        for a, b in rng.sample(mesh.lines, min(len(mesh.lines), 60)):
            point = ends[a] + rng.uniform(0.1, 0.9) * (ends[b] - ends[a])
            covered = rays.covered(point)
            if covered is None:
                continue
            asked += 1
            there = [s for s in drawn if near(s.curve, point[:2], 2.5 * TOLERANCE)]
            if covered:
                right = any(not s.visible and s.owner == name for s in there)
            else:
                right = any(s.visible for s in there)
            if not right:
                wrong.append((name, point, covered))
    assert wrong == []
    assert asked >= (0 if scene == "links" else 20)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("scene", SCENES)
def test_beside_a_seen_stroke_the_eye_meets_its_part(scene, view):
    """Contours too: close by in some direction the first thing met is the stroke's own part."""
    meshes = meshed(SCENES[scene]())
    names = [name for name, _ in meshes]
    rays = Rays(meshes, view)
    asked = 0
    for stroke in mesh_strokes(meshes, view, tolerance=TOLERANCE):
        if not stroke.visible:
            continue
        corners = np.array(stroke.curve.points(0.001))
        for start, end in list(pairwise(corners))[:: max(1, len(corners) // 6)]:
            length = np.linalg.norm(end - start)
            if length < 20 * TOLERANCE and len(corners) < 3:
                continue
            middle = (start + end) / 2
            met = set()
            for turn, out in itertools.product(range(12), (2, 6)):
                way = np.array([math.cos(turn * math.tau / 12), math.sin(turn * math.tau / 12)])
                depths, owners = rays.hits(*(middle + out * TOLERANCE * way))
                if len(depths):
                    met.add(names[owners[depths.argmax()]])
            assert stroke.owner in met
            asked += 1
    assert asked > 5


def lengths(drawn):
    found = {}
    for stroke in drawn:
        if stroke.visible:
            kind = "contour" if stroke.kind == "contour" else "line"
            found[kind] = found.get(kind, 0) + stroke.curve.length()
    return found


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("gap", [None, 12.0])
def test_turned_bodies_as_meshes_are_drawn_as_by_the_exact_way(view, gap):
    bodies = lidded(gap)
    exact = lengths(strokes(bodies, view))
    meshes = lengths(mesh_strokes(meshed(bodies), view, tolerance=TOLERANCE))
    for kind, length in exact.items():
        assert meshes[kind] == pytest.approx(length, rel=0.01)


def bare(assembly):
    """Without seams, which are a matter of a hair where one lies along a contour."""
    return tuple(replace(body, seams=()) for body in assembly)


@pytest.mark.parametrize("seed", range(30))
def test_random_turned_bodies_as_meshes_are_drawn_as_by_the_exact_way(seed):
    """Tubes, discs, whole cones, frusta any way round, one behind another."""
    rng = random.Random(seed)
    view = view_from((rng.gauss(0, 1), rng.gauss(0, 1), rng.uniform(-1, 1)))
    bodies = bare(random_assembly(rng, view, coaxial=seed % 2 == 0))
    exact = lengths(strokes(bodies, view))
    found = lengths(mesh_strokes(meshed(bodies, 0.005), view, tolerance=0.005))
    if any(bends(body) for body in bodies):  # then contours are unlike: the exact way breaks them
        assert found["line"] == pytest.approx(exact["line"], rel=0.01)
    else:
        assert sum(found.values()) == pytest.approx(sum(exact.values()), rel=0.01)


def test_the_contours_of_a_cone_run_straight_into_its_tip():
    view = dimetric()
    cone = Turned("cone", ((0, 0), (9, 0), (0, 20)))
    exact = [s.curve for s in strokes([cone], view) if s.kind == "contour"]
    (found,) = (s.curve for s in mesh_strokes(meshed([cone]), view) if s.kind == "contour")
    assert found.length() == pytest.approx(sum(curve.length() for curve in exact), rel=1e-3)
    assert len(found.points(0.01)) == 3
    assert found.points(0.01)[1] == pytest.approx(view.project((0, 0, 20)))


def test_hidden_outlines_of_a_ring_are_those_of_its_outside():
    bodies = lidded()
    view = dimetric()

    def dashed(drawn):
        chosen = [s for s in drawn if s.owner == "ring" and s.outer and not s.visible]
        return sum(s.curve.length() for s in chosen)

    exact = dashed(strokes(bodies, view))
    found = dashed(mesh_strokes(meshed(bodies), view, tolerance=TOLERANCE, outlined=["ring"]))
    # The exact way counts a rim of the bore's edge as outer where its end face looks out.
    assert found == pytest.approx(exact, rel=0.01)


def test_the_contour_of_a_ball_is_a_smooth_circle():
    profile = tuple(
        (10 * math.cos(t), 10 * math.sin(t)) for t in np.linspace(-math.pi / 2, math.pi / 2, 49)
    )
    ball = Turned("ball", tuple((max(r, 0.0), z) for r, z in profile))
    (circle,) = mesh_strokes(meshed([ball]), view_from((0.3, -0.8, 0.5)), tolerance=TOLERANCE)
    assert circle.visible
    assert circle.kind == "contour"
    points = np.array(circle.curve.points(0.01))
    assert np.hypot(*points.T) == pytest.approx(10, abs=TOLERANCE / 2)
    ways = np.diff(points, axis=0)
    angles = np.unwrap(np.arctan2(ways[:, 1], ways[:, 0]))
    turns = np.diff(angles) * np.sign(angles[-1] - angles[0])
    assert turns.min() > 0  # never back: no zigzag
    assert turns.max() < math.radians(12)


def test_the_contours_of_a_cylinder_are_exact():
    bodies = [Turned("rod", ((0, 0), (7, 0), (7, 20), (0, 20)))]
    view = dimetric()
    contours = [s for s in mesh_strokes(meshed(bodies), view) if s.kind == "contour"]
    assert len(contours) == 2
    for stroke in contours:
        low_x, low_y, high_x, high_y = stroke.curve.bounds()
        assert high_y - low_y == pytest.approx(20 * view.up[2])
        assert abs(low_x) == pytest.approx(7, abs=1e-4)
        assert abs(high_x) == pytest.approx(7, abs=1e-4)


def test_lines_that_parts_share_are_drawn_once():
    boxes = [cuboid("a", (0, 0, 0), (10, 10, 5)), cuboid("b", (0, 0, 5), (10, 10, 9))]
    drawn = [s.curve for s in mesh_strokes(meshed(boxes), isometric()) if s.visible]
    # Three faces are seen: 9 edges, and the joint across two of them. Each has the scale sqrt(2/3).
    whole = 4 * 10 + 2 * 10 + 2 * 10 + 3 * 9
    assert sum(curve.length() for curve in drawn) == pytest.approx(whole * math.sqrt(2 / 3))


def test_a_cube_shows_nine_edges_and_hides_three():
    drawn = mesh_strokes(meshed([cuboid("cube", (0, 0, 0), (9, 9, 9))]), isometric())
    edge = 9 * math.sqrt(2 / 3)
    assert sum(s.curve.length() for s in drawn if s.visible) == pytest.approx(9 * edge)
    assert sum(s.curve.length() for s in drawn if not s.visible) == pytest.approx(3 * edge)


def test_a_line_behind_a_plate_is_hidden_just_there():
    """A plate 10 wide seen flat on, an axis behind it."""
    view = view_from((0, -1, 0))
    plate = cuboid("plate", (0, 0, 0), (10, 1, 10))
    axis = ((-5, 4, 5), (15, 4, 5))
    drawn = [s for s in mesh_strokes(meshed([plate]), view, [axis]) if s.kind == "axis"]
    seen = sorted(x for s in drawn if s.visible for x in (s.curve.start[0], s.curve.end[0]))
    assert seen == pytest.approx([-5, 0, 10, 15], abs=0.011)


def test_a_seam_of_a_strip_is_told_from_creases():
    kinds = {s.kind for s in mesh_strokes(meshed(mitred()), dimetric()) if s.visible}
    assert kinds == {"rim", "contour", "seam"}


def test_a_mesh_without_lines_gets_those_of_its_creases():
    mesh = cuboid("cube", (0, 0, 0), (9, 9, 9)).mesh()
    bare = Mesh(mesh.vertices, mesh.triangles)
    told = mesh_strokes([("cube", mesh)], isometric())
    found = mesh_strokes([("cube", bare)], isometric())
    assert sum(s.curve.length() for s in found) == pytest.approx(
        sum(s.curve.length() for s in told)
    )


def test_nothing_gives_nothing():
    assert mesh_strokes([], dimetric()) == ()
    (alone,) = mesh_strokes([], dimetric(), [((0, 0, 0), (0, 0, 9))])
    assert alone.visible


@pytest.mark.parametrize("scene", SCENES)
def test_spots_are_on_their_parts_and_seen_if_any_of_them_is(scene):
    view, meshes = dimetric(), meshed(SCENES[scene]())
    rays = Rays(meshes, view)
    for number, spot in enumerate(mesh_spots([mesh for _, mesh in meshes], view, TOLERANCE)):
        x, y, z = rays.frame @ np.array(spot)
        depths, owners = rays.hits(x, y)
        assert np.abs(depths[owners == number] - z).min() < 1e-6
        if meshes[number][0] not in ("ring", "base", "floor", "body_cap"):
            assert depths.max() == pytest.approx(z, abs=1e-6)


boxes = st.lists(
    st.tuples(*[st.floats(-50, 50), st.floats(-50, 50), st.floats(0, 20), st.floats(0, 20)]),
    min_size=1,
    max_size=25,
)


@given(boxes, boxes)
@settings(max_examples=60, deadline=None)
def test_boxes_that_meet_are_found_once(first, second):
    one, two = (
        np.array([(x, y, x + w, y + h) for x, y, w, h in given]) for given in (first, second)
    )
    wanted = {
        (i, j)
        for i, a in enumerate(one)
        for j, b in enumerate(two)
        if a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]
    }
    pairs = list(zip(*(numbers.tolist() for numbers in meeting(one, two, 8)), strict=True))
    assert len(pairs) == len(set(pairs))
    assert set(pairs) == wanted


def test_chains_go_through_nodes_where_two_pieces_meet():
    links = [(0, 1, 2), (1, 3, 2), (2, 3, 4), (3, 4, 5), (4, 4, 6), (5, 8, 9), (6, 9, 8)]
    chains = [[number for number, _ in chain] for chain in chained(links)]
    assert sorted(map(sorted, chains)) == [[0, 1, 2], [3], [4], [5, 6]]
    assert [0, 1, 2] in chains or [2, 1, 0] in chains


def test_crumbs_take_the_look_of_what_is_beside_them():
    pieces = [
        Run("seen", [(0, 0), (5, 0)]),
        Run("hidden", [(5, 0), (5.01, 0)]),
        Run("seen", [(5.01, 0), (9, 0)]),
        Run("hidden", [(9, 0), (12, 0)]),
    ]
    found = runs(pieces, 0.05)
    assert [(run.look, run.points[0], run.points[-1]) for run in found] == [
        ("seen", (0, 0), (9, 0)),
        ("hidden", (9, 0), (12, 0)),
    ]


def test_only_what_an_earlier_part_draws_is_covered():
    first, second = [(0, 0, 0), (10, 0, 0)], [(14, 0, 0.001), (4, 0, 0.001)]
    lines = Placed(np.array([first, second, [(0, 0, 3), (9, 0, 3)]]), np.array([0, 1, 2]))
    line, low, high = coincident(lines, lines, 0.01, earlier=True)
    assert line.tolist() == [1]
    assert (low[0], high[0]) == pytest.approx((0.4, 1.0))
    line, *_ = coincident(lines, lines, 0.01, earlier=False)
    assert sorted(line.tolist()) == [0, 1]


def test_a_polyline_keeps_its_ends_and_what_stands_off():
    wave = [(x / 10, math.sin(x / 10)) for x in range(63)]
    curve = through(wave, 0.01)
    assert isinstance(curve, Polyline)
    assert (curve.start, curve.end) == (wave[0], wave[-1])
    assert 8 < len(curve.corners) < 40
    assert all(near(curve, np.array(point), 0.0101) for point in wave)
    assert curve.scaled(2).moved(1, 0).length() == pytest.approx(2 * curve.length())
