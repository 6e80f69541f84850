"""Blanks laid out on sheets: a first answer at once, a better one by waiting."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from dataclasses import replace
from itertools import count
from time import monotonic

from hollowright.errors import InputError
from hollowright.plan.filling import bought_at_once, bought_for, filled, from_owned, to_buy, useful
from hollowright.plan.judged import layout_of, worth
from hollowright.plan.laid import Layout, Task
from hollowright.plan.turned import price, problem_of, to_problem, to_sheets
from hollowright.shapes.nesting.fill import Halted, bench_of, fill, long_way
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem
from hollowright.shapes.nesting.quick import COARSE, MOST_TRUE, names_of, quick, wanted
from hollowright.shapes.nesting.rows import is_rectangle, rows
from hollowright.shapes.nesting.search import search
from hollowright.shapes.nesting.strip_bins import fill_bins

__all__ = [
    "better_layout",
    "first_layout",
    "gain_left",
    "layout_by_eye",
    "layout_of",
    "problem_of",
    "worth",
]

AT_ONCE = 250
"""So many tries by true shape are within the first answer's time; after more, rows stand.

Counted, not timed, so that the first answer is the same everywhere.
"""

HEAVY = 400
"""Hollow outlines that have more corners in all are tried by their hulls for the first answer."""

ENOUGH = 1.03
"""So little more metal taken than the blanks have needs no search."""

SHARES = (0.15, 0.25, 0.65)
"""How much of the time has gone when mixes, a search and strips are done; then it searches."""

Report = Callable[[Packing], None]
Stop = Callable[[], bool]
Engine = Callable[[Problem, Packing, float, Report, Stop], Packing]


def first_layout(task: Task) -> Layout:
    """A valid layout at once, in under 0.1 s for a class of twelve; Problems for unsound pins."""
    began = monotonic()
    problem = problem_of(task)
    if task.pins:
        layout_of(task, task.pins, "quick")  # says what is wrong with them, and nothing else
    tried = [] if problem.pins else [filled(problem, rows)]
    most = AT_ONCE if tried and not tried[0].left_over(problem) else None
    with contextlib.suppress(Halted):
        tried.append(_by_shape(problem, tried[0] if tried else Packing(), most))
    least = min(to_buy(problem, each) for each in tried)
    seconds = monotonic() - began
    layouts = (
        layout_of(task, to_sheets(task, each.spots), "quick", seconds)
        for each in tried
        if to_buy(problem, each) == least
    )
    return min(layouts, key=worth)


def _by_shape(problem: Problem, by_rows: Packing, most: int | None) -> Packing:
    """True shapes on what is owned, then on the sizes that rows bought, or on all there are.

    Halted is raised after `most` tries.
    """
    tries = count(1)

    def pack(part: Problem) -> Packing:
        return in_turn(part, lambda: most is not None and next(tries) > most)

    owned = from_owned(problem, pack)
    used = {name.partition("#")[0] for name in by_rows.bins}
    chosen = [bin for bin in problem.bins if bin.supply is None and bin.id in used]
    found = bought_at_once(problem, owned, chosen, pack)
    return bought_for(problem, found, pack)


def in_turn(problem: Problem, halt: Stop) -> Packing:
    """Flats by their true shape, the largest first, in the bins as they stand; Halted if it is."""
    kinds = max(1, len(problem.items))
    hulled = kinds > MOST_TRUE or sum(map(_hollow_corners, problem.items)) > HEAVY
    bench = bench_of(problem, max(1, min(4, 16 // kinds)), COARSE, hulled=hulled)
    names = names_of(problem.bins, sum(item.count for item in problem.items))
    ways = {bin.id: long_way(bin) for bin in problem.bins}
    return Packing(fill(bench, problem.pins, wanted(problem), names, ways, halt))


def _hollow_corners(item: Item) -> int:
    """Corners of all of an item, as it is tried at first, where it isn't convex."""
    outline = item.outline
    each = 0 if outline.convex else len(outline.points(outline.size * COARSE))
    return each * item.count


