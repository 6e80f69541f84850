"""A first layout at once: by rows of boxes, and by true shape where that is within the time."""

from __future__ import annotations

import contextlib
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from itertools import count
from time import monotonic

from hollowright.plan.filling import (
    bought_at_once,
    bought_for,
    filled,
    from_owned,
    to_buy,
)
from hollowright.plan.judged import layout_of, worth
from hollowright.plan.laid import Layout, Task
from hollowright.plan.turned import problem_of, to_sheets
from hollowright.shapes.nesting.alike import boxed, merged, rows_across
from hollowright.shapes.nesting.fill import Bench, Halted, bench_of, fill, long_way
from hollowright.shapes.nesting.holes import nested
from hollowright.shapes.nesting.problem import Item, Packing, Problem
from hollowright.shapes.nesting.quick import COARSE, MOST_TRUE, names_of, wanted
from hollowright.shapes.nesting.rating import Rating, rating
from hollowright.shapes.nesting.rows import rows

AT_ONCE = 250
"""So many tries by true shape are within the first answer's time; after more, rows stand.

Counted, not timed, so that the first answer is the same everywhere.
"""

HEAVY = 400
"""Hollow outlines that have more corners in all are tried by their hulls for the first answer."""

Stop = Callable[[], bool]


def first_layout(task: Task) -> Layout:
    """A valid layout at once, in under 0.1 s for a class of twelve; Problems for unsound pins."""
    began = monotonic()
    whole = problem_of(task)
    if task.pins:
        layout_of(task, task.pins, "quick")  # says what is wrong with them, and nothing else
    found = _tried(whole)
    least = min(to_buy(whole, each) for each in found)
    plain, *others = (each for each in found if to_buy(whole, each) == least)
    best = [min(others, key=lambda each: _taken(whole, each))] if others else []
    seconds = monotonic() - began
    layouts = [
        layout_of(task, to_sheets(task, each.spots), "quick", seconds)
        for each in dict.fromkeys((plain, *best))
    ]
    return min(layouts, key=worth)


def _taken(whole: Problem, found: Packing) -> tuple[float, Rating]:
    """Metal taken of what is bought, reckoned by straight cuts [mm2]; then all the rating says."""
    new = (spot for spot in found.spots if whole.bin(spot.bin).supply is None)
    return (rating(whole, Packing(tuple(new)))[2], rating(whole, found))


def _tried(whole: Problem) -> list[Packing]:
    """Packings to choose from: rows as by eye, rows with holes used, true shapes."""
    alike, unmerged = merged(whole)
    problem, unnested = nested(alike)

    def restored(packing: Packing) -> Packing:
        return unmerged(unnested(packing))

    simpler = [] if whole.pins else [filled(whole, rows), restored(by_rows(problem))]
    by_eye = min(simpler, key=lambda each: to_buy(whole, each), default=Packing())
    most = AT_ONCE if simpler and not by_eye.left_over(whole) else None
    with contextlib.suppress(Halted):
        simpler.append(restored(_by_shape(problem, by_eye, most)))
    if problem is not alike and all(each.left_over(whole) for each in simpler):
        simpler.append(unmerged(_by_shape(alike, by_eye, None)))
    return simpler


def by_rows(problem: Problem) -> Packing:
    """Rows of boxes along and across, like boxes taken as one, on the cheapest mix of sheets."""
    boxes, unboxed = boxed(problem)
    return unboxed(filled(boxes, rows, (rows, rows_across)))


def _by_shape(problem: Problem, by_eye: Packing, most: int | None) -> Packing:
    """True shapes on what is owned, then on the sizes that rows bought, or on all there are.

    Halted is raised after `most` tries, or where rows hold more on the same sheets.
    """
    tries, bench = count(1), coarse_bench(problem)

    def pack(part: Problem) -> Packing:
        return in_turn(bench, part, lambda: most is not None and next(tries) > most)

    owned = from_owned(problem, pack)
    used = Counter(name.partition("#")[0] for name in by_eye.bins)
    sizes = [bin for bin in problem.bins if bin.supply is None and bin.id in used]
    chosen = [replace(bin, supply=used[bin.id]) for bin in reversed(sizes)]
    found = bought_at_once(problem, owned, chosen, pack)
    if most is not None and found.left_over(problem):
        raise Halted  # rows hold more
    return bought_for(problem, found, pack)


def coarse_bench(problem: Problem) -> Bench:
    """A problem made ready to be filled quickly; for parts of it as well."""
    kinds = max(1, len(problem.items))
    hulled = kinds > MOST_TRUE or sum(map(_hollow_corners, problem.items)) > HEAVY
    return bench_of(problem, max(1, min(4, 16 // kinds)), COARSE, hulled=hulled)


def in_turn(bench: Bench, problem: Problem, halt: Stop) -> Packing:
    """Flats by their true shape, the largest first, in the bins as they stand; Halted if it is.

    bench: of the problem, or of one that it is part of.
    """
    names = names_of(problem.bins, sum(item.count for item in problem.items))
    ways = {bin.id: long_way(bin) for bin in problem.bins}
    return Packing(fill(bench, problem.pins, wanted(problem), names, ways, halt))


def _hollow_corners(item: Item) -> int:
    """Corners of all of an item, as it is tried at first, where it isn't convex."""
    outline = item.outline
    each = 0 if outline.convex else len(outline.points(outline.size * COARSE))
    return each * item.count
