"""Rectangular bins filled by the strip engine: never worse, judged sound, for less."""

import time

from hollowright.shapes.nesting.judge import faults
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot
from hollowright.shapes.nesting.rating import rating
from hollowright.shapes.nesting.rows import rows
from hollowright.shapes.nesting.strip_bins import Frame, fill_bins
from hollowright.shapes.outline import disc, polygon, rectangle

WEDGE = polygon([(0, 0), (30, 0), (0, 20)])
SHEET = rectangle(120, 60)


def test_wedges_lie_closer_than_their_boxes_and_leave_one_straight_offcut() -> None:
    problem = Problem((Item("wedge", WEDGE, 12),), (Bin("s", SHEET),), 0.5, 2.0)
    start = rows(problem)
    told: list[Packing] = []
    begun = time.monotonic()
    found = fill_bins(problem, start, 3.0, told.append)
    assert time.monotonic() - begun < 4
    assert faults(problem, found) == ()
    assert told[-1] == found
    ratings = [rating(problem, each) for each in (start, *told)]
    assert ratings == sorted(ratings, reverse=True)
    # Rows have room for 6. All 12 of 300 mm2 go in, and no answer takes less than their area.
    assert (ratings[0][0], ratings[-1][0]) == (6, 0)
    assert 3600 < ratings[-1][2] < 0.8 * SHEET.area


def test_what_was_left_over_goes_in_and_the_cheapest_bin_is_taken() -> None:
    # By rows 3 of 6 discs go on the drawer's offcut; 2 rows of 3 in zigzag hold them all:
    # 2 x 2 + 20 + 2.5 x 20.2 = 74.5 long, 2 x 2 + 20 + 20.2 x sin 60 = 41.5 high.
    discs = (Item("cap", disc(20), 6, (0.0,)),)
    bins = (Bin("drawer", rectangle(76, 42), 1.0), Bin("buy", rectangle(300, 150), 9.0, None))
    problem = Problem(discs, bins, 0.2, 2.0)
    start = rows(problem)
    assert rating(problem, start)[:2] == (0, 10.0)
    found = fill_bins(problem, start, 3.0)
    assert faults(problem, found) == ()
    assert rating(problem, found)[:2] == (0, 1.0)


def test_several_sheets_with_the_grain() -> None:
    # 8 bars of 50 x 9 upon sheets of 56 x 44 with the grain upright: 5 side by side on each.
    bars = (Item("bar", rectangle(50, 9), 8, (90.0, 270.0)),)
    problem = Problem(bars, (Bin("s", rectangle(50, 56), 2.0, None),), 0.5, 1.0)
    start = Packing(tuple(Spot("bar", "s" if i == 0 else f"s#{i + 1}", 10, 2, 90.0)
                          for i in range(8)))  # fmt: skip
    assert faults(problem, start) == ()
    found = fill_bins(problem, start, 5.0)
    assert faults(problem, found) == ()
    assert rating(problem, found)[:2] == (0, 4.0)


def test_what_it_is_not_for_is_left_as_it_was() -> None:
    items = (Item("wedge", WEDGE, 2),)
    odd = Problem(items, (Bin("s", polygon([(0, 0), (90, 0), (60, 60), (0, 60)])),), 0.5, 2.0)
    start = Packing((Spot("wedge", "s", 3, 3), Spot("wedge", "s", 3, 30)))
    pinned = Problem(items, (Bin("s", SHEET),), 0.5, 2.0, (Spot("wedge", "s", 3, 3, pinned=True),))
    for problem in (odd, pinned, Problem((), (Bin("s", SHEET),))):
        assert fill_bins(problem, start, 5.0) is start
    nowhere = Problem(items, ())
    assert fill_bins(nowhere, Packing(), 5.0) == Packing()
    plain = Problem(items, (Bin("s", SHEET),), 0.5, 2.0)
    assert fill_bins(plain, start, 5.0, stop=lambda: True) is start


def test_a_bin_that_runs_upright_lays_them_as_they_lie_in_the_strip() -> None:
    from hollowright.shapes.nesting.strip import Strip

    frame = Frame(Bin("s", rectangle(40, 100).moved(7, 9)), 2.0, upright=True)
    assert (frame.length, frame.height) == (96.0, 36.0)
    (spot,) = frame.spots(Strip(30.0, 36.0, (Spot("wedge", "strip", 5.0, 6.0, 0.0),)), "s")
    # Along 5 to 35: up from 9 + 2 + 5. Across 6 to 26: leftwards from 47 - 2 - 6.
    assert spot.place(WEDGE).bounds == (19.0, 16.0, 39.0, 46.0)
