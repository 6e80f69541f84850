"""Cylinders, cones and their cuts: the flat against the form, the seam, the neighbours."""

import math
import time
from itertools import pairwise

import numpy as np
import pytest
import trimesh
from hypothesis import assume, given
from hypothesis import strategies as st

from hollowright.shapes.curves import TURN
from hollowright.shapes.developments.band import Band, Level
from hollowright.shapes.developments.cone import Frustum, frustum
from hollowright.shapes.developments.cone_cut import SlantingEdge, cut_cone
from hollowright.shapes.developments.cylinder import (
    PlaneCut,
    cut_ellipse,
    mitre_blank,
    mitre_template,
    proud,
    wrap,
)

MEETS = 1e-6  # mm
size = st.floats(3, 150)
share = st.floats(0, 1)
angle = st.floats(-1.2, 1.2)
degrees = math.radians


def on_surface(band: Band, points):
    """Points of the flat wrapped back onto the form."""
    return [band.space(*band.surface(point)) for point in points]


def seam_gap(band: Band) -> float:
    """How far apart the seam's two edges stand once the flat is wrapped."""
    places = [band.low(band.seam), band.high(band.seam)]
    heights = np.linspace(*places, 7)
    left, right = ([band.flat(a, h) for h in heights] for a in (band.seam - TURN, band.seam))
    pairs = zip(on_surface(band, left), on_surface(band, right), strict=True)
    return max(math.dist(a, b) for a, b in pairs)


def cones():
    """Bands between a cylinder and a flat ring, either way up."""
    return st.builds(lambda r, q, h, seam: Frustum(r, q, h).band(seam), size, size, size, angle)


@given(cones(), st.floats(-math.pi, math.pi), share)
def test_there_and_back(band, turn, part):
    height = part * band.high(0)
    place = band.middle + turn
    back = band.surface(band.flat(place, height))
    assert back[0] == pytest.approx(place, abs=1e-9)
    assert back[1] == pytest.approx(height, abs=1e-9)


@given(cones(), st.floats(-2.5, 2.5), share)
def test_small_distances_are_kept_both_ways_and_between(band, turn, part):
    # An isometry keeps lengths and the angle between two directions.
    t, h, step = band.middle + turn, part * band.high(0), 1e-5
    flat, form = ([f(t, h), f(t + step, h), f(t, h + step)] for f in (band.flat, band.space))
    for i, j in ((0, 1), (0, 2), (1, 2)):
        assert math.dist(flat[i], flat[j]) == pytest.approx(math.dist(form[i], form[j]), abs=1e-9)


@given(cones())
def test_the_seam_meets(band):
    assert seam_gap(band) < MEETS


@given(size, size, size, st.floats(0, 1.5), angle, st.sampled_from(["filed", "square"]))
def test_flat_area_is_the_frustum_s(base, top, height, thickness, seam, ends):
    assume(thickness * math.hypot(1, (base - top) / 2 / height) < min(base, top) / 2)
    cone = frustum(base, top, height, thickness, ends)
    assert cone.band(seam).area == pytest.approx(cone.area, rel=1e-9)
    assert cone.band(seam).outline().area == pytest.approx(cone.area, rel=1e-9)


@pytest.mark.parametrize("gap", [0, 1e-12, 1e-9, 1e-6, 1e-4, 1e-3, 0.04, 0.08])
def test_nearly_a_cylinder_is_nearly_a_rectangle(gap):
    cone = frustum(40, 40 - gap, 30, 0.8)
    plain = wrap(40, 30, 0.8)
    bent = 40 * math.pi**2 * gap / 30  # the arc's rise, more than the flats may differ
    for turn in (-3.1, -1, 0, 2, math.pi):
        a, b = cone.band().flat(turn, 17), plain.flat(turn, 17)
        assert math.dist(a, b) <= bent + 1e-12
    flat = cone.band().outline()
    assert flat.area == pytest.approx(cone.area, rel=1e-12)
    assert flat.bounds == pytest.approx(plain.outline().bounds, abs=bent + 1e-9)


