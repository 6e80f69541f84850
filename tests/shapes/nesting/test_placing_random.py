"""Answers to thousands of random problems are sound, measured by the polygon library used plainly.

The edges that are measured, and where they lie, are worked out in random_problems, not by the
house's own geometry; some are measured once more by plain arithmetic.
"""

from __future__ import annotations

import os
import random
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.shapes.nesting.judge import faults
from hollowright.shapes.nesting.problem import Packing
from hollowright.shapes.nesting.quick import quick
from hollowright.shapes.nesting.rating import rating
from hollowright.shapes.nesting.search import search
from tests.shapes.nesting.random_problems import (
    NEAR,
    Case,
    a_case,
    check,
    lain,
    pinned,
    plainly_apart,
)

TIMES = int(os.environ.get("RANDOM_CASES_TIMES", "1"))
"""So many times more cases than in every day's run; 8 for thousands of answers, pins and all."""

seeds = st.integers(0, 10**9)


@settings(max_examples=600 * TIMES)
@given(seeds)
def test_a_quick_answer_is_sound(seed: int) -> None:
    case = a_case(seed)
    found = quick(case.problem)
    check(case, found)
    assert faults(case.problem, found) == ()


@settings(max_examples=140 * TIMES)
@given(seeds)
def test_pins_stay_and_the_rest_is_laid_round_them(seed: int) -> None:
    case = a_case(seed)
    found = quick(case.problem)
    if not found.spots:
        return
    case = pinned(case, found, random.Random(seed))
    again = quick(case.problem)
    check(case, again)
    assert set(case.problem.pins) <= set(again.spots)
    if seed % 10 == 0:
        check(case, search(case.problem, again, 60, changes=2))


@settings(max_examples=40 * TIMES)
@given(seeds)
def test_a_searched_answer_is_sound_and_no_worse(seed: int) -> None:
    case = a_case(seed)
    start = quick(case.problem)
    told: list[Packing] = []
    found = search(case.problem, start, 60, told.append, changes=5)
    for each in (*told, found):
        check(case, each)
        assert faults(case.problem, each) == ()
    figures = [rating(case.problem, each) for each in (start, *told, found)]
    assert figures == sorted(figures, reverse=True)


@settings(max_examples=35 * TIMES)
@given(seeds)
def test_plain_arithmetic_agrees(seed: int) -> None:
    case = a_case(seed)
    found = quick(case.problem)
    for bin in found.bins:
        flats = [lain(case.shapes[spot.item], spot) for spot in found.within(bin)]
        for one, other in combinations(flats, 2):
            assert plainly_apart(one, other) >= case.problem.between - NEAR


def test_the_check_can_fail() -> None:
    case = _case_with_two()
    found = quick(case.problem)
    one, other = found.within(found.bins[0])[:2]
    moved = Packing((one, type(other)(other.item, one.bin, one.x + 1, one.y, one.turn)))
    with pytest.raises(AssertionError):
        check(case, moved)


def test_problems_are_of_every_kind() -> None:
    cases = [a_case(seed) for seed in range(300)]
    items = [item for case in cases for item in case.problem.items]
    bins = [bin for case in cases for bin in case.problem.bins]
    assert any(item.turns is None for item in items)
    assert any(item.turns for item in items)
    assert any(item.mirrored for item in items)
    assert any(item.outline.holes for item in items)
    assert any(bin.outline.holes for bin in bins)
    assert any(bin.supply is None for bin in bins)
    laid = [quick(case.problem) for case in cases[:60]]
    assert sum(len(each.spots) for each in laid) > 100
    assert any(spot.mirrored for each in laid for spot in each.spots)
    assert any(spot.turn % 90 for each in laid for spot in each.spots)
    assert any(len(each.bins) > 1 for each in laid)


def _case_with_two() -> Case:
    cases = (a_case(seed) for seed in range(1000))
    return next(c for c in cases if any(len(quick(c.problem).within(b)) > 1 for b in _bins(c)))


def _bins(case: Case) -> tuple[str, ...]:
    return quick(case.problem).bins[:1]
