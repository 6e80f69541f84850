"""Outlines against formulas and against the polygon library."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle

size = st.floats(1, 200)


def as_shapely(outline, tolerance=1e-4):
    return shapely.Polygon(
        outline.points(tolerance), [hole.points(tolerance) for hole in outline.holes]
    )


@given(size, size, st.floats(0, 1))
def test_rectangles(width, height, share):
    r = share * min(width, height) / 2
    box = rectangle(width, height, r)
    assert box.area == pytest.approx(width * height - (4 - math.pi) * r * r, rel=1e-9)
    assert box.perimeter == pytest.approx(2 * (width + height) - (8 - math.tau) * r, rel=1e-9)
    assert box.bounds == pytest.approx((0, 0, width, height), abs=1e-9)
    assert as_shapely(box).area == pytest.approx(box.area, rel=1e-3)


@given(size, st.floats(0.05, 0.95))
def test_annulus(outside, share):
    flat = annulus(outside, share * outside)
    assert flat.area == pytest.approx(math.pi / 4 * outside**2 * (1 - share**2), rel=1e-9)
    assert flat.width == pytest.approx(outside)
    assert as_shapely(flat).area == pytest.approx(flat.area, rel=2e-2)
    assert as_shapely(flat).is_valid


@given(size, st.floats(0.001, 0.2))
def test_a_disc_as_a_polygon_stays_within_the_tolerance(diameter, tolerance):
    cap = disc(diameter)
    assert len(cap.segments) == 1
    corners = cap.points(tolerance)
    assert all(math.hypot(*p) == pytest.approx(diameter / 2) for p in corners)
    inner = min(
        math.hypot((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
    )
    assert inner >= diameter / 2 - tolerance * (1 + 1e-6)


def test_polygon_either_way_round():
    assert polygon([(0, 0), (4, 0), (0, 3)]).area == 6
    assert polygon([(0, 3), (4, 0), (0, 0)]).area == 6
    assert polygon([(0, 0), (4, 0), (0, 3)]).perimeter == 12


def test_moving_takes_the_holes_along():
    flat = annulus(40, 30).moved(100, 50)
    assert flat.holes[0].bounds == pytest.approx((85, 35, 115, 65))
    assert flat.bounds == pytest.approx((80, 30, 120, 70))


@pytest.mark.parametrize(
    "segments",
    [
        (),
        (Line((0, 0), (1, 0)), Line((1, 0.1), (0, 0))),
        (Arc((0, 0), 5, 0, 3),),
    ],
)
def test_an_open_outline_is_refused(segments):
    with pytest.raises(ValueError, match="outline"):
        Outline(segments)


@pytest.mark.parametrize(
    "make",
    [
        lambda: rectangle(0, 3),
        lambda: rectangle(5, math.nan),
        lambda: rectangle(5, 3, 1.6),
        lambda: disc(-1),
        lambda: annulus(3, 3),
        lambda: polygon([(0, 0), (1, 1)]),
    ],
)
def test_sizes_that_make_no_outline_are_refused(make):
    with pytest.raises(ValueError, match=r"must|needs"):
        make()
