"""Simpler problems give sound answers back: flats in holes beforehand, alike ones, boxes."""

from collections import Counter
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.shapes.nesting.alike import boxed, merged, rows_across
from hollowright.shapes.nesting.holes import nested
from hollowright.shapes.nesting.judge import faults
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem
from hollowright.shapes.nesting.quick import quick
from hollowright.shapes.nesting.rows import rows
from hollowright.shapes.outline import annulus, disc, rectangle
from tests.shapes.nesting.random_problems import a_case, check

seeds = st.integers(0, 10**9)


def twice(problem: Problem) -> Problem:
    """Every item once more, under another name."""
    more = (replace(item, id=f"{item.id}-again") for item in problem.items)
    return replace(problem, items=(*problem.items, *more))


@settings(max_examples=60)
@given(seeds)
def test_what_lies_in_holes_is_sound(seed: int) -> None:
    case = a_case(seed)
    problem, unnested = nested(case.problem)
    found = unnested(quick(problem))
    check(case, found)
    assert faults(case.problem, found) == ()


@settings(max_examples=60)
@given(seeds)
def test_alike_flats_and_boxes_come_back_sound(seed: int) -> None:
    problem = twice(a_case(seed).problem)
    alike, unmerged = merged(problem)
    assert len(alike.items) <= len(problem.items) // 2
    boxes, unboxed = boxed(alike)
    for way in (rows, rows_across):
        found = unmerged(unboxed(way(boxes)))
        assert faults(problem, found) == ()


def test_discs_fill_the_holes_of_rings_and_rings_in_rings() -> None:
    items = (
        Item("large", annulus(80, 60), 2),
        Item("small", annulus(50, 34), 3),
        Item("disc", disc(16), 7),
    )
    problem = Problem(items, (Bin("sheet", rectangle(300, 150)),), 0.3, 2.0)
    simpler, unnested = nested(problem)
    assert {item.id: item.count for item in simpler.items} == {"large": 2, "small": 1, "disc": 1}
    found = unnested(rows(simpler))
    assert faults(problem, found) == ()
    assert Counter(spot.item for spot in found.spots) == {"large": 2, "small": 3, "disc": 7}


def test_nothing_is_put_into_holes_where_pins_are() -> None:
    items = (Item("large", annulus(80, 60), 1), Item("disc", disc(16), 1))
    bare = Problem(items, (Bin("sheet", rectangle(300, 150)),), 0.3, 2.0)
    (spot, *_) = Packing(quick(bare).spots).spots
    pinned = replace(bare, pins=(replace(spot, pinned=True),))
    assert nested(pinned)[0] is pinned
