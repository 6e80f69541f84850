"""Fewer corners inside: never outside what it was, never crossing itself."""

import math

import shapely
from hypothesis import given
from hypothesis import strategies as st

from hollowright.shapes.inwards import fewer_corners
from hollowright.shapes.outline import disc, rectangle
from hollowright.shapes.polygons import rests


def ring(radii: list[float], hollow: bool = False) -> list[tuple[float, float]]:
    step = math.tau / len(radii)
    found = [(r * math.cos(n * step), r * math.sin(n * step)) for n, r in enumerate(radii)]
    return found[::-1] if hollow else found


@given(
    st.lists(st.floats(20, 60), min_size=5, max_size=60),
    st.lists(st.floats(2, 15), min_size=4, max_size=40),
    st.integers(8, 30),
)
def test_a_star_with_a_hole_only_gets_smaller(
    outer: list[float], inner: list[float], most: int
) -> None:
    rings = [ring(outer), ring(inner, hollow=True)]
    edge, *holes = fewer_corners(rings, most)
    before = shapely.Polygon(rings[0], rings[1:])
    after = shapely.Polygon(edge, holes)
    assert after.is_valid
    assert before.buffer(1e-7).contains(after)
    assert len(edge) >= 3
    assert sum(map(len, (edge, *holes))) <= max(most, 10)


def test_what_is_left_beside_a_disc_is_most_of_it() -> None:
    sheet, blank = rectangle(100, 100), disc(30).moved(20, 20)
    ((edge,),) = rests(sheet, [blank], 0.3, 15.0)
    left = shapely.Polygon(fewer_corners([edge], 40)[0])
    round_it = shapely.Point(20, 20).buffer(15.3, quad_segs=64)
    assert left.distance(shapely.Point(20, 20)) >= 15.3
    whole = shapely.box(0, 0, 100, 100).difference(round_it)
    opened = whole.buffer(-7.5).buffer(7.5)
    assert 0.98 * opened.area < left.area < 1.03 * opened.area