def better_layout(
    task: Task,
    start: Layout,
    seconds: float,
    report: Callable[[Layout], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Layout:
    """The best layout found within about so many seconds; never worse than `start`.

    First mixes of sheets are weighed by quick layouts, then it is searched: by true shape, holes
    included, and on rectangular sheets by strips. report: told each better layout as it is found.
    stop: asked now and then whether to stop early. It ends early where no more is to be gained.
    """
    began = monotonic()
    whole = problem_of(task)
    kept = useful(whole, whole.bins, [spot.bin for spot in start.spots])
    problem = replace(whole, bins=kept)
    best = start

    def hear(packing: Packing) -> None:
        nonlocal best
        try:
            spots = to_sheets(task, packing.spots)
            layout = layout_of(task, spots, "searched", monotonic() - began)
        except InputError:  # what isn't sound is never taken
            return
        if worth(layout) < worth(best):
            best = layout
            report(best)

    def done() -> bool:
        return stop() or not gain_left(best)

    def left(share: float) -> float:
        return 0.0 if done() else began + share * seconds - monotonic()

    def now() -> Packing:
        return Packing(tuple(to_problem(task, spot) for spot in best.spots))

    hear(_by_mixes(problem, now(), lambda: left(SHARES[0]) <= 0))
    search(problem, now(), left(SHARES[1]), hear, done)
    _by_part(problem, now(), is_plain, fill_bins, left(SHARES[2]), hear, done)
    _by_part(problem, now(), lambda _: True, search, left(1.0), hear, done)
    took = monotonic() - began
    return best if stop() or took < seconds else replace(best, found="searched", seconds=took)


class _Enough(Exception):
    """The time for mixes is over."""


def _by_mixes(problem: Problem, start: Packing, halt: Stop) -> Packing:
    """Sheets chosen anew by true shape, where less is to be bought then."""

    def pack(part: Problem) -> Packing:
        if halt():
            raise _Enough
        return quick(part)

    try:
        found = filled(problem, pack)
    except _Enough:
        return start
    return found if to_buy(problem, found) <= to_buy(problem, start) else start


def is_plain(bin: Bin) -> bool:
    """Whether strips can be packed into it."""
    return is_rectangle(bin.outline)


def _by_part(
    problem: Problem,
    start: Packing,
    suits: Callable[[Bin], bool],
    engine: Engine,
    seconds: float,
    hear: Report,
    stop: Stop,
) -> None:
    """What lies on bought sheets laid out anew, or on all where none is bought; pins' are left."""
    bought = any(problem.bin(name).supply is None for name in start.bins)
    pinned = {pin.bin.partition("#")[0] for pin in problem.pins}
    bins = tuple(
        bin
        for bin in problem.bins
        if (bin.supply is None or not bought) and bin.id not in pinned and suits(bin)
    )
    ids = {bin.id for bin in bins}
    own = tuple(spot for spot in start.spots if spot.bin.partition("#")[0] in ids)
    others = tuple(spot for spot in start.spots if spot.bin.partition("#")[0] not in ids)
    away = Packing(others).left_over(problem)
    items = tuple(replace(i, count=away[i.id]) for i in problem.items if i.id in away)
    if items and bins and seconds > 0:
        part = replace(problem, bins=bins, items=items, pins=())
        engine(part, Packing(own), seconds, lambda p: hear(Packing((*others, *p.spots))), stop)


def gain_left(layout: Layout) -> bool:
    """Whether waiting could better a layout: not where nothing lies, or hardly any is wasted."""
    if not layout.spots:
        return False
    used = sum(each.used for each in layout.sheets)
    bought = sum(price(layout.task, each.sheet) for each in layout.bought)
    return bool(layout.missing) or bought > layout.bound or layout.taken > ENOUGH * used


def layout_by_eye(task: Task) -> Layout:
    """The layout by rows of bounding boxes, as a person lays out by eye: to compare with."""
    packing = filled(problem_of(task), rows)
    return layout_of(task, to_sheets(task, packing.spots), "by eye")