def test_cubics_and_arcs_agree_where_one_takes_over():
    # 0.0599 and 0.0601 over 30 stand on both sides of the limit for drawing a true arc.
    below, above = (Frustum(20, 20 - gap, 30).band().outline() for gap in (0.029999, 0.030001))
    assert {type(s).__name__ for s in below.segments} == {"Cubic", "Line"}
    assert {type(s).__name__ for s in above.segments} == {"Arc", "Line"}
    assert below.area == pytest.approx(above.area, rel=1e-7)
    assert below.bounds == pytest.approx(above.bounds, abs=2e-5)


@pytest.mark.parametrize("height", [1e-9, 1e-6, 1e-3, 0.1])
def test_nearly_flat_is_nearly_a_disc(height):
    cone, disc = frustum(40, 13, height), frustum(40, 13, 0)
    assert disc.sector_angle == TURN
    assert disc.band().outline().area == pytest.approx(math.pi / 4 * (40**2 - 13**2), rel=1e-12)
    assert cone.sector_angle == pytest.approx(TURN, abs=height**2)
    assert cone.area == pytest.approx(disc.area, rel=height**2 + 1e-12)
    assert cone.sector_outer_radius == pytest.approx(20, abs=height**2 + 1e-12)


def test_the_issue_s_cone():
    filed, square = frustum(40, 24, 30, 0.8), frustum(40, 24, 30, 0.8, "square")
    for cone in (filed, square):
        assert math.degrees(cone.sector_angle) == pytest.approx(92.759, abs=5e-4)
    assert filed.sector_outer_radius == pytest.approx(76.014, abs=5e-4)
    assert filed.sector_inner_radius == pytest.approx(44.966, abs=5e-4)
    assert square.sector_outer_radius == pytest.approx(76.121, abs=5e-4)
    assert square.sector_inner_radius == pytest.approx(44.859, abs=5e-4)
    extra = 0.4 * math.tan(math.asin(filed.sine))
    assert square.slant - filed.slant == pytest.approx(2 * extra)


@given(size, size, st.floats(0.1, 0.9), st.floats(0.05, 0.5))
def test_ends_cut_square_have_metal_to_file_and_none_lacks(base, height, part, neutral_share):
    top, thickness = base * part, min(base * part, height) / 20
    cone = frustum(base, top, height, thickness, "square", neutral_share)
    sine, cosine = cone.sine, cone.height / cone.slant
    outside, inside = (1 - neutral_share) * thickness, -neutral_share * thickness
    ends = [(cone.start, outside), (cone.start + cone.height, inside)]
    # The blank's square edge runs along the normal: its last fibre lies in the form's end.
    reached = [z + out * sine for z, out in ends]
    assert reached == pytest.approx([0, height], abs=1e-9)
    # And the outside of the blank is the outside that was asked for.
    low = cone.base_radius + outside * cosine
    assert low == pytest.approx(base / 2 - (cone.start + outside * sine) * sine / cosine, abs=1e-9)


def test_upside_down_it_is_the_same_blank():
    up, down = frustum(40, 24, 30, 0.8, "square", 0.4), frustum(24, 40, 30, 0.8, "square", 0.4)
    assert down.sector_outer_radius == pytest.approx(up.sector_outer_radius)
    assert down.area == pytest.approx(up.area)
    assert down.start + down.height == pytest.approx(30 - up.start)


def test_a_full_cone_ends_at_its_own_apex():
    cone = frustum(40, 0, 60, 0.8)
    assert cone.sector_inner_radius == 0
    assert cone.height == pytest.approx(60 - 0.4 * 60 / 20 * math.hypot(1, 20 / 60))
    assert len(cone.band().outline().segments) == 3
    assert cone.band().points(0.01)[-1] == pytest.approx((0, cone.slant))


