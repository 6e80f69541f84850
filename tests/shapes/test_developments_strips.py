"""Transitions and ruled strips: exact unrolling, triangles, and what each says of its error."""

import math
import time
from itertools import pairwise

import numpy as np
import pytest
import shapely
import trimesh
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from hollowright.shapes.curves import TURN
from hollowright.shapes.developments.cone import frustum
from hollowright.shapes.developments.ruled import at_shares, ruled, ruled_points
from hollowright.shapes.developments.transitions import round_to_round, square_to_round
from hollowright.shapes.developments.unrolling import Patch, unroll

MEETS = 1e-6  # mm
size = st.floats(5, 120)
shift = st.floats(-20, 20)


def circle(radius, height, x=0.0, y=0.0, across=None):
    def rail(share):
        a = TURN * share
        return (x + radius * math.cos(a), y + (across or radius) * math.sin(a), height)

    return rail


transitions = st.one_of(
    st.builds(
        lambda a, b, d, h, x, y: square_to_round(a, b, d, h, offset=(x, y)),
        size, size, size, size, shift, shift,
    ),
    st.builds(lambda a, b, h, x: round_to_round(a, b, h, offset=x), size, size, size, shift),
)  # fmt: skip


@given(transitions, st.floats(0, 1), st.floats(0.02, 0.98))
def test_there_and_back(made, where, share):
    flat = made.unrolled
    along = where * len(flat.patches)
    point = flat.flat(along, share)
    back = flat.flat(*flat.surface(point))
    assert math.dist(point, back) < MEETS
    assert math.dist(flat.space(*flat.surface(point)), flat.space(along, share)) < MEETS


@given(transitions)
def test_the_seam_meets_and_straight_lines_keep_their_length(made):
    flat = made.unrolled
    last = len(flat.patches)
    for share in (0, 0.3, 1):
        assert math.dist(flat.space(0, share), flat.space(last, share)) < MEETS
    for along in np.linspace(0, last, 41):
        across = math.dist(flat.flat(along, 0), flat.flat(along, 1))
        assert across == pytest.approx(math.dist(flat.space(along, 0), flat.space(along, 1)))
    assert math.dist(flat.flat(0, 0), flat.flat(0, 1)) == pytest.approx(
        math.dist(flat.flat(last, 0), flat.flat(last, 1))
    )


@given(transitions)
@settings(max_examples=30)
def test_mouths_keep_their_length(made):
    low, high = (sum(c.length() for c in made.unrolled.rail(share)) for share in (0, 1))
    around = math.pi * made.diameter
    assert high == pytest.approx(around, rel=1e-5)
    if len(made.unrolled.patches) == 9:
        assert low == pytest.approx(2 * sum(made.low_sizes), rel=1e-12)
    else:
        assert low == pytest.approx(math.pi * made.low_sizes[0], rel=1e-5)


@given(transitions, st.floats(0.01, 0.99), st.floats(0.1, 0.9))
def test_small_distances_are_kept(made, where, share):
    flat = made.unrolled
    along = where * len(flat.patches)
    step = 1e-5
    assume(int(along) == int(along + step))
    moves = [(along, share), (along + step, share), (along, share + step)]
    points, places = [flat.flat(*m) for m in moves], [flat.space(*m) for m in moves]
    for i, j in ((0, 1), (0, 2), (1, 2)):
        assert math.dist(points[i], points[j]) == pytest.approx(
            math.dist(places[i], places[j]), rel=1e-4, abs=1e-9
        )


@given(transitions)
@settings(max_examples=30)
def test_area_is_the_surface_s(made):
    # A fine mesh of the form, whose area is near the surface's, against the flat.
    flat = made.unrolled
    area = 0.0
    for i, patch in enumerate(flat.patches):
        count = 1 if patch.plane else 200
        rungs = [(flat.space(i + k / count, 0), flat.space(i + k / count, 1)) for k in range(count)]
        rungs.append((flat.space(i + 1 - 1e-12, 0), flat.space(i + 1 - 1e-12, 1)))
        area += sum(triangle(a, b, c) + triangle(c, b, d) for (a, b), (c, d) in pairwise(rungs))
    assert flat.outline().area == pytest.approx(area, rel=5e-5)


def triangle(a, b, c):
    return np.linalg.norm(np.cross(np.subtract(b, a), np.subtract(c, a))) / 2


