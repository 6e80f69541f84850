"""Mid lines and strips: lengths from formulas, and marks that agree with their bends."""

import math
import time
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.formulas.ring import din_line, length_on_line
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.mid_line import mid_length, mid_line, parallel_length
from hollowright.shapes.offset import ParallelRefused, offset, offset_pieces
from hollowright.shapes.outline import Outline, disc, polygon, rectangle
from hollowright.shapes.ovals import ellipse, regular_polygon
from hollowright.shapes.strip_marks import Scored, strip
from tests.shapes.random_outlines import random_outline

ELL = polygon([(0, 0), (40, 0), (40, 10), (10, 10), (10, 30), (0, 30)])
LEAF = Outline(
    (
        Cubic((0, 0), (10, -18), (45, -14), (60, 0)),
        Cubic((60, 0), (45, 16), (12, 22), (0, 0)),
    )
)


@pytest.mark.parametrize(
    ("outline", "length"),
    [
        (disc(40), 122.522),
        (ellipse(60, 40), 155.513),
        (rectangle(50, 30, 5), 148.274),
        (regular_polygon(6, 40), 135.100),
        (rectangle(50, 30), 156.000),
    ],
    ids=["circle", "oval", "rounded", "hexagon", "sharp"],
)
def test_mid_lines_of_a_wall_of_one_millimetre(outline, length):
    # Worked by hand from the parallel-curve theorem and from 2 d tan(theta / 2) at sharp corners.
    assert mid_length(outline, 1.0) == pytest.approx(length, abs=0.0005)
    assert mid_line(outline, 1.0).perimeter == pytest.approx(length, abs=0.0006)
    assert strip(outline, 1.0).length == pytest.approx(length, abs=0.0005)


def test_what_the_mid_line_is_not():
    # An ellipse of 59 x 39 is not the oval's mid line, perimeter - pi t not the hexagon's.
    assert ellipse(59, 39).perimeter == pytest.approx(155.545, abs=0.0005)
    assert regular_polygon(6, 40).perimeter - math.pi == pytest.approx(135.422, abs=0.0005)
    assert mid_length(ellipse(60, 40), 1.0) < 155.52
    assert mid_length(regular_polygon(6, 40), 1.0) < 135.11


def test_scored_and_folded():
    # 160 - 4 (2 x 0.2 x tan 45 - pi / 2 x 0.4 x 0.2) = 158.90; the mid line is 2.9 short of it.
    folded = strip(rectangle(50, 30), 1.0, scored=Scored(0.2, 0.4))
    assert folded.length == pytest.approx(158.90, abs=0.005)
    assert [mark.kind for mark in folded.marks] == ["fold"] * 4
    assert folded.seam == pytest.approx((25, 0))
    taken = math.pi / 2 * 0.4 * 0.2
    assert [mark.end - mark.start for mark in folded.marks] == pytest.approx([taken] * 4)
    # Between two folds lies the side less the web at both ends.
    gaps = [b.start - a.end for a, b in pairwise(folded.marks)]
    assert gaps == pytest.approx([29.6, 49.6, 29.6])
    assert folded.length - mid_length(rectangle(50, 30), 1.0) == pytest.approx(2.9, abs=0.005)


@given(st.integers(3, 12), st.floats(20, 60), st.floats(0.05, 0.6), st.floats(0.2, 0.6))
def test_scored_polygons_by_the_formula(sides, across, web, factor):
    outline, turn = regular_polygon(sides, across), math.tau / sides
    corner = 2 * web * math.tan(turn / 2) - turn * factor * web
    made = strip(outline, 1.0, scored=Scored(web, factor))
    assert made.length == pytest.approx(outline.perimeter - sides * corner, abs=1e-9)
    assert len(made.marks) == sides


def test_a_corner_that_opens_is_scored_from_outside():
    # Four corners fold outwards about the web at the outer face, one inwards about the inner.
    made = strip(ELL, 1.0, scored=Scored(0.2, 0.4))
    taken = math.pi / 2 * 0.4 * 0.2
    assert made.length == pytest.approx(140 - 5 * 0.4 + 2 * 0.8 + 6 * taken, abs=1e-9)
    assert sorted(mark.turn > 0 for mark in made.marks) == [False] + [True] * 5


def test_din_corners():
    # 148.120: each corner bent on the standard's line, k / 2 of the thickness from the inside.
    made = strip(rectangle(50, 30, 5), 1.0, line=din_line)
    assert made.length == pytest.approx(148.120, abs=0.0005)
    k = 2 * din_line(4.0, 1.0)
    assert strip(rectangle(50, 30, 5), 1.0, line=k / 2).length == pytest.approx(148.120, abs=0.0005)


@given(st.floats(10, 80), st.floats(0.3, 2), st.floats(0.3, 0.5))
def test_a_ring_as_its_own_formula_has_it(diameter, thickness, line):
    expected = length_on_line(diameter, thickness, line)
    assert mid_length(disc(diameter), thickness, line) == pytest.approx(expected, rel=1e-12)
    assert strip(disc(diameter), thickness, line).length == pytest.approx(expected, rel=1e-12)


def test_marks_of_a_rounded_rectangle():
    made = strip(rectangle(50, 30, 5), 1.0)
    quarter = math.pi / 2 * 4.5
    assert [(m.start, m.end) for m in made.marks][:2] == [
        pytest.approx((20, 20 + quarter)),
        pytest.approx((40 + quarter, 40 + 2 * quarter)),
    ]
    assert {m.kind for m in made.marks} == {"bend"}
    assert all(m.radius == pytest.approx(4) for m in made.marks)
    assert sum(m.turn for m in made.marks) == pytest.approx(math.tau)
    assert made.marks[0].at == pytest.approx((45, 0))