@given(size, size, st.floats(0.1, 0.9), angle, st.integers(8, 60))
def test_a_mesh_of_the_rolled_up_blank_and_its_ends_is_closed(base, height, part, seam, count):
    cone = frustum(base, base * part, height, base * part / 50)
    band = cone.band(seam)
    turns = np.linspace(seam - TURN, seam, count + 1)
    rings = [on_surface(band, [band.flat(t, h) for t in turns]) for h in (0, cone.slant)]
    lids = [[(0, 0, z)] for z in (0, cone.height)]
    triangles = []
    for i in range(count):
        a, b = i, i + 1
        c, d = count + 1 + i, count + 2 + i
        foot, head = 2 * count + 2, 2 * count + 3
        triangles += [(a, b, d), (a, d, c), (foot, b, a), (head, c, d)]
    mesh = trimesh.Trimesh([*rings[0], *rings[1], *lids[0], *lids[1]], triangles, process=False)
    mesh.merge_vertices(digits_vertex=6)  # seam and lids must meet to 1e-6
    mesh.update_faces(mesh.nondegenerate_faces())
    assert mesh.is_watertight
    r, q = cone.base_radius, cone.top_radius
    inscribed = count / TURN * math.sin(TURN / count)
    exact = math.pi / 3 * cone.height * (r * r + r * q + q * q)
    assert mesh.volume == pytest.approx(exact * inscribed, rel=1e-6)


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        ((0, 0, 30), "base_diameter"),
        ((40, -1, 30), "top_diameter"),
        ((40, 10, -3), "height"),
        ((40, 10, math.nan), "height"),
        ((40, 10, 30, -0.1), "thickness"),
        ((40, 10, 30, 21), "fills"),
        ((40, 40, 0), "no surface"),
    ],
)
def test_cones_that_can_t_be_are_refused(sizes, words):
    with pytest.raises(ValueError, match=words):
        frustum(*sizes)


# ---- plane cuts of tubes


@given(size, st.floats(0.02, 0.4), angle, st.sampled_from(["inner", "outer", "first"]))
def test_a_mitred_tube_s_edge_lies_in_its_plane(outside, part, lean, fibre):
    wall = part * outside / 2
    band = mitre_blank(outside, wall, lean, 3 * outside * (1 + abs(math.tan(lean))), fibre=fibre)
    inner, outer = outside / 2 - wall, outside / 2
    length = 3 * outside * (1 + abs(math.tan(lean)))
    for t in np.linspace(-math.pi, math.pi, 25):
        over = {r: band.high(t) - length - r * math.cos(t) * math.tan(lean) for r in (inner, outer)}
        if fibre == "first":  # one fibre touches the plane, none stands past it
            assert max(over.values()) == pytest.approx(0, abs=1e-9)
        else:
            assert over[inner if fibre == "inner" else outer] == pytest.approx(0, abs=1e-9)
            assert max(over.values()) <= proud(outer, inner, lean) + 1e-9
    assert seam_gap(band) < MEETS


@given(size, angle, st.floats(0, 3), angle)
def test_two_mitred_tubes_meet_along_their_cut(outside, lean, twist, low_lean):
    # The neighbour is the same tube turned half round the cut's own normal: mirror in the plane.
    long = 3 * outside * (1 + abs(math.tan(lean)) + abs(math.tan(low_lean)))
    wall = outside / 30
    band = mitre_blank(
        outside, wall, lean, long, low_angle=low_lean, twist=twist, fibre="outer", neutral=1.0
    )
    normal = np.array([-math.sin(lean), 0, math.cos(lean)])
    foot = np.array([0, 0, long])
    flat = [band.flat(t, band.high(t)) for t in np.linspace(-math.pi, math.pi, 33)]
    for point in map(np.array, on_surface(band, flat)):
        mirrored = point - 2 * np.dot(point - foot, normal) * normal
        assert math.dist(point, mirrored) < MEETS


