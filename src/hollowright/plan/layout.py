"""Blanks laid out on sheets: a first answer at once, a better one by waiting."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from time import monotonic

from hollowright.errors import InputError
from hollowright.plan.at_once import first_layout
from hollowright.plan.filling import filled, useful
from hollowright.plan.judged import layout_of, worth
from hollowright.plan.laid import Layout, Task
from hollowright.plan.mixing import Mixing
from hollowright.plan.turned import price, problem_of, to_problem, to_sheets
from hollowright.shapes.nesting.problem import Bin, Packing, Problem
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

ENOUGH = 1.03
"""So little more metal taken than the blanks have needs no search."""

ROUNDS = ((0.12, "seed"), (0.3, "mix"), (0.4, "search"), (0.65, "strips"), (0.75, "mix"),
          (0.85, "part"), (0.9, "mix"), (1.0, "part"))  # fmt: skip
"""What is done until which share of the time has gone.

seed and mix: other sheets to buy are weighed; search: all is laid out anew by true shape; strips:
what lies on rectangles, by strips; part: what lies on sheets to buy, by true shape.
"""

Report = Callable[[Packing], None]
Stop = Callable[[], bool]
Engine = Callable[[Problem, Packing, float, Report, Stop], Packing]


def better_layout(
    task: Task,
    start: Layout,
    seconds: float,
    report: Callable[[Layout], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Layout:
    """The best layout found within about so many seconds; never worse than `start`.

    Mixes of sheets to buy are weighed now and again all the while, each made of sheets as they were
    ever filled; between, what is chosen is bettered: by true shape, holes included, and on
    rectangular sheets by strips. report: told each better layout as it is found. stop: asked now
    and then whether to stop early. It ends early where no more is to be gained.
    """
    began = monotonic()
    whole = problem_of(task)
    kept = useful(whole, whole.bins, [spot.bin for spot in start.spots])
    problem = replace(whole, bins=kept)
    best, mixing = start, Mixing(problem)

    def hear(packing: Packing) -> None:
        nonlocal best
        try:
            spots = to_sheets(task, packing.spots)
            layout = layout_of(task, spots, "searched", monotonic() - began)
        except InputError:  # what isn't sound is never taken
            return
        mixing.note(packing)
        if worth(layout) < worth(best):
            best = layout
            report(best)

    def done() -> bool:
        return stop() or not gain_left(best)

    def now() -> Packing:
        return Packing(tuple(to_problem(task, spot) for spot in best.spots))

    mixing.note(now())
    for share, what in ROUNDS:
        left = began + share * seconds - monotonic()
        if left > 0 and not done():
            _work(what, problem, now(), mixing, left, hear, done)
    took = monotonic() - began
    return best if stop() or took < seconds else replace(best, found="searched", seconds=took)


def _work(
    what: str,
    problem: Problem,
    now: Packing,
    mixing: Mixing,
    seconds: float,
    hear: Report,
    stop: Stop,
) -> None:
    """One of the ROUNDS, for so many seconds."""
    end = monotonic() + seconds

    def halt() -> bool:
        return stop() or monotonic() >= end

    if what == "seed":
        mixing.seed(now, hear, halt)
    elif what == "mix":
        mixing.search(now, hear, halt)
    elif what == "search":
        search(problem, now, seconds, hear, stop)
    elif what == "strips":
        _by_part(problem, now, is_plain, fill_bins, seconds, hear, stop)
    else:
        _by_part(problem, now, lambda _: True, search, seconds, hear, stop)


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
