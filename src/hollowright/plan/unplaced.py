"""Blanks that found no place: which, how many, why, and what would do."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from hollowright.plan.laid import NotLaid, Task, turning_of
from hollowright.plan.orders import Flat
from hollowright.shapes.nesting.problem import Bin, Packing, Problem
from hollowright.units import format_number

Pack = Callable[[Problem], Packing]
SEVERAL = 6
"""So many of the largest sheets are tried to see whether a blank fits any [sheets]."""


def not_laid(
    task: Task, problem: Problem, left: Mapping[str, int], pack: Pack
) -> tuple[NotLaid, ...]:
    """Why so many of each flat found no place, and what would do."""
    return tuple(_one(task, problem, task.batch.flat(id), n, pack) for id, n in left.items())


def _one(task: Task, problem: Problem, flat: Flat, count: int, pack: Pack) -> NotLaid:
    metal = f"{format_number(task.batch.thickness, 2)} mm {task.batch.metal.name}"
    if task.batch.temper:
        metal += f" ({task.batch.temper})"
    size = _size(*needed(task, flat))
    holding = _holding(problem, flat.id, pack)
    if not task.sheets:
        why = f"No {metal} is in the drawer, in hand or sold."
        remedy = f"A sheet of {size} at least would hold one: buy it, or put it in the drawer."
    elif any(each.supply is None for each in holding):
        why = f"There is {metal} for it, but this layout leaves {_of(flat, count)} out."
        remedy = "Lay out anew."
    elif holding:
        why = f"There is too little {metal} for {_of(flat, count)}, and none is sold."
        remedy = _lack(task, flat, count)
    else:
        own = _size(flat.outline.width, flat.outline.height)
        why = f"It is {own}; the largest sheet of {metal} is {_largest(task)}."
        remedy = f"A sheet of {size} at least would hold it."
        if turning_of(task, flat.id) != "free" and _holding(problem, flat.id, pack, free=True):
            why = f"It is {own} and doesn't go on any sheet of {metal} as it may be turned."
            remedy = f"Turned any way it would fit; as it is, a sheet of {size} would do."
    return NotLaid(flat.id, count, why, remedy)


def _of(flat: Flat, count: int) -> str:
    return f"all {flat.count}" if count == flat.count else f"{count} of {flat.count}"


def _lack(task: Task, flat: Flat, count: int) -> str:
    area = flat.outline.area * count
    grams = area * task.batch.thickness * task.batch.metal.density.value / 1000
    return (
        f"They alone take {format_number(area, 0)} mm2, {format_number(grams, 1)} g, more; "
        f"a sheet of {_size(*needed(task, flat))} holds one. Buy some, or make fewer."
    )


def needed(task: Task, flat: Flat) -> tuple[float, float]:
    """A sheet that surely holds one of a flat: length and width with its edges [mm]."""
    edges = 2 * task.rules.edge
    long, wide = flat.outline.width + edges, flat.outline.height + edges
    return (max(long, wide), min(long, wide))


def _largest(task: Task) -> str:
    outline = max((each.outline for each in task.sheets), key=lambda each: each.area)
    return _size(outline.width, outline.height)


def _size(one: float, other: float) -> str:
    """'410 x 40 mm', the longer side first."""
    return f"{_mm(max(one, other))} x {_mm(min(one, other))} mm"


def _holding(problem: Problem, id: str, pack: Pack, free: bool = False) -> list[Bin]:
    """The bins that hold a single one of an item, of the largest owned and the largest sold."""
    item = replace(problem.item(id), count=1)
    if free:
        item = replace(item, turns=None)
    by_area = sorted(problem.bins, key=lambda bin: -bin.outline.area)
    owned = [bin for bin in by_area if bin.supply is not None][:SEVERAL]
    sold = [bin for bin in by_area if bin.supply is None][:SEVERAL]
    return [
        bin
        for bin in (*owned, *sold)
        if pack(replace(problem, items=(item,), bins=(replace(bin, supply=1),), pins=())).spots
    ]


def _mm(value: float) -> str:
    return format_number(value, 1).removesuffix(".0")
