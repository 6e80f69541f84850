"""Fewer corners inside, and ragged rests cut apart: never outside what it was, little lost."""

import math

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.shapes.inwards import fewer_corners
from hollowright.shapes.outline import disc, rectangle
from hollowright.shapes.polygons import rests
from hollowright.shapes.webs import compact


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


@settings(max_examples=25)
@given(
    st.lists(
        st.tuples(st.floats(10, 290), st.floats(10, 140), st.floats(15, 60)),
        min_size=8,
        max_size=25,
    ),
    st.floats(0, 1),
)
def test_no_wide_rest_of_a_pierced_sheet_is_lost(
    discs: list[tuple[float, float, float]], kerf: float
) -> None:
    width, least, most = 16.0, 512.0, 40
    blanks = [disc(d).moved(x, y) for x, y, d in discs]
    faces = rests(rectangle(300, 150), blanks, kerf, width)
    whole = shapely.union_all([shapely.Polygon(face[0], face[1:]) for face in faces])
    found = compact(faces, kerf, width, least, most)
    pieces = [shapely.Polygon(piece[0], piece[1:]) for piece in found]
    assert all(p.is_valid and whole.buffer(1e-6).contains(p) for p in pieces)
    missed = whole.difference(shapely.union_all([p.buffer(kerf + 0.01) for p in pieces]))
    for part in shapely.get_parts(missed.buffer(-width / 2 - 0.01)):
        assert part.buffer(width / 2).area < 2 * least
    assert all(
        len(p.exterior.coords) + sum(len(h.coords) for h in p.interiors) < 60 for p in pieces
    )
    for n, piece in enumerate(pieces):
        assert all(piece.distance(other) >= kerf - 1e-6 for other in pieces[:n])


def test_a_web_of_joined_pockets_is_kept_in_pieces() -> None:
    blanks = [disc(36).moved(28 + 44 * i, 27 + 44 * j) for i in range(6) for j in range(3)]
    ((edge, *holes),) = rests(rectangle(300, 150), blanks, 0.3, 7.0)
    whole = shapely.Polygon(edge, holes)
    pieces = [shapely.Polygon(p[0], p[1:]) for p in compact([[edge, *holes]], 0.3, 7.0, 98.0, 40)]
    assert sum(p.area for p in pieces) > 0.85 * whole.area
    once = fewer_corners([edge, *holes], 40)
    assert shapely.Polygon(once[0], once[1:]).area < 0.8 * whole.area
