"""Rows of bounding boxes, by hand."""

from hollowright.shapes.nesting.problem import Bin, Item, Problem
from hollowright.shapes.nesting.rows import rows
from hollowright.shapes.outline import disc, rectangle


def test_a_row_and_the_start_of_the_next() -> None:
    # 3 of 30 x 20 on 100 x 52, 2 apart, 5 from the edges: 5..35, 37..67 and then 69..99 is too far.
    problem = Problem((Item("a", rectangle(30, 20), 3),), (Bin("s", rectangle(100, 52)),), 2.0, 5.0)
    spots = sorted(rows(problem).spots, key=lambda spot: (spot.y, spot.x))
    assert [(spot.x, spot.y) for spot in spots] == [(5.0, 5.0), (37.0, 5.0), (5.0, 27.0)]
    # By 4 wider the row holds three: 5 + 3 x 30 + 2 x 2 + 5.
    wider = Problem(problem.items, (Bin("s", rectangle(104, 52)),), 2.0, 5.0)
    assert {spot.y for spot in rows(wider).spots} == {5.0}


def test_the_highest_first_and_turned_to_lie_flat() -> None:
    items = (Item("low", rectangle(20, 10), 1), Item("long", rectangle(12, 60), 1))
    found = rows(Problem(items, (Bin("s", rectangle(100, 100)),)))
    by = {spot.item: spot for spot in found.spots}
    assert by["long"].turn == 90.0
    assert by["long"].place(items[1].outline).bounds == (0.0, 0.0, 60.0, 12.0)
    assert by["low"].place(items[0].outline).bounds == (60.0, 0.0, 80.0, 10.0)


def test_more_sheets_as_they_are_wanted_and_what_found_no_place() -> None:
    items = (Item("cap", disc(40), 5),)
    one = Problem(items, (Bin("s", rectangle(90, 45)),), 1.0, 1.0)
    assert rows(one).left_over(one) == {"cap": 3}
    many = Problem(items, (Bin("s", rectangle(90, 45), supply=None),), 1.0, 1.0)
    assert rows(many).bins == ("s", "s#2", "s#3")
    assert rows(many).left_over(many) == {}
