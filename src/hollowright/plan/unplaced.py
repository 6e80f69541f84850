"""Blanks that found no place: which, how many, why, and what would do."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from hollowright.plan.laid import NotLaid, Sheet, Task, turning_of
from hollowright.plan.orders import Flat
from hollowright.shapes.nesting.problem import Packing, Problem
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
    metal = f"{task.batch.metal.name} {task.batch.thickness:.4g} mm"
    if task.batch.temper:
        metal += f", {task.batch.temper},"
    long, wide = needed(task, flat)
    size = f"{_mm(long)} x {_mm(wide)} mm"
    if not task.sheets:
        why = f"There is no sheet of {metal} in the drawer, in hand or sold."
        remedy = (
            f"A sheet of {size} at least would hold one: put it in the drawer or the sold list."
        )
        return NotLaid(flat.id, count, _named(flat, count, why), remedy)
    if _holds(problem, flat.id, pack):
        return NotLaid(
            flat.id, count, _named(flat, count, _too_little(metal)), _lack(task, flat, count)
        )
    why = f"The largest sheet of {metal} is {_largest(task)}: it doesn't go on any."
    remedy = f"A sheet of {size} would hold it."
    if turning_of(task, flat.id) != "free" and _holds(problem, flat.id, pack, free=True):
        remedy = f"Turned any way it would fit; as it may be turned, a sheet of {size} would do."
    return NotLaid(flat.id, count, _named(flat, count, why), remedy)


def _too_little(metal: str) -> str:
    return f"The {metal} there is doesn't hold all that is wanted, and none is sold."


def _lack(task: Task, flat: Flat, count: int) -> str:
    area = flat.outline.area * count
    grams = area * task.batch.thickness * task.batch.metal.density.value / 1000
    return (
        f"They want {format_number(area / 100, 1)} cm2 more, {format_number(grams, 1)} g, and what "
        "lies between them: put a sheet in the drawer or the sold list, or make fewer."
    )


def _named(flat: Flat, count: int, why: str) -> str:
    """The reason with the blank's name and size before it."""
    low_x, low_y, high_x, high_y = flat.outline.bounds
    size = f"{_mm(high_x - low_x)} x {_mm(high_y - low_y)} mm"
    which = f"{flat.order.plan.piece.title}: {flat.name}"
    return f"{which}, {size}, {count} of {flat.count} found no place. {why}"


def needed(task: Task, flat: Flat) -> tuple[float, float]:
    """A sheet that surely holds one of a flat: length and width with its edges [mm]."""
    edges = 2 * task.rules.edge
    long, wide = flat.outline.width + edges, flat.outline.height + edges
    return (max(long, wide), min(long, wide))


def _largest(task: Task) -> str:
    def size(sheet: Sheet) -> float:
        return sheet.outline.area

    outline = max(task.sheets, key=size).outline
    long, wide = max(outline.width, outline.height), min(outline.width, outline.height)
    return f"{_mm(long)} x {_mm(wide)} mm"


def _holds(problem: Problem, id: str, pack: Pack, free: bool = False) -> bool:
    """Whether a single one of an item goes on any bin by itself."""
    item = replace(problem.item(id), count=1)
    if free:
        item = replace(item, turns=None)
    bins = sorted(problem.bins, key=lambda bin: -bin.outline.area)[:SEVERAL]
    return any(
        pack(replace(problem, items=(item,), bins=(replace(bin, supply=1),), pins=())).spots
        for bin in bins
    )


def _mm(value: float) -> str:
    return format_number(value, 1).removesuffix(".0")
