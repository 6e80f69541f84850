"""Turned forms: meridians, gores, stacked cones, the blank for raising and its courses."""

import math
import time
from itertools import pairwise

import numpy as np
import pytest
import shapely
import trimesh
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad

from hollowright.shapes.curves import TURN, Arc, EllipseArc, Line
from hollowright.shapes.developments.cone import frustum
from hollowright.shapes.developments.gores import Gore, _bulge, _even, stacked_cones
from hollowright.shapes.developments.meridian import Meridian, along, through
from hollowright.shapes.developments.raising import blank_diameter, courses

MEETS = 1e-6  # mm
size = st.floats(3, 120)


def bowl(radius):
    """A hemisphere from its bottom to its mouth."""
    return along([Arc((0.0, radius), radius, -math.pi / 2, math.pi / 2)])


def vase(r, a, h):
    """A smooth profile that starts off the axis: radius r + a sin, h high."""
    return Meridian(lambda t: (r + a * math.sin(4.1 * t + 0.3), h * t))


vases = st.builds(
    lambda r, part, h: vase(r, part * r, h * r), size, st.floats(0, 0.6), st.floats(0.8, 3)
)


@given(vases)
def test_length_and_area_by_another_quadrature(profile):
    def speed(t):
        h = 1e-6
        (r, z), (q, y) = profile.place(t - h), profile.place(t + h)
        return math.hypot(q - r, y - z) / 2 / h

    assert profile.length == pytest.approx(quad(speed, 0, 1)[0], rel=1e-7)
    area = quad(lambda t: TURN * profile.place(t)[0] * speed(t), 0, 1)[0]
    assert profile.area == pytest.approx(area, rel=1e-7)


@given(size, size)
def test_bowls_and_half_eggs_by_their_formulas(radius, height):
    assert bowl(radius).area == pytest.approx(TURN * radius**2, rel=1e-9)
    assert bowl(radius).length == pytest.approx(math.pi / 2 * radius, rel=1e-9)
    assume(abs(radius - height) > 0.01 * radius)
    half = EllipseArc((0.0, height), (radius, 0.0), (0.0, height), -math.pi / 2, math.pi / 2)
    # Half a spheroid: Zwillinger, CRC Standard Mathematical Tables, surface of a spheroid.
    if height > radius:
        e = math.sqrt(1 - (radius / height) ** 2)
        exact = math.pi * radius**2 * (1 + height / radius / e * math.asin(e))
    else:
        e = math.sqrt(1 - (height / radius) ** 2)
        exact = math.pi * radius**2 * (1 + (1 - e * e) / e * math.atanh(e))
    assert along([half]).area == pytest.approx(exact, rel=1e-9)


@given(st.lists(st.tuples(size, size), min_size=2, max_size=7, unique=True))
def test_straight_profiles_are_frusta(points):
    profile = through(points)
    sides = list(pairwise(points))
    slants = [math.dist(a, b) for a, b in sides]
    assert profile.length == pytest.approx(sum(slants), rel=1e-12)
    areas = [math.pi * (a[0] + b[0]) * s for (a, b), s in zip(sides, slants, strict=True)]
    assert profile.area == pytest.approx(sum(areas), rel=1e-9)
    cones = stacked_cones(profile, 0.01)
    assert sum(cone.area for cone in cones) == pytest.approx(profile.area, rel=1e-9)


@given(vases, st.floats(0, 1))
def test_parameter_of_a_length(profile, t):
    assert profile.parameter(profile.reached(t)) == pytest.approx(t, abs=1e-9)


@given(size, st.floats(0.001, 0.3))
def test_inside_a_bowl_is_a_smaller_bowl(radius, part):
    inner = bowl(radius).inside(radius * part)
    assert inner.area == pytest.approx(TURN * (radius * (1 - part)) ** 2, rel=1e-8)


def test_inside_of_straight_sides_is_mitred():
    cup = through([(0, 0), (20, 0), (26, 30)]).inside(0.5)
    lean = math.hypot(1, 6 / 30)
    (r0, z0), (r1, z1), (r2, z2) = cup.points()
    assert (r0, z0, z1) == (0, 0.5, 0.5)
    assert r1 == pytest.approx(20 + 0.1 - 0.5 * lean)
    # Its end stands square to the side, half a thickness in.
    assert math.dist((r2, z2), (26, 30)) == pytest.approx(0.5)