def test_a_seam_elsewhere_moves_the_marks_and_not_the_length():
    made = strip(rectangle(50, 30, 5), 1.0)
    moved = strip(rectangle(50, 30, 5), 1.0, seam=10.0)
    assert moved.length == pytest.approx(made.length)
    assert moved.seam == pytest.approx((15, 0))
    assert [m.start for m in moved.marks] == pytest.approx([m.start + 10 for m in made.marks])


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.floats(0.05, 0.4))
def test_the_exact_length_and_the_parallels_own(seed, distance):
    # The theorem on the true curves against the arcs that follow them within 1e-4 mm.
    outline = random_outline(seed)
    for way in (-distance, distance):
        for corners in ("sharp", "round"):
            try:
                edge = offset(outline, way, corners)
            except ParallelRefused:
                continue
            assert parallel_length(outline, way, corners) == pytest.approx(edge.perimeter, abs=2e-3)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.floats(0.1, 0.8), st.sampled_from([None, Scored(0.05, 0.4)]))
def test_marks_are_in_order_and_turn_once_round(seed, thickness, scored):
    outline = random_outline(seed)
    try:
        made = strip(outline, thickness, scored=scored)
    except ParallelRefused:
        return
    ends = [end for mark in made.marks for end in (mark.start, mark.end)]
    assert all(a <= b + 1e-9 for a, b in pairwise(ends))
    assert not ends or -1e-9 <= ends[0] <= ends[-1] <= made.length + 1e-9
    flat = math.radians(0.5) * len(outline.segments)
    if scored:
        assert sum(mark.turn for mark in made.marks) == pytest.approx(math.tau, abs=flat + 1e-9)
    else:
        assert made.length == pytest.approx(mid_length(outline, thickness), abs=1e-6)


def test_a_leaf_with_sharp_tips_is_trimmed_on_its_true_curves():
    exact = mid_length(LEAF, 1.0)
    finest = offset_pieces(LEAF, -0.5, tolerance=1e-7)[0].perimeter
    assert exact == pytest.approx(finest, abs=1e-6)
    smooth_rule = LEAF.perimeter - math.pi
    assert exact < smooth_rule - 0.2  # the rule for smooth outlines forgets the tips


def test_a_moving_neutral_line_on_an_oval():
    # Tight ends are bent on DIN's line, which lies further in: shorter, by less than 0.1 t a turn.
    made = strip(ellipse(30, 12), 1.0, line=din_line).length
    middle = mid_length(ellipse(30, 12), 1.0)
    assert middle - 0.1 * math.tau < made < middle - 0.01
    # A line that is a number is the same line as a function that always gives it.
    steady = strip(ellipse(30, 12), 1.0, line=lambda r, t: 0.4).length
    assert steady == pytest.approx(mid_length(ellipse(30, 12), 1.0, 0.4), abs=1e-6)


def test_walls_that_cant_be_bent_are_refused_with_the_place():
    for make in (mid_line, mid_length, strip):
        with pytest.raises(ParallelRefused, match=r"x 30\.00, y 0\.00 for a wall of 1 mm") as no:
            make(ellipse(60, 10), 1.0)
        assert no.value.radius == pytest.approx(0.8333, abs=5e-5)
    assert mid_length(ellipse(60, 10), 0.8) > 0


def test_a_side_that_the_wall_eats_up():
    # A chamfer of 0.3 across a corner: in a wall of 1 its two corners have met before mid line.
    chamfered = polygon([(0, 0), (30, 0), (30, 19.8), (29.8, 20), (0, 20)])
    with pytest.raises(ParallelRefused) as refused:
        strip(chamfered, 1.0)
    assert refused.value.kind == "side"
    assert mid_length(chamfered, 1.0) == pytest.approx(2 * 29 + 2 * 19, abs=1e-9)


def test_a_wall_whose_inside_falls_apart():
    bells = [(20, 11), (20, 20), (0, 20), (0, 0), (20, 0), (20, 9)]
    bells += [(30, 9), (30, 0), (50, 0), (50, 20), (30, 20), (30, 11)]
    with pytest.raises(ParallelRefused, match="2 pieces"):
        mid_line(polygon(bells), 1.2)


@pytest.mark.parametrize(
    ("thickness", "line"), [(0, 0.5), (-1, 0.5), (math.nan, 0.5), (1, 1.2), (1, -0.1)]
)
def test_walls_of_no_sense(thickness, line):
    with pytest.raises(ValueError, match="must"):
        mid_length(disc(40), thickness, line)


def test_a_web_of_no_sense():
    with pytest.raises(ValueError, match="web"):
        strip(rectangle(50, 30), 1.0, scored=Scored(1.0, 0.4))


def test_bends_of_one_radius_are_one_mark():
    two = Outline(
        (
            Line((0, 0), (40, 0)),
            Arc((40, 10), 10, -math.pi / 2, math.pi / 2),
            Arc((40, 10), 10, 0, math.pi / 2),
            Line((40, 20), (0, 20)),
            Arc((0, 10), 10, math.pi / 2, math.pi),
        )
    )
    marks = strip(two, 1.0).marks
    assert len(marks) == 2
    assert replace(marks[0], start=0, end=0, at=(0, 0)).turn == pytest.approx(math.pi)


def test_the_mid_line_and_marks_of_an_oval_are_quick():
    fastest = math.inf
    for i in range(5):
        oval = ellipse(60 + i / 10, 40)  # never the same one: nothing is remembered
        begun = time.perf_counter()
        mid_line(oval, 1.0)
        strip(oval, 1.0)
        fastest = min(fastest, time.perf_counter() - begun)
    assert fastest < 0.015  # some 4 ms on a free machine
