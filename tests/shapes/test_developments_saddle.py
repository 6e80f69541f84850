"""Branch on main: the curve on both surfaces, edge and hole together, real walls, refusals."""

import math
import time
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.shapes.curves import TURN
from hollowright.shapes.developments.cylinder import cut_ellipse
from hollowright.shapes.developments.saddle import Crossing, Saddle

MEETS = 1e-6  # mm
degrees = math.radians

crossings = st.builds(
    lambda main, share, lean, aside: Crossing(main, main * share, lean, aside * main * (1 - share)),
    st.floats(3, 120),
    st.floats(0.05, 1),
    st.floats(0.35, math.pi - 0.35),
    st.floats(-1, 1),
)
turns = np.linspace(-math.pi, math.pi, 41)


@given(crossings)
def test_the_curve_lies_on_both_tubes(crossing):
    axis = np.array([math.cos(crossing.angle), 0, math.sin(crossing.angle)])
    foot = np.array([0, crossing.offset, 0])
    for t in turns:
        point = np.array(crossing.space(t))
        assert math.hypot(point[1], point[2]) == pytest.approx(crossing.main, rel=1e-9)
        out = point - foot
        along = out @ axis
        assert along == pytest.approx(crossing.depth(t), abs=1e-9 * crossing.main)
        distance = np.linalg.norm(out - along * axis)
        assert distance == pytest.approx(crossing.branch, rel=1e-7)


@given(crossings, st.floats(0.1, 0.9), st.floats(0, 0.2))
def test_branch_and_main_meet_when_rolled_up(crossing, wall_share, paper):
    # The rolled-up branch's edge of one fibre and the wrapped hole are one curve in space.
    branch_wall = crossing.branch * wall_share
    saddle = Saddle(
        2 * crossing.main, crossing.main / 20, 2 * crossing.branch, branch_wall,
        crossing.angle, crossing.offset,
    )  # fmt: skip
    hole = saddle.hole_crossing
    skin = saddle.main_skin(10 * crossing.main)
    band = saddle.branch_blank(5 * crossing.main + 2 * saddle.drop, neutral=0.0)
    axis = np.array([math.cos(crossing.angle), 0, math.sin(crossing.angle)])
    u = np.array([-math.sin(crossing.angle), 0, math.cos(crossing.angle)])
    for t in turns:
        angle, height = band.surface(band.flat(t, band.low(t)))
        x, y, _ = band.space(angle, height)
        on_branch = np.array([0, crossing.offset, 0]) + x * u + y * np.array([0, 1, 0])
        on_branch = on_branch + height * axis
        phi, along = skin.surface(skin.flat(*hole.hole(t)))
        a, b, c = skin.space(phi, along)
        assert math.dist(on_branch, (c, b, a)) < MEETS


@given(crossings)
def test_length_by_quadrature_and_by_many_chords(crossing):
    points = [crossing.space(t) for t in np.linspace(-math.pi, math.pi, 4001)]
    summed = sum(math.dist(a, b) for a, b in pairwise(points))
    assert crossing.length() == pytest.approx(summed, rel=1e-4)


def test_the_trade_s_example():
    # Main 20, branch 10 outside and 9 inside, square: trade note 21.
    assert Crossing(20, 10).depth(math.pi / 2) == pytest.approx(17.321, abs=5e-4)
    assert Crossing(20, 9).depth(math.pi / 2) == pytest.approx(17.861, abs=5e-4)
    square, bevelled = (Saddle(40, 1, 20, 1, fibre=fibre) for fibre in ("inner", "outer"))
    assert square.edge(math.pi / 2) - bevelled.edge(math.pi / 2) == pytest.approx(0.54, abs=5e-3)
    assert square.drop == pytest.approx(20 - 17.861, abs=5e-4)


@given(crossings, st.floats(0.05, 0.9))
@settings(max_examples=30)
def test_first_is_the_greatest_depth_over_the_wall(crossing, part):
    outer, inner = crossing.branch, crossing.branch * (1 - part)
    saddle = Saddle(
        2 * crossing.main, crossing.main / 9, 2 * outer, outer - inner,
        crossing.angle, crossing.offset, fibre="first",
    )  # fmt: skip
    for t in turns:
        over = [
            Crossing(crossing.main, r, crossing.angle, crossing.offset).depth(t)
            for r in np.linspace(inner, outer, 201)
        ]
        assert saddle.edge(t) >= max(over) - 1e-9
        assert saddle.edge(t) == pytest.approx(max(over), abs=0.02 * crossing.main)


@given(crossings, st.floats(0.05, 0.9))
def test_square_to_the_main_without_offset_the_inner_fibre_is_first(crossing, part):
    saddles = [
        Saddle(2 * crossing.main, 0.01, 2 * crossing.branch, part * crossing.branch, fibre=fibre)
        for fibre in ("inner", "first")
    ]
    for t in turns:
        assert saddles[0].edge(t) == pytest.approx(saddles[1].edge(t), abs=1e-9)


