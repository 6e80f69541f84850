"""A piece drawn apart: neighbours at their gap, pulls and rides followed."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.shapes.apart import shifts
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.looped import Looped
from hollowright.shapes.outline import rectangle
from hollowright.shapes.plated import Plated
from hollowright.shapes.solids import Turned, disc, ring, tube
from tests.shapes.random_bodies import circle

UP = (0.0, 0.0, 1.0)


def after(bodies, moves):
    return [body.moved(move).reach(UP) for body, move in zip(bodies, moves, strict=True)]


def test_a_box_comes_apart_in_the_order_of_its_middles():
    box = (
        tube("lid", 38, 1, 15).along(30),
        tube("body", 38, 1, 30),
        disc("cap_low", 36, 0.7),
        disc("cap_high", 36, 0.7).along(44.3),
        ring("ring", 36, 0.6, 16).along(28),
    )
    moves = shifts(box, [None] * 5, [""] * 5, 12.0)
    reaches = sorted(after(box, moves))
    names = [box[i].id for i in np.argsort([low for low, _ in after(box, moves)])]
    assert names == ["cap_low", "body", "ring", "lid", "cap_high"]
    assert moves[2] == (0, 0, 0)
    for below, above in pairwise(reaches):
        assert above[0] - below[1] == pytest.approx(12)


@given(st.lists(st.tuples(st.floats(0, 40), st.floats(0.2, 30)), min_size=1, max_size=6))
def test_bodies_of_any_kind_keep_their_gap(places):
    kinds = [
        lambda i, z, h: Turned(str(i), ((0, 0), (5, 0), (5, h), (0, h)), (1, 2, z)),
        lambda i, z, h: Extruded(str(i), rectangle(4, 3), h, (0, 0, z), UP, (0, 1, 0)),
        lambda i, z, h: Looped(str(i), (circle(3, lambda a: z, 12), ((0.0, 0.0, z + h),))),
        lambda i, z, h: Plated(
            str(i),
            ((0, 0, z), (1, 0, z), (0, 1, z), (0, 0, z + h)),
            ((2, 1, 0), (0, 1, 3), (1, 2, 3), (2, 0, 3)),
        ),
    ]
    bodies = [kinds[i % 4](i, z, h) for i, (z, h) in enumerate(places)]
    moves = shifts(bodies, [None] * len(bodies), [""] * len(bodies), 5.0)
    reaches = sorted(after(bodies, moves))
    for below, above in pairwise(reaches):
        assert above[0] - below[1] == pytest.approx(5)
    lowest = min(range(len(bodies)), key=lambda i: sum(bodies[i].reach(UP)))
    assert moves[lowest] == (0, 0, 0)
    assert all(move[:2] == (0, 0) for move in moves)


def test_pulls_and_rides():
    body, lid = disc("body", 30, 20), disc("lid", 30, 10).along(20)
    spout, cap = disc("spout", 6, 15).moved((18, 0, 10)), disc("cap", 6, 1).moved((18, 0, 25))
    moves = shifts(
        (cap, body, spout, lid),
        [(0, 0, 4), None, (9, 0, 2), None],
        ["spout", "", "lid", ""],
        8.0,
    )
    assert moves == ((9, 0, 14), (0, 0, 0), (9, 0, 10), (0, 0, 8))


def test_a_pulled_body_takes_no_room_in_the_row():
    body, plate, lid = (
        disc("body", 30, 20),
        disc("side", 5, 3).along(12),
        disc("lid", 30, 9).along(20),
    )
    moves = shifts((body, plate, lid), [None, (25, 0, 0), None], [""] * 3, 8.0)
    assert moves == ((0, 0, 0), (25, 0, 0), (0, 0, 8))


def test_rides_in_a_ring_or_on_nothing_are_refused():
    a, b = disc("a", 3, 1), disc("b", 3, 1)
    with pytest.raises(ValueError, match="a rides itself"):
        shifts((a, b), [(0, 0, 1), (0, 0, 1)], ["b", "a"], 1.0)
    with pytest.raises(ValueError, match="a rides c, which isn't there"):
        shifts((a, b), [(0, 0, 1), None], ["c", ""], 1.0)
    with pytest.raises(ValueError, match="argument 2"):
        shifts((a, b), [None], ["", ""], 1.0)


def test_none_and_one():
    assert shifts((), (), (), 5.0) == ()
    assert shifts((disc("a", 3, 1).along(7),), (None,), ("",), 5.0) == ((0, 0, 0),)
    tilted = Turned("t", ((0, 0), (2, 0), (2, 9), (0, 9)), (0, 0, 0), (1, 0, 1))
    top = 9 / math.sqrt(2) + 2 / math.sqrt(2)
    moves = shifts((tilted, disc("d", 3, 1).along(20)), (None, None), ("", ""), 5.0)
    assert moves[1][2] == pytest.approx(top + 5 - 20)