def test_paper_adds_pi_times_its_thickness():
    plain, thick = (mitre_template(20, 1, 0.6, 50, paper=p) for p in (0, 0.12))
    assert plain.outline().width == pytest.approx(20 * math.pi)
    assert thick.outline().width - plain.outline().width == pytest.approx(0.12 * math.pi)
    assert thick.outline().height == pytest.approx(plain.outline().height)


def test_amplitude_by_fibre():
    for fibre, radius in (("inner", 9), ("outer", 10)):
        band = mitre_template(20, 1, degrees(35), 50, fibre=fibre)
        rise = radius * math.tan(degrees(35))
        assert band.high(0) == pytest.approx(50 + rise)
        assert band.high(math.pi) == pytest.approx(50 - rise)
        assert band.high.amplitude == pytest.approx(rise)


@given(size, angle, st.sampled_from([1e-1, 1e-2, 1e-3]))
def test_points_and_cubics_stay_within_the_tolerance(outside, lean, tolerance):
    assume(abs(lean) > 0.01)
    band = mitre_template(outside, outside / 20, lean, 4 * outside * (1 + abs(math.tan(lean))))
    points = band.edge_points(band.high, tolerance)

    def ordinate(x):
        return band.high(x / band.radius)

    for (x0, y0), (x1, y1) in pairwise(points):
        for part in (0.2, 0.4, 0.5, 0.7):
            x, y = x0 + part * (x1 - x0), y0 + part * (y1 - y0)
            assert abs(ordinate(x) - y) * (x1 - x0) / math.dist((x0, y0), (x1, y1)) <= tolerance
    cubics = [s for s in band.outline(tolerance).segments if type(s).__name__ == "Cubic"]
    for cubic in cubics:
        for part in (0.1, 0.3, 0.6, 0.9):
            x, y = cubic.at(part)
            assert abs(ordinate(x) - y) <= tolerance


@given(size, angle, angle)
def test_area_of_a_mitred_blank(outside, lean, low_lean):
    # The mean ordinate of one fibre is the axis's: the blank is as large as a plain one.
    long = 3 * outside * (1 + abs(math.tan(lean)) + abs(math.tan(low_lean)))
    band = mitre_blank(outside, outside / 30, lean, long, low_angle=low_lean)
    plain = TURN * band.radius * long
    assert band.area == pytest.approx(plain, rel=1e-9)
    assert band.outline(1e-4).area == pytest.approx(plain, rel=1e-6)


@given(size, angle)
def test_the_cut_s_perimeter(radius, lean):
    rough = [
        (radius * math.cos(t), radius * math.sin(t), radius * math.cos(t) * math.tan(lean))
        for t in np.linspace(0, TURN, 4001)
    ]
    summed = sum(math.dist(a, b) for a, b in pairwise(rough))
    assert cut_ellipse(radius, lean).length() == pytest.approx(summed, rel=1e-5)


@pytest.mark.parametrize(
    "make",
    [
        lambda: mitre_template(20, 10, 0.3, 50),
        lambda: mitre_template(20, 1, math.pi / 2, 50),
        lambda: mitre_template(20, 1, 1.3, 20, low_angle=1.3),
        lambda: mitre_template(20, 1, 0.3, 50, fibre="middle"),
        lambda: mitre_template(20, 1, 0.3, 50, paper=-1),
        lambda: wrap(20, 30, 11),
        lambda: wrap(20, 30, 1, neutral=2),
        lambda: Band(-1, 0, Level(0), Level(1)),
        lambda: Band(10, 0.5, Level(0), Level(21)),
        lambda: Band(10, 0, Level(2), Level(1)),
    ],
)
def test_tubes_that_can_t_be_are_refused(make):
    with pytest.raises(ValueError, match=r"fills|angle|cross|fibre|thickness|share|skin"):
        make()


# ---- cones cut by a plane