def test_let_in_reaches_the_bore_and_the_hole_follows_the_outside():
    on, let_in = (Saddle(40, 1.5, 20, 0.8, joint=joint) for joint in ("set-on", "let-in"))
    assert (on.seat, let_in.seat) == (20, 18.5)
    assert on.hole_crossing.branch == pytest.approx(9.2)
    assert let_in.hole_crossing.branch == pytest.approx(10)
    # Both where the branch breaks through the outside: the half width is R asin(r / R).
    assert on.hole().width == pytest.approx(2 * 20 * math.asin(9.2 / 20), rel=1e-6)
    assert let_in.hole().width == pytest.approx(2 * 20 * math.asin(10 / 20), rel=1e-6)
    assert on.hole().height == pytest.approx(2 * 9.2, rel=1e-6)


@given(crossings)
def test_the_hole_s_polygon_is_sound_and_its_outline_agrees(crossing):
    saddle = Saddle(
        2 * crossing.main, crossing.main / 20, 2 * crossing.branch, crossing.branch / 10,
        crossing.angle, crossing.offset,
    )  # fmt: skip
    polygon = shapely.Polygon(saddle.hole_points(tolerance=1e-3))
    assert polygon.is_valid
    assert saddle.hole(tolerance=1e-3).area == pytest.approx(polygon.area, rel=2e-3, abs=1e-2)


def test_the_main_s_template_has_the_hole_in_its_middle():
    saddle = Saddle(40, 1, 20, 1, degrees(60), 6)
    whole = saddle.main_template(80, paper=0.1)
    (hole,) = whole.holes
    assert whole.width == pytest.approx(math.pi * 40.1)
    left, _, right, _ = hole.bounds
    assert left + right == pytest.approx(0, abs=1e-3)


def test_points_follow_the_edge_within_the_tolerance():
    saddle = Saddle(40, 1, 39.9, 0.1, degrees(70), fibre="outer")
    band = saddle.branch_template(60)
    points = band.edge_points(band.low, 1e-3)
    for (x0, y0), (x1, y1) in pairwise(points):
        for part in (0.25, 0.5, 0.75):
            x, y = x0 + part * (x1 - x0), y0 + part * (y1 - y0)
            slanted = (x1 - x0) / math.dist((x0, y0), (x1, y1))
            assert abs(band.low(x / band.radius) - y) * slanted <= 1.1e-3


@given(crossings)
def test_areas_of_branch_and_flat(crossing):
    saddle = Saddle(
        2 * crossing.main, crossing.main / 20, 2 * crossing.branch, crossing.branch / 10,
        crossing.angle, crossing.offset,
    )  # fmt: skip
    band = saddle.branch_blank(2 * saddle.drop + 10)
    assert band.outline(1e-4).area == pytest.approx(band.area, rel=1e-5)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((20, 12, 1.5, 9), r"9 \+ branch radius 12 = 21 mm, more than the main's radius 20"),
        ((20, 21), "misses"),
        ((20, 10, 0), "between 0 and 180"),
        ((20, 10, math.pi), "between 0 and 180"),
        ((0, 10), "main"),
        ((20, math.nan), "branch"),
    ],
)
def test_branches_that_miss_are_refused_with_the_figures(arguments, words):
    with pytest.raises(ValueError, match=words):
        Crossing(*arguments)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"offset": 11}, "misses"),
        ({"joint": "let-in", "offset": 9.5}, "misses"),
        ({"joint": "glued"}, "joint"),
        ({"fibre": "middle"}, "fibre"),
        ({"branch_wall": 10}, "branch's wall"),
        ({"main_wall": 20}, "main's wall"),
    ],
)
def test_saddles_that_can_t_be_are_refused(change, words):
    sizes = {
        "main_outside_diameter": 40, "main_wall": 1,
        "branch_outside_diameter": 20, "branch_wall": 1, "offset": 0,
    }  # fmt: skip
    with pytest.raises(ValueError, match=words):
        Saddle(**{**sizes, **change}).edge(0)


def test_equal_tubes_meet_in_two_ellipses_at_45_degrees():
    crossing = Crossing(17.3, 17.3)
    for t in turns:
        assert crossing.depth(t) == pytest.approx(17.3 * abs(math.cos(t)))
    # Half of each of two ellipses with half axes r and r sqrt 2.
    assert crossing.length() == pytest.approx(cut_ellipse(17.3, TURN / 8).length(), rel=1e-9)


def test_speed():
    times = []
    for _ in range(5):
        start = time.perf_counter()
        saddle = Saddle(40, 1, 20, 1, degrees(60), 6, fibre="first")
        saddle.branch_template(60).points(0.01)
        times.append(time.perf_counter() - start)
        start = time.perf_counter()
        Saddle(40, 1, 20, 1, degrees(60), 6).hole_points(0.01)
        times.append(time.perf_counter() - start)
    assert min(times[::2]) < 0.015
    assert min(times[1::2]) < 0.015
