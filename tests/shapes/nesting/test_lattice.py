"""Flats on a lattice: their step, overlaps by the polygon library, a puzzle of known length."""

import itertools
import math
from collections import Counter

import numpy as np
import pytest
import shapely

from hollowright.shapes.nesting.lattice import lattice
from hollowright.shapes.nesting.lattice_search import Laid, Pieces
from hollowright.shapes.nesting.lattice_strip import laid_in_turn, shortest
from hollowright.shapes.nesting.lattice_tables import FINER, depths, tables
from hollowright.shapes.nesting.problem import FREE, HALVES, QUARTERS, Item
from hollowright.shapes.nesting.strip import pack_strip
from hollowright.shapes.nesting.strip_shapes import shapes
from hollowright.shapes.outline import disc, polygon, rectangle

LETTER = np.array([(0, 0), (6, 0), (6, 2), (2, 2), (2, 5), (0, 5)], float)
KITE = np.array([(0, 3), (4, 0), (8, 3), (4, 9)], float)

# Five of the twelve pentominoes, by their common letters. Turned but not turned over they fill a
# square of 5 in 16 ways: counted by laying them in every way, square by square (no source).
FIVE = {
    "I": [(0, 0), (5, 0), (5, 1), (0, 1)],
    "L": [(0, 0), (4, 0), (4, 1), (1, 1), (1, 2), (0, 2)],
    "V": [(0, 0), (3, 0), (3, 1), (1, 1), (1, 3), (0, 3)],
    "P": [(0, 0), (3, 0), (3, 1), (2, 1), (2, 2), (0, 2)],
    "Y": [(0, 0), (4, 0), (4, 1), (2, 1), (2, 2), (1, 2), (1, 1), (0, 1)],
}


def taken(items: list[Item], height: float, between: float = 0.0):
    return lattice(shapes(items, height, between / 2, 1e-6), height, between)


def test_overlaps_are_those_of_the_polygon_library() -> None:
    for moved, laid in itertools.product((LETTER, KITE), repeat=2):
        depth = depths(moved, laid)
        wide, high = (int(size) for size in moved.max(axis=0))
        under = shapely.Polygon(laid)
        for (i, j), found in np.ndenumerate(depth):
            over = shapely.Polygon(moved + np.array((i + 1 - wide, j + 1 - high)))
            assert (found > 0) == (over.intersection(under).area > 1e-9), (i, j)


def test_depth_is_the_least_way_out() -> None:
    square = np.array([(0, 0), (4, 0), (4, 4), (0, 4)], float)
    depth = depths(square, square)
    assert depth.shape == (7, 7)
    assert depth[3, 3] == 4 * FINER  # on each other: four steps to any side
    assert depth[0, 3] == depth[3, 6] == FINER
    assert depth[1, 0] == FINER


def test_tables_are_the_same_both_ways() -> None:
    found, least = tables([LETTER, KITE])
    assert least == (-7, -8)
    assert (found[0, 1] == found[1, 0][::-1, ::-1]).all()
    assert found[0, 1][1 - 8 + 7, :].any()  # the kite may lie seven columns left of the letter


def test_the_step_is_the_greatest_that_serves() -> None:
    found = taken([Item("a", rectangle(12.0, 7.5), 2), Item("b", polygon(LETTER * 1.5), 1)], 40.0)
    assert found is not None
    assert found.step == pytest.approx(1.5)
    assert found.height == 26
    assert found.counts == (2, 1)


def test_half_of_the_gap_goes_round_each() -> None:
    found = taken([Item("a", rectangle(9, 4), 3, HALVES)], 20.0, 1.0)
    assert found is not None
    assert found.step == pytest.approx(5.0)
    assert [form.size for form in found.forms] == [(2, 1)]  # half a turn changes nothing
    assert found.height == 4


@pytest.mark.parametrize(
    "item",
    [
        Item("round", disc(20), 2),
        Item("rounded", rectangle(20, 10, 2), 2, QUARTERS),
        Item("free", polygon([(0, 0), (9, 1), (8, 7)]), 2, FREE),
        Item("askew", rectangle(20, 10), 2, (0.0, 45.0)),
        Item("odd", rectangle(math.pi, math.e), 2, QUARTERS),
    ],
)
def test_what_lies_on_no_lattice_is_not_taken(item: Item) -> None:
    assert taken([item, Item("a", rectangle(9, 4), 3, HALVES)], 30.0) is None


def test_too_fine_a_lattice_is_not_taken() -> None:
    assert taken([Item("a", rectangle(400.01, 300), 20, HALVES)], 1000.0) is None


def puzzle() -> Pieces:
    items = [Item(id, polygon(corners), 1, QUARTERS) for id, corners in FIVE.items()]
    found = taken(items, 5.0)
    assert found is not None
    corners = [np.array(form.corners, float) for form in found.forms]
    overlaps, least = tables(corners)
    forms = [[i for i, f in enumerate(found.forms) if f.kind == kind] for kind in range(5)]
    assert found.least == 5
    return Pieces(np.array([c.max(axis=0) for c in corners], int), forms, overlaps, least, 5)


def test_five_pentominoes_fill_their_square_and_always_the_same_way() -> None:
    pieces = puzzle()
    assert laid_in_turn(pieces).length(pieces) > 5

    def solved() -> Laid:
        moves = iter(range(20_000))
        rng = np.random.default_rng(3)
        return shortest(pieces, 5, rng, lambda: next(moves, None) is not None, lambda _: None)

    first = solved()
    assert first.length(pieces) == 5
    assert solved() == first


def test_a_strip_of_lattice_flats_is_sound_and_full() -> None:
    # Squares' halves, 8 and 8: 4 squares of 10 with a gap of none fill 20 x 20.
    half = polygon([(0, 0), (10, 0), (0, 10)])
    items = (Item("half", half, 8, QUARTERS),)
    strip = pack_strip(items, 20.0, 0.0, 4.0)
    assert strip.length == pytest.approx(20.0)
    assert Counter(spot.item for spot in strip.spots) == {"half": 8}
    laid = [shapely.Polygon(spot.place(half).points(0.01)) for spot in strip.spots]
    assert shapely.union_all(laid).area == pytest.approx(400.0)
