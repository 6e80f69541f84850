"""Rows of bounding boxes, as a person lays flats out by eye: the plain answer to compare with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot
from hollowright.shapes.outline import Outline


@dataclass(frozen=True)
class _Box:
    """One flat as its bounding box, turned to lie flat where it may be turned."""

    item: Item
    turn: float
    low_x: float
    low_y: float
    width: float
    height: float


def rows(problem: Problem) -> Packing:
    """Every flat by its bounding box in rows, the highest first, bin after bin as they stand.

    A bin counts as the rectangle round it only where it is one; others are left empty. Pins are
    not minded: it is what a person does with a square and a rule.
    """
    waiting = sorted(_boxes(problem), key=lambda box: (-box.height, -box.width, box.item.id))
    spots: list[Spot] = []
    for bin in problem.bins:
        if not is_rectangle(bin.outline):
            continue
        for number in range(1, (bin.supply or len(waiting)) + 1):
            if not waiting:
                break
            name = bin.id if number == 1 else f"{bin.id}#{number}"
            laid, waiting = _filled(bin, name, waiting, problem)
            spots += laid
            if not laid:
                break
    return Packing(tuple(spots))


def is_rectangle(outline: Outline) -> bool:
    """Whether it is a rectangle with level sides and no holes."""
    box = outline.width * outline.height
    return not outline.holes and abs(outline.area - box) < 1e-9 * box


def _boxes(problem: Problem) -> Iterator[_Box]:
    for item in problem.items:
        low_x, low_y, high_x, high_y = item.outline.bounds
        width, height = high_x - low_x, high_y - low_y
        quarter = item.turns is None or 90.0 in item.turns
        first = 0.0 if item.turns is None else item.turns[0]
        if height > width and quarter:
            box = _Box(item, 90.0, -high_y, low_x, height, width)
        elif first == 0.0:
            box = _Box(item, 0.0, low_x, low_y, width, height)
        else:
            low_x, low_y, high_x, high_y = Spot("", "", 0, 0, first).place(item.outline).bounds
            box = _Box(item, first, low_x, low_y, high_x - low_x, high_y - low_y)
        yield from [box] * item.count


def _filled(
    bin: Bin, name: str, waiting: list[_Box], problem: Problem
) -> tuple[list[Spot], list[_Box]]:
    """One bin filled row by row; what is still waiting."""
    low_x, low_y, high_x, high_y = bin.outline.bounds
    edge, gap, near = problem.edge, problem.between, 1e-9
    right, top = high_x - edge + near, high_y - edge + near
    spots: list[Spot] = []
    y, left = low_y + edge, list(waiting)
    while left:
        x, row, rest = low_x + edge, 0.0, []
        for box in left:
            if x + box.width <= right and y + box.height <= top and (not row or box.height <= row):
                spots.append(Spot(box.item.id, name, x - box.low_x, y - box.low_y, box.turn))
                x, row = x + box.width + gap, max(row, box.height)
            else:
                rest.append(box)
        left = rest
        if not row:
            break
        y += row + gap
    return spots, left