@given(transitions)
@settings(max_examples=30)
def test_a_mesh_of_the_rolled_up_blank_and_its_mouths_is_closed(made):
    flat = made.unrolled
    vertices, faces = [], []
    places = [i + k / 6 for i in range(len(flat.patches)) for k in range(6)]
    places.append(len(flat.patches))
    for along in places:
        rolled = [flat.space(*flat.surface(flat.flat(along, share))) for share in (0, 1)]
        vertices += rolled
    mouths = [tuple(np.mean(vertices[share::2], axis=0)) for share in (0, 1)]
    foot, head = len(vertices), len(vertices) + 1
    for i in range(len(places) - 1):
        a, b, c, d = 2 * i, 2 * i + 2, 2 * i + 1, 2 * i + 3
        faces += [(a, b, c), (b, d, c), (foot, b, a), (head, c, d)]
    mesh = trimesh.Trimesh([*vertices, *mouths], faces, process=False)
    mesh.merge_vertices(digits_vertex=5)
    mesh.update_faces(mesh.nondegenerate_faces())
    mesh.update_faces(mesh.unique_faces())
    assert mesh.is_watertight
    assert mesh.volume > 0


@given(size, size, size, st.floats(0, 2))
def test_round_to_round_without_offset_is_the_frustum(base, top, height, thickness):
    assume(thickness * math.hypot(1, (base - top) / 2 / height) < min(base, top) / 2)
    made, cone = round_to_round(base, top, height, thickness), frustum(base, top, height, thickness)
    assert made.unrolled.outline().area == pytest.approx(cone.area, rel=2e-6)
    assert made.thickness_error == 0
    assert made.low_sizes[0] == pytest.approx(2 * cone.base_radius)
    turned = made.unrolled.states[-1][-1][0] - made.unrolled.states[0][0][0]
    assert abs(turned) == pytest.approx(cone.sector_angle, abs=1e-7)


@given(size, size, shift)
def test_nearly_equal_mouths_pass_smoothly(diameter, height, offset):
    even, nearly = (
        round_to_round(diameter, d, height, offset=offset).unrolled
        for d in (diameter, diameter * (1 - 1e-9))
    )
    for along in (0.2, 1.5, 3.3):
        assert math.dist(even.flat(along, 1), nearly.flat(along, 1)) < 1e-5


def test_square_to_round_true_lengths_by_hand():
    # 50 x 36 to 24, 30 high: from a corner to the circle's quarter points, by Pythagoras.
    made = square_to_round(50, 36, 24, 30)
    lengths = made.true_lengths(3)
    corner = lengths[1]
    assert corner[0] == pytest.approx(math.sqrt(25**2 + (18 - 12) ** 2 + 30**2))
    assert corner[3] == pytest.approx(math.sqrt((25 - 12) ** 2 + 18**2 + 30**2))
    at_30 = (25 - 12 * math.sin(math.pi / 6), 18 - 12 * math.cos(math.pi / 6), 30)
    assert corner[1] == pytest.approx(math.hypot(*at_30))


def test_square_to_round_the_four_corners_alike():
    made = square_to_round(40, 40, 25, 33, 0.9)
    corners = made.true_lengths(4)[1::2]
    for corner in corners[1:]:
        assert corner == pytest.approx(corners[0])
    assert made.thickness_error == pytest.approx(0)
    lean = math.hypot(1, 7.5 / 33)
    assert made.low_sizes == pytest.approx((40 - 0.9 * lean,) * 2)
    assert made.diameter == pytest.approx(25 - 0.9 * lean)


def test_thickness_error_is_said_where_the_walls_lean_unlike():
    made = square_to_round(60, 30, 28, 40, 1.0)
    leans = [0.5 * math.hypot(1, 16 / 40), 0.5 * math.hypot(1, 1 / 40)]
    assert made.thickness_error == pytest.approx((leans[0] - leans[1]) / 2)


@pytest.mark.parametrize(
    "make",
    [
        lambda: square_to_round(0, 30, 20, 30),
        lambda: square_to_round(30, 30, 20, 0),
        lambda: square_to_round(30, 30, 20, 30, 12),
        lambda: round_to_round(30, 20, math.nan),
        lambda: round_to_round(30, 20, 10, 11),
        lambda: round_to_round(30, 20, 10, -1),
    ],
)
def test_transitions_that_can_t_be_are_refused(make):
    with pytest.raises(ValueError, match=r"must be|fills"):
        make()


def test_a_point_off_the_flat_is_refused():
    with pytest.raises(ValueError, match="outside"):
        square_to_round(50, 36, 24, 30).unrolled.surface((500, 500))
    with pytest.raises(ValueError, match="outside"):
        ruled(circle(20, 0), circle(12, 30)).surface((500, 500))


def test_twist_tells_a_strip_that_must_stretch():
    def low(t):
        return ((10 * t, 0.0, 0.0), (10.0, 0.0, 0.0))

    def high(t):
        return ((10 * t, 0.0, 20.0), (10.0, 3.0, 0.0))

    assert unroll([Patch(low, high)]).twist == pytest.approx(math.atan(0.3))
    assert square_to_round(50, 36, 24, 30).unrolled.twist < 1e-12


# ---- ruled strips