@given(size, share, size, st.floats(-0.6, 0.6), st.floats(0.3, 0.7), st.floats(0, 0.02))
def test_a_cut_cone_s_edge_lies_in_its_plane(base, part, height, lean, where, thin):
    top, thickness, cut = base * part * 0.9, base * thin, height * where
    taper, slope = (base - top) / 2 / height, math.tan(lean)
    ends = [(cut + side * slope * base / 2) / (1 + side * slope * taper) for side in (-1, 1)]
    assume(abs(slope * taper) < 0.95)
    assume(0.05 * height < min(ends) and max(ends) < 0.9 * height)
    assume(thickness * math.hypot(1, taper) < base / 4)
    band = cut_cone(base, top, height, cut, lean, thickness)
    flat = [band.flat(t, band.high(t)) for t in np.linspace(-math.pi, math.pi, 25)]
    for x, _, z in on_surface(band, flat):
        assert z == pytest.approx(cut + x * math.tan(lean), abs=MEETS)
    assert seam_gap(band) < MEETS
    if lean:
        assert band.outline(1e-4).area == pytest.approx(band.area, abs=1e-4 * 4 * base)


@given(st.floats(0, 35), st.floats(0.1, 0.5), st.sampled_from(["inner", "outer", "first"]))
def test_a_thick_cut_cone_touches_its_plane_with_the_named_fibre(top, lean, fibre):
    band = cut_cone(40, top, 60, 25, lean, 1.2, fibre=fibre)
    cosine = band.cosine
    for t in np.linspace(-math.pi, math.pi, 25):
        r, z = band.radius_at(band.high(t)), band.high(t) * cosine
        over = {}
        for name, out in (("inner", -0.6), ("outer", 0.6)):
            x = (r + out * cosine) * math.cos(t)
            over[name] = z + out * band.sine - 25 - x * math.tan(lean)
        touching = max(over.values()) if fibre == "first" else over[fibre]
        assert touching == pytest.approx(0, abs=1e-9)


def test_a_cut_cylinder_is_the_mitre():
    cut = cut_cone(30, 30, 60, 40, 0.5, 1.0, fibre="outer")
    mitre = mitre_blank(30, 1.0, 0.5, 40, fibre="outer")
    for t in (-2, 0, 0.4, 3):
        assert cut.flat(t, cut.high(t)) == pytest.approx(mitre.flat(t, mitre.high(t)))


@given(st.floats(0, 35), st.floats(-0.5, 0.5))
def test_the_cut_cone_s_ellipse(top, lean):
    edge = SlantingEdge(frustum(40, top, 60), lean, 25)
    band = edge.cone.band()
    rim = [band.space(t, edge(t)) for t in np.linspace(0, TURN, 4001)]
    summed = sum(math.dist(a, b) for a, b in pairwise(rim))
    assert edge.ellipse().length() == pytest.approx(summed, rel=1e-5)


@pytest.mark.parametrize(("lean", "cut"), [(75, 25), (85, 25), (30, 2), (30, 59.5)])
def test_cuts_that_leave_the_cone_are_refused(lean, cut):
    with pytest.raises(ValueError, match="cut"):
        cut_cone(40, 4, 60, cut, degrees(lean))


@pytest.mark.parametrize(
    "make",
    [
        lambda: wrap(40, 30, 1),
        lambda: mitre_template(38.05, 1.02, 0.5, 60, paper=0.1),
        lambda: frustum(40, 24, 30, 0.8).band(),
        lambda: cut_cone(40, 0, 60, 25, 0.35, 0.8, fibre="first"),
    ],
)
def test_speed(make):
    # 5 ms on a quiet core at 0.01 mm; three times that allows for a busy one.
    times = []
    for _ in range(5):
        start = time.perf_counter()
        make().points(0.01)
        times.append(time.perf_counter() - start)
    assert min(times) < 0.005 * 3


def test_a_plane_cut_names_its_limits():
    with pytest.raises(ValueError, match="90 degrees"):
        PlaneCut(9, 10, 2.0)
