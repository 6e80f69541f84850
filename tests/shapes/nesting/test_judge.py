"""The judge passes what is sound and names everything that isn't: one thing changed at a time."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest

from hollowright.shapes.nesting.judge import Kind, faults
from hollowright.shapes.nesting.problem import QUARTERS, Bin, Item, Packing, Problem, Spot
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle

PLATE = Outline(rectangle(100, 60).segments, (disc(20).moved(80, 30),))
L = polygon([(0, 0), (30, 0), (30, 10), (10, 10), (10, 25), (0, 25)])
PROBLEM = Problem(
    items=(
        Item("ring", annulus(40, 30), 1),
        Item("disc", disc(10), 2),
        Item("strip", rectangle(60, 6), 1, QUARTERS),
        Item("l", L, 1, (0.0, 180.0)),
    ),
    bins=(Bin("plate", PLATE), Bin("sheet", rectangle(50, 50), supply=2)),
    between=0.5,
    edge=2.0,
    pins=(Spot("ring", "plate", 22, 22, pinned=True),),
)
RING, INNER, OUTER, STRIP, ANGLE = SPOTS = (
    PROBLEM.pins[0],
    Spot("disc", "plate", 22, 22),
    Spot("disc", "plate", 49.0, 7.0),
    Spot("strip", "plate", 2, 42.5),
    Spot("l", "sheet#2", 2, 2),
)


def kinds(*spots: Spot) -> set[Kind]:
    return {fault.kind for fault in faults(PROBLEM, Packing(spots))}


def test_a_sound_answer_has_no_faults() -> None:
    assert faults(PROBLEM, Packing(SPOTS)) == ()
    assert faults(PROBLEM, Packing((RING,))) == ()


def moved(spot: Spot, **changes: object) -> tuple[Spot, ...]:
    return tuple(replace(each, **changes) if each is spot else each for each in SPOTS)


@pytest.mark.parametrize(
    ("spots", "kind"),
    [
        (moved(STRIP, y=42.45), "between"),  # 0.45 from the ring below it
        (moved(STRIP, y=41), "between"),  # over the ring
        (moved(INNER, x=22 + 9.55), "between"),  # 0.45 from the ring's hole, within it
        (moved(INNER, x=22 + 17), "between"),  # on the ring's rim
        (moved(STRIP, x=1.95), "edge"),
        (moved(STRIP, x=-1), "outside"),
        (moved(OUTER, x=80, y=30), "outside"),  # in the plate's hole
        (moved(OUTER, x=80 - 10 - 5 - 1.95, y=30), "edge"),  # too near the plate's hole
        (moved(STRIP, x=39.8, y=42, turn=1.0), "turn"),
        (moved(ANGLE, turn=90.0, x=40), "turn"),
        (moved(ANGLE, mirrored=True, x=40), "mirrored"),
        (moved(ANGLE, bin="sheet#3"), "bin"),
        (moved(ANGLE, bin="sheet#1"), "bin"),
        (moved(ANGLE, bin="sheet#"), "bin"),
        (moved(ANGLE, bin="sheet#02"), "bin"),
        (moved(ANGLE, bin="slab"), "bin"),
        (moved(ANGLE, item="m"), "unknown"),
        (moved(RING, x=22.001), "pin"),
        (SPOTS[1:], "pin"),
        ((*SPOTS, replace(ANGLE, bin="sheet")), "count"),
        ((*SPOTS, ANGLE), "between"),  # twice in one place
    ],
)
def test_one_change_is_caught(spots: tuple[Spot, ...], kind: Kind) -> None:
    assert kind in kinds(*spots)


def test_gaps_may_fall_short_by_half_a_hundredth() -> None:
    assert kinds(*moved(STRIP, y=42.497)) == set()
    assert kinds(*moved(STRIP, x=1.997)) == set()


def test_texts_name_the_flats_and_the_figure() -> None:
    (near,) = faults(PROBLEM, Packing(moved(STRIP, y=42.4)))
    assert (
        near.text == "ring and strip are 0.400 mm apart, not 0.5 mm in plate, near x 22.0, y 22.0."
    )
    assert near.spots == (RING, replace(STRIP, y=42.4))
    (edge,) = faults(PROBLEM, Packing(moved(STRIP, x=1.5)))
    assert edge.text == "strip is 1.500 mm from an edge of plate, not 2 mm."
    (out,) = faults(PROBLEM, Packing(moved(STRIP, x=-1)))
    assert out.text == "strip lies 6.00 mm2 outside plate."


def test_flats_may_touch_where_no_gap_is_wanted_but_not_overlap() -> None:
    tiles = Problem((Item("tile", rectangle(10, 10), 2),), (Bin("b", rectangle(20, 10)),))
    side_by_side = (Spot("tile", "b", 0, 0), Spot("tile", "b", 10, 0))
    assert faults(tiles, Packing(side_by_side)) == ()
    over = (Spot("tile", "b", 0, 0), Spot("tile", "b", 9.99, 0))
    assert [fault.kind for fault in faults(tiles, Packing(over))] == ["between"]


def test_any_turn_is_allowed_where_none_is_given_and_whole_turns_count_as_none() -> None:
    free = Problem((Item("d", rectangle(5, 5), 1),), (Bin("b", rectangle(20, 20)),))
    assert faults(free, Packing((Spot("d", "b", 10, 10, 33.3),))) == ()
    bound = replace(free, items=(Item("d", rectangle(5, 5), 1, (0.0,)),))
    assert faults(bound, Packing((Spot("d", "b", 10, 10, -360.0),))) == ()


def test_two_hundred_flats_are_judged_quickly() -> None:
    item = Item("d", disc(9), 200)
    problem = Problem((item,), (Bin("b", rectangle(200, 100)),), between=0.5)
    spots = tuple(Spot("d", "b", 5 + 10 * (i % 20), 5 + 10 * (i // 20)) for i in range(200))
    start = time.process_time()
    assert faults(problem, Packing(spots)) == ()
    assert time.process_time() - start < 2