def test_inside_a_cone_from_its_point():
    inner = through([(0, 0), (20, 30)]).inside(0.5)
    assert inner.points()[0] == pytest.approx((0, 0.5 * math.hypot(1, 30 / 20)))


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: bowl(3).inside(3.5), "tighter"),
        (lambda: through([(0, 0), (1, 0), (1, 5)]).inside(2), "shorter"),
        (lambda: along([Line((0, 0), (9, 0)), Line((9, 0), (9, 9))]).inside(1), "corner"),
        (lambda: along([Line((0, 0), (9, 0)), Line((9, 1), (9, 9))]), "gap"),
        (lambda: through([(0, 0)]), "two points"),
        (lambda: through([(-1, 0), (3, 4)]), "crosses the axis"),
    ],
)
def test_profiles_that_can_t_be_are_refused(make, words):
    with pytest.raises(ValueError, match=words):
        make()


# ---- gores


@given(vases, st.integers(3, 24), st.floats(-1, 1), st.floats(0, 1))
def test_gores_there_and_back_and_their_neighbour(profile, count, part, t):
    gore = Gore(profile, count)
    angle = part * gore.half_angle
    back = gore.surface(gore.flat(angle, t))
    assert back == pytest.approx((angle, t), abs=1e-9)
    edges = [gore.surface((side * gore.half_width(t), profile.reached(t))) for side in (1, -1)]
    here = np.array(gore.space(*edges[0]))
    c, s = math.cos(TURN / count), math.sin(TURN / count)
    x, y, z = gore.space(*edges[1])
    assert math.dist(here, (c * x - s * y, s * x + c * y, z)) < MEETS


@given(vases, st.integers(3, 24))
def test_gores_have_the_form_s_area(profile, count):
    gore = Gore(profile, count)
    assert count * gore.area == pytest.approx(profile.area, rel=1e-9)
    assert gore.outline(1e-4).area == pytest.approx(gore.area, abs=3e-4 * profile.length)
    flat = shapely.Polygon(gore.points(1e-3))
    assert flat.is_valid
    assert flat.area == pytest.approx(gore.area, rel=1e-2)


def test_gores_of_a_sphere():
    ball = along([Arc((0.0, 10.0), 10.0, -math.pi / 2, math.pi)])
    gore = Gore(ball, 6)
    assert gore.half_width(0.5) == pytest.approx(10 * math.pi / 6)
    assert gore.outline().height == pytest.approx(10 * math.pi, abs=1e-6)
    assert gore.outline().width == pytest.approx(20 * math.pi / 6, abs=1e-6)
    edge = quad(lambda s: math.hypot(1, math.pi / 6 * math.cos(s / 10)), 0, 10 * math.pi)[0]
    assert gore.edge_defect == pytest.approx(edge - 10 * math.pi, abs=1e-3)
    assert Gore(ball, 24).edge_defect < gore.edge_defect / 12
    with pytest.raises(ValueError, match="3 gores"):
        Gore(ball, 2)


@given(vases, st.integers(3, 9))
def test_a_mesh_of_the_rolled_up_gores_is_closed(profile, count):
    gore, rows = Gore(profile, count), 9
    heights = np.linspace(0, 1, rows)
    vertices, faces = [], []
    for n in range(count):
        c, s = math.cos(TURN * n / count), math.sin(TURN * n / count)
        first = len(vertices)
        for t in heights:
            for part in (-1, 0, 1):
                x, y, z = gore.space(*gore.surface(gore.flat(part * gore.half_angle, t)))
                vertices.append((c * x - s * y, s * x + c * y, z))
        for i in range(rows - 1):
            for j in range(2):
                a = first + 3 * i + j
                faces += [(a, a + 1, a + 4), (a, a + 4, a + 3)]
    for t, order in ((0, -1), (1, 1)):
        middle = len(vertices)
        vertices.append((0, 0, profile.place(t)[1]))
        for n in range(count):
            for j in range(2):
                a = n * 3 * rows + t * 3 * (rows - 1) + j
                faces.append((middle, a, a + 1)[::order])
    mesh = trimesh.Trimesh(vertices, faces, process=False)
    mesh.merge_vertices(digits_vertex=5)
    assert mesh.is_watertight
    assert mesh.volume > 0


