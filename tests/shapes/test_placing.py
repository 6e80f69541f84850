"""An outline that is turned over, turned and shifted is the same outline lying elsewhere."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, EllipseArc, Line
from hollowright.shapes.outline import Outline, annulus, polygon
from hollowright.shapes.placing import placed, placed_point

# A flat with every kind of curve, lopsided on purpose, with a hole.
FLAT = Outline(
    (
        Line((0.0, 0.0), (30.0, 0.0)),
        Arc((30.0, 5.0), 5.0, -math.pi / 2, math.pi),
        EllipseArc((20.0, 10.0), (10.0, 0.0), (0.0, 4.0), 0.0, math.pi),
        Cubic((10.0, 10.0), (8.0, 14.0), (2.0, 9.0), (0.0, 0.0)),
    ),
    (annulus(4.0, 1.0).moved(20.0, 5.0),),
)
places = st.tuples(st.floats(-500, 500), st.floats(-500, 500), st.floats(-720, 720), st.booleans())


@given(places)
def test_size_and_form_stay(place: tuple[float, float, float, bool]) -> None:
    lying = placed(FLAT, *place)
    assert lying.area == pytest.approx(FLAT.area, rel=1e-9)
    assert lying.perimeter == pytest.approx(FLAT.perimeter, rel=1e-9)
    assert lying.anticlockwise != place[3]  # turned over, the edge runs the other way


@given(places)
def test_points_along_the_edge_go_where_the_edge_goes(
    place: tuple[float, float, float, bool],
) -> None:
    lying = placed(FLAT, *place)
    for share in (0.0, 0.13, 0.4, 0.55, 0.8, 0.93):
        there = placed_point(FLAT.point_at(share * FLAT.perimeter), *place)
        assert lying.point_at(share * lying.perimeter) == pytest.approx(there, abs=1e-6)
    assert lying.holes[0].bounds == pytest.approx(
        _round(placed_point((20.0, 5.0), *place), 2.0), abs=1e-6
    )


def _round(centre: tuple[float, float], radius: float) -> tuple[float, float, float, float]:
    x, y = centre
    return (x - radius, y - radius, x + radius, y + radius)


def test_over_first_then_round_then_shifted() -> None:
    # By hand: (3, 1) turned over is (-3, 1); a quarter round, (-1, -3); shifted, (9, 17).
    assert placed_point((3.0, 1.0), 10.0, 20.0, 90.0, mirrored=True) == (9.0, 17.0)


def test_a_quarter_turn_is_exact() -> None:
    box = placed(polygon([(0, 0), (0.1, 0), (0.1, 0.3), (0, 0.3)]), 0.0, 0.0, 90.0)
    assert box.bounds == (-0.3, 0.0, 0.0, 0.1)
