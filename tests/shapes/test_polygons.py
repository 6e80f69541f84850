"""The door to the polygon library: crossings with their place, holes sorted to their solids."""

import math

import pytest

from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle
from hollowright.shapes.ovals import ellipse
from hollowright.shapes.placing import placed
from hollowright.shapes.polygons import (
    as_polygon,
    crossing,
    inside,
    meeting,
    narrowest,
    with_holes,
)


def test_a_bow_tie_crosses_where_its_lines_do():
    place = crossing(polygon([(0, 0), (30, 20), (30, 0), (0, 20)]))
    assert place == pytest.approx((15, 10))
    assert crossing(rectangle(50, 30, 5)) is None


def test_a_touch_and_a_fold_back_count():
    assert crossing(polygon([(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)])) == pytest.approx((5, 0))
    assert crossing(polygon([(0, 0), (10, 0), (5, 0)])) is not None


def test_edges_that_meet_and_edges_apart():
    assert meeting(disc(10), disc(9)) is None
    at = meeting(disc(10), disc(10).moved(6, 0))
    assert at[0] == pytest.approx(3, abs=0.01)
    assert abs(at[1]) == pytest.approx(4, abs=0.01)


def test_inside_and_outside():
    assert inside(disc(9), ellipse(20, 10))
    assert not inside(ellipse(20, 10), disc(9))
    assert not inside(disc(9).moved(30, 0), ellipse(20, 10))


def test_holes_go_to_the_solid_they_lie_in():
    left, right = disc(20), disc(30).moved(40, 0)
    holed = with_holes([right, left], [disc(5), disc(6).moved(40, 3)])
    assert [len(solid.holes) for solid in holed] == [1, 1]
    assert holed[0].holes[0].width == pytest.approx(6)
    with pytest.raises(ValueError, match=r"hole runs into another edge at x \d"):
        with_holes([left], [disc(12).moved(6, 0)])


def test_a_polygon_with_its_holes():
    flat = as_polygon(annulus(40, 20), 1e-4)
    assert flat.area == pytest.approx(math.pi * 300, rel=1e-4)
    assert as_polygon(Outline(disc(40).segments)).interiors[:] == []


def test_narrowest_of_a_turned_rectangle_and_of_a_disc() -> None:
    turned = placed(rectangle(50, 12), 3, 4, 33.0)
    assert narrowest(turned) == pytest.approx(12)
    assert 19.97 < narrowest(disc(20)) <= 20