# ---- stacked cones


@given(vases, st.sampled_from([0.5, 0.05]))
def test_stacked_cones_stay_near_and_meet(profile, tolerance):
    cones = stacked_cones(profile, tolerance)
    if len(cones) > 1:
        fewer = _even(profile, 0, 1, len(cones) - 1)
        assert max(_bulge(profile, a, b) for a, b in pairwise(fewer)) > tolerance
    for below, above in pairwise(cones):
        assert below.top_radius == pytest.approx(above.base_radius, abs=MEETS)
        assert below.start + below.height == pytest.approx(above.start, abs=MEETS)
    line = shapely.LineString(
        [(cones[0].base_radius, cones[0].start)]
        + [(cone.top_radius, cone.start + cone.height) for cone in cones]
    )
    profile_line = shapely.LineString([profile.place(t) for t in np.linspace(0, 1, 400)])
    assert shapely.hausdorff_distance(line, profile_line, densify=0.01) < 1.3 * tolerance + 0.01


def test_a_straight_profile_is_its_own_cones():
    cone, rim = stacked_cones(through([(20, 0), (12, 30), (15, 34)]), 0.01)
    assert cone == frustum(40, 24, 30)
    assert (rim.base_radius, rim.top_radius, rim.start) == pytest.approx((12, 15, 30))
    base, wall = stacked_cones(through([(0, 0), (9, 0), (9, 14)]), 0.01)
    assert base.sector_angle == TURN
    assert wall.sector_angle == 0


def test_tolerances_that_can_t_be_are_refused():
    for tolerance in (0, -1, 1e-9):
        with pytest.raises(ValueError, match=r"tolerance|256 cones"):
            stacked_cones(bowl(20), tolerance)


# ---- raising


@given(size)
def test_a_hemisphere_s_blank_is_root_two_of_its_diameter(radius):
    assert blank_diameter(bowl(radius)) == pytest.approx(math.sqrt(2) * 2 * radius, rel=1e-9)


@given(size, size)
def test_a_beaker_s_blank(diameter, height):
    beaker = through([(0, 0), (diameter / 2, 0), (diameter / 2, height)])
    exact = math.sqrt(diameter**2 + 4 * diameter * height)
    assert blank_diameter(beaker) == pytest.approx(exact, rel=1e-12)


def test_the_neutral_surface_of_a_20_mm_ball_of_0_8():
    # The bead: 20 mm, 0.8 sheet, each dome's blank 27.153.
    assert blank_diameter(bowl(10).inside(0.4)) == pytest.approx(27.153, abs=5e-4)


@given(size, st.floats(1.05, 4), st.floats(0.1, 1.5), st.floats(0.2, math.pi / 2))
def test_courses_keep_the_area_and_rise(base, wider, step, last):
    blank = base * wider
    found = courses(base, blank, step, last)
    assert found[-1].angle == pytest.approx(last)
    whole = math.pi / 4 * blank**2
    turned = 0.0
    for course in found:
        assert course.angle - turned <= step + 1e-9
        turned = course.angle
        wall = math.pi * (base / 2 + course.mouth_radius) * course.slant
        assert math.pi / 4 * base**2 + wall == pytest.approx(whole, rel=1e-9)
        assert course.height == pytest.approx(course.slant * math.sin(course.angle))
    heights = [course.height for course in found]
    assert heights == sorted(heights)


def test_the_last_course_is_the_beaker():
    last = courses(40, blank_diameter(through([(0, 0), (20, 0), (20, 33)])))[-1]
    assert (last.mouth_radius, last.height) == pytest.approx((20, 33))


@pytest.mark.parametrize(
    "make",
    [
        lambda: courses(40, 40),
        lambda: courses(0, 40),
        lambda: courses(40, 60, 0),
        lambda: courses(40, 60, 0.2, 2),
        lambda: blank_diameter(through([(1, 0), (5, 6)])),
    ],
)
def test_raising_that_can_t_be_is_refused(make):
    with pytest.raises(ValueError, match="must"):
        make()


def test_speed():
    times = []
    for _ in range(5):
        start = time.perf_counter()
        Gore(bowl(20), 8).points(0.01)
        times.append(time.perf_counter() - start)
    assert min(times) < 0.005 * 3
