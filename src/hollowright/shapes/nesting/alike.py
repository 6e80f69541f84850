"""Flats that are alike taken for one kind, or each for the box round it: fewer kinds to lay out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot
from hollowright.shapes.nesting.rows import rows
from hollowright.shapes.outline import Outline, rectangle
from hollowright.shapes.placing import placed, placed_point

Restore = Callable[[Packing], Packing]
"""Gives an answer to the simpler problem back as one to the problem that it was made of."""

NEAR = 2
"""Boxes whose sides differ by less than a hundredth are one: so many decimals [mm]."""


def merged(problem: Problem) -> tuple[Problem, Restore]:
    """Items of the same outline, turned alike, as one; nothing is merged where there are pins."""
    kin: dict[object, list[Item]] = defaultdict(list)
    for item in problem.items:
        own = (item.outline, item.turns, item.mirrored) if not problem.pins else item.id
        kin[own].append(item)
    if len(kin) == len(problem.items):
        return problem, lambda packing: packing
    items = tuple(_one_for(group) for group in kin.values())
    members = {group[0].id: group for group in kin.values()}

    def restore(packing: Packing) -> Packing:
        ids = {id: _dealt(group) for id, group in members.items()}
        return Packing(tuple(replace(s, item=next(ids[s.item])) for s in packing.spots))

    return replace(problem, items=items), restore


def _one_for(group: list[Item]) -> Item:
    return replace(group[0], count=sum(item.count for item in group))


def _dealt(group: Iterable[Item]) -> Iterator[str]:
    return (item.id for item in group for _ in range(item.count))


@dataclass(frozen=True)
class _Boxed:
    """A flat in a box: which one, turned by how much [deg], and the middle of its box so."""

    id: str
    turn: float
    middle: tuple[float, float]


def boxed(problem: Problem) -> tuple[Problem, Restore]:
    """Each item as the box round it, lying long where it may be turned at will; like boxes as one.

    The problem must have no pins.
    """
    kin: dict[object, list[tuple[Item, float, float, float]]] = defaultdict(list)
    for item in problem.items:
        upright = item.turns is None and item.outline.height > item.outline.width
        turn = 90.0 if upright else 0.0
        long, wide = item.outline.width, item.outline.height
        long, wide = (wide, long) if upright else (long, wide)
        kin[round(long, NEAR), round(wide, NEAR), item.turns].append((item, turn, long, wide))
    boxes = [_box_for(group) for group in kin.values()]
    within = {group[0][0].id: group for group in kin.values()}
    middles = {box.id: _middle(box.outline) for box in boxes}

    def restore(packing: Packing) -> Packing:
        flats = {id: _in_boxes(group) for id, group in within.items()}
        found = []
        for spot in packing.spots:
            flat = next(flats[spot.item])
            x, y = placed_point(middles[spot.item], spot.x, spot.y, spot.turn)
            turn = (spot.turn + flat.turn) % 360.0
            dx, dy = placed_point(flat.middle, 0.0, 0.0, turn)
            found.append(replace(spot, item=flat.id, x=x - dx, y=y - dy, turn=turn))
        return Packing(tuple(found))

    return replace(problem, items=tuple(boxes)), restore


def _box_for(group: list[tuple[Item, float, float, float]]) -> Item:
    long, wide = max(each[2] for each in group), max(each[3] for each in group)
    count = sum(item.count for item, *_ in group)
    return replace(group[0][0], outline=rectangle(long, wide), count=count, mirrored=False)


def _in_boxes(group: list[tuple[Item, float, float, float]]) -> Iterator[_Boxed]:
    for item, turn, _, _ in group:
        middle = _middle(item.outline)
        for _ in range(item.count):
            yield _Boxed(item.id, turn, middle)


def _middle(outline: Outline) -> tuple[float, float]:
    low_x, low_y, high_x, high_y = outline.bounds
    return ((low_x + high_x) / 2, (low_y + high_y) / 2)


def rows_across(problem: Problem) -> Packing:
    """Rows of boxes that run along the bins' y instead of their x."""
    bins = tuple(
        Bin(bin.id, placed(bin.outline, 0.0, 0.0, 270.0), bin.cost, bin.supply)
        for bin in problem.bins
    )
    items = tuple(
        replace(item, turns=item.turns and tuple((t + 270.0) % 360.0 for t in item.turns))
        for item in problem.items
    )
    found = rows(replace(problem, items=items, bins=bins))
    return Packing(tuple(_back(spot) for spot in found.spots))


def _back(spot: Spot) -> Spot:
    x, y = placed_point((spot.x, spot.y), 0.0, 0.0, 90.0)
    return replace(spot, x=x, y=y, turn=(spot.turn + 90.0) % 360.0)


def in_counts(problem: Problem, counts: Mapping[str, int]) -> tuple[Item, ...]:
    """The items with other counts; those without are left out."""
    return tuple(
        replace(item, count=counts[item.id]) for item in problem.items if counts.get(item.id)
    )
