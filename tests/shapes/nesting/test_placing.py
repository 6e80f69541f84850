"""Placing flats: puzzles with a known answer, cheap bins first, a search that never gets worse."""

from __future__ import annotations

import time

import pytest

from hollowright.shapes.nesting.judge import faults
from hollowright.shapes.nesting.problem import QUARTERS, Bin, Item, Packing, Problem, Spot
from hollowright.shapes.nesting.quick import quick
from hollowright.shapes.nesting.rating import rating
from hollowright.shapes.nesting.rows import rows
from hollowright.shapes.nesting.search import search
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle

L = polygon([(0, 0), (30, 0), (30, 10), (10, 10), (10, 25), (0, 25)])


def solved(problem: Problem, changes: int = 10) -> Packing:
    found = search(problem, quick(problem), 60, changes=changes)
    assert faults(problem, found) == ()
    return found


def test_four_rectangles_tile_a_square_round_a_fifth() -> None:
    """A pinwheel: four of 60 x 40 round one of 20 x 20 in 100 x 100, nothing to spare."""
    items = (Item("long", rectangle(60, 40), 4, QUARTERS), Item("mid", rectangle(20, 20), 1))
    problem = Problem(items, (Bin("square", rectangle(100, 100)),))
    assert solved(problem, 60).left_over(problem) == {}


def test_four_squares_tile_a_square_with_kerf_and_edge() -> None:
    problem = Problem(
        (Item("tile", rectangle(40, 40), 4),), (Bin("square", rectangle(84.5, 84.5)),), 0.5, 2
    )
    found = quick(problem)
    assert found.left_over(problem) == {}
    assert faults(problem, found) == ()


def test_a_disc_lies_in_a_rings_hole() -> None:
    items = (Item("ring", annulus(40, 30), 1), Item("disc", disc(28.8), 1))
    problem = Problem(items, (Bin("square", rectangle(44, 44)),), 0.5, 2)
    found = solved(problem, 2)
    assert found.left_over(problem) == {}
    one, other = found.spots
    assert (one.x, one.y) == pytest.approx((other.x, other.y), abs=0.15)


def test_two_angles_lie_into_each_other() -> None:
    """Two L of 30 x 25 by 10 fill 40 x 25 but for 10 x 5 twice, one turned by half a turn."""
    problem = Problem((Item("l", L, 2, QUARTERS),), (Bin("b", rectangle(40, 25)),))
    assert solved(problem, 2).left_over(problem) == {}


def test_a_notched_offcut_is_filled_round_its_notch() -> None:
    """Strips that fit an angle of 110 x 70 by 28 only along its two arms."""
    notched = polygon([(0, 0), (110, 0), (110, 28), (28, 28), (28, 70), (0, 70)])
    items = (Item("strip", rectangle(80, 24), 1, QUARTERS), Item("arm", rectangle(66, 24), 1))
    problem = Problem(items, (Bin("offcut", notched),), 0.5, 2)
    found = solved(problem, 20)
    assert found.left_over(problem) == {}
    assert {spot.item: round(spot.turn % 180) for spot in found.spots} == {"strip": 0, "arm": 90}


def test_flats_keep_off_a_bins_hole() -> None:
    plate = Outline(rectangle(60, 20).segments, (disc(8).moved(30, 10),))
    problem = Problem((Item("plate", rectangle(21, 15.9), 3),), (Bin("b", plate),), 0.5, 2)
    found = solved(problem, 5)
    assert found.left_over(problem) == {"plate": 1}


def test_the_cheap_bin_is_used_first_and_the_dear_one_not_at_all() -> None:
    bins = (Bin("bought", rectangle(200, 100), 30.0), Bin("drawer", rectangle(90, 50), 1.0))
    problem = Problem((Item("disc", disc(20), 6),), bins, 0.5, 1)
    assert quick(problem).bins == ("drawer",)


def test_the_least_cost_is_found_where_small_bins_are_the_dearer() -> None:
    """Three small ones at 10 hold what the large one at 25 holds."""
    bins = (
        Bin("small", rectangle(50, 50), 10.0, None),
        Bin("large", rectangle(150, 50), 25.0, None),
    )
    problem = Problem((Item("plate", rectangle(48, 48), 3, QUARTERS),), bins, 0.5, 0.5)
    assert solved(problem).bins == ("large",)


def test_nothing_is_laid_where_nothing_fits_and_the_rest_is() -> None:
    items = (Item("large", rectangle(90, 90), 1), Item("disc", disc(10), 2))
    problem = Problem(items, (Bin("b", rectangle(50, 30)),), 0.5, 2)
    assert quick(problem).left_over(problem) == {"large": 1}
    assert solved(problem, 3).left_over(problem) == {"large": 1}


def test_no_items_and_no_bins_are_no_trouble() -> None:
    empty = Problem((), (Bin("b", rectangle(50, 30)),))
    assert search(empty, quick(empty), 1).spots == ()
    homeless = Problem((Item("disc", disc(10), 2),), ())
    assert search(homeless, quick(homeless), 1).spots == ()


def mixed(kinds: int, each: int) -> Problem:
    shapes = (disc(38), annulus(38, 30), rectangle(118, 6), L, disc(12), rectangle(24, 17, 4))
    items = tuple(Item(f"flat-{i}", shapes[i], each) for i in range(kinds))
    offcuts = tuple(
        Bin(f"offcut-{i}", polygon([(0, 0), (80 + 5 * i, 0), (90, 60), (30, 75)]), 1.0 * i)
        for i in range(8)
    )
    sheets = (
        Bin("small", rectangle(150, 75), 10.0, None),
        Bin("large", rectangle(300, 150), 30.0, None),
    )
    return Problem(items, (*offcuts, *sheets), 0.5, 2.0)


def test_a_quick_answer_is_quick_and_better_than_rows() -> None:
    """Some 100 flats, 10 bins: 0.1 s measured on a quiet machine; generous here."""
    problem = mixed(6, 16)
    quick(mixed(2, 1))
    start = time.process_time()
    found = quick(problem)
    assert time.process_time() - start < 1.0
    assert faults(problem, found) == ()
    assert rating(problem, found) <= rating(problem, rows(problem))


def test_a_quick_answer_is_the_same_every_time() -> None:
    assert quick(mixed(4, 5)) == quick(mixed(4, 5))


def test_a_search_is_the_same_every_time_for_so_many_changes() -> None:
    problem = mixed(4, 4)
    start = quick(problem)
    first, second = (search(problem, start, 60, changes=15) for _ in range(2))
    assert first == second
    assert rating(problem, first) < rating(problem, start)


def test_a_search_stops_when_told_and_when_time_is_up() -> None:
    problem = mixed(6, 16)
    start = quick(problem)
    asked: list[float] = []

    def stop() -> bool:
        asked.append(time.monotonic())
        return len(asked) > 40

    assert rating(problem, search(problem, start, 60, stop=stop)) <= rating(problem, start)
    assert len(asked) == 41
    begun = time.monotonic()
    search(problem, start, 0.3)
    assert time.monotonic() - begun < 2


def test_an_unsound_start_is_not_gone_on_from() -> None:
    problem = Problem((Item("disc", disc(10), 2),), (Bin("b", rectangle(50, 30)),), 0.5, 2)
    heap = Packing((Spot("disc", "b", 10, 10), Spot("disc", "b", 11, 10)))
    found = search(problem, heap, 60, changes=1)
    assert faults(problem, found) == ()
    assert found.left_over(problem) == {}