@given(size, size, size, shift, st.sampled_from([0.1, 0.01]))
def test_a_ruled_cone_nears_the_exact_one(base, top, height, offset, tolerance):
    strip = ruled(circle(base / 2, 0), circle(top / 2, height, offset), tolerance)
    exact = round_to_round(base, top, height, offset=offset).unrolled
    for rail, diameter in ((strip.flat_low, base), (strip.flat_high, top)):
        chords = sum(math.dist(a, b) for a, b in pairwise(rail))
        assert -1e-9 <= math.pi * diameter - chords <= 1.05 * strip.edge_defect + 1e-9
    assert strip.edge_defect <= tolerance
    assert strip.area == pytest.approx(exact.outline().area, rel=4 * tolerance / min(base, top))
    assert abs(strip.stretch) < 4 * tolerance


@given(size, size, size, shift, st.floats(0.3, 0.99), st.floats(0.01, 0.99))
def test_triangles_are_kept_exactly_and_the_way_back(base, top, height, offset, part, share):
    strip = ruled(circle(base / 2, 0), circle(top / 2, height, offset, across=top / 3), 0.5)
    flat = [*map(np.array, (strip.flat_low, strip.flat_high))]
    for (i, j), (k, m) in pairwise(strip.rungs):
        space = [strip.low[i], strip.high[j], strip.low[k] if j == m else strip.high[m]]
        laid = [flat[0][i], flat[1][j], flat[0][k] if j == m else flat[1][m]]
        for a in range(3):
            whole = math.dist(space[a], space[a - 1])
            assert math.dist(laid[a], laid[a - 1]) == pytest.approx(whole, abs=1e-9)
    along = part * (len(strip.rungs) - 1)
    back = strip.surface(strip.flat(along, share))
    assert math.dist(strip.space(*back), strip.space(along, share)) < MEETS
    assert strip.outline().area == pytest.approx(strip.area, rel=1e-9)
    assert math.dist(strip.space(0, share), strip.space(len(strip.rungs) - 1, share)) < MEETS


def test_stretch_stays_for_a_twisted_strip_and_goes_for_a_cone():
    def turned(share):
        return circle(12, 30)(share + 0.15)

    twisted = [ruled(circle(20, 0), turned, tolerance).stretch for tolerance in (0.1, 0.001)]
    straight = [ruled(circle(20, 0), circle(12, 30), t).stretch for t in (0.1, 0.001)]
    assert twisted[0] == pytest.approx(twisted[1], rel=0.05)
    assert twisted[1] > 0.1
    assert straight[1] < 2e-3


def test_point_lists_of_one_length_and_of_two():
    square = [(15.0, -15.0, 0.0), (15.0, 15.0, 0.0), (-15.0, 15.0, 0.0), (-15.0, -15.0, 0.0)]
    upper = [(x * 0.6, y * 0.6, 20.0) for x, y, _ in square]
    hopper = ruled_points(square, upper)
    slant = math.hypot(20, 6)
    assert hopper.area == pytest.approx(4 * (30 + 18) / 2 * slant)
    assert hopper.edge_defect == 0
    round_mouth = [circle(8, 20)(i / 48 - 1 / 8) for i in range(48)]
    mixed = ruled_points(square, round_mouth)
    exact = square_to_round(30, 30, 16, 20).unrolled.outline().area
    assert mixed.area == pytest.approx(exact, rel=5e-3)
    assert shapely.Polygon(mixed.points()).is_valid


def test_shares_of_a_polygon():
    rail = at_shares([(0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (4.0, 3.0, 0.0)])
    assert rail(0.0) == rail(1.0) == (0, 0, 0)
    assert rail(5.5 / 12) == pytest.approx((4, 1.5, 0))


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: ruled(circle(9, 0), circle(9, 5), 0), "tolerance"),
        (lambda: ruled(circle(9, 0), lambda t: (t, 0.0, 5.0)), "closed"),
        (lambda: ruled(circle(9, 0), circle(9, 5), 1e-9), "points"),
        (lambda: ruled(circle(9, 0), circle(9, 0)), "touch"),
        (lambda: ruled_points([(0, 0, 0)], [(0, 0, 0)] * 4), "three points"),
    ],
)
def test_strips_that_can_t_be_are_refused(make, words):
    with pytest.raises(ValueError, match=words):
        make()


@pytest.mark.parametrize(
    "make",
    [
        lambda: round_to_round(40, 24, 30, 0.8, offset=7).unrolled.points(0.01),
        lambda: square_to_round(50, 36, 24, 30, 0.8).unrolled.points(0.01),
        lambda: ruled(circle(20, 0), circle(12, 30, across=9), 0.01).points(),
    ],
)
def test_speed(make):
    times = []
    for _ in range(5):
        start = time.perf_counter()
        make()
        times.append(time.perf_counter() - start)
    assert min(times) < 0.005 * 3
