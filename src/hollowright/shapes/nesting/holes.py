"""Small flats laid in the holes of large ones beforehand: what lies there takes no more metal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from hollowright.shapes.nesting.alike import Restore, in_counts
from hollowright.shapes.nesting.fill import bench_of, fill, long_way
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import placed_point

MOST_IN_ONE = 12
"""No more than so many flats are put into one hole here."""

MOST_HELD = 12
"""So many kinds at most are tried in a hole."""

COARSE = 1 / 150

Held = Mapping[str, tuple[Spot, ...]]
"""What lies in each hollow item's holes, by its id, as it lies there when the item isn't turned."""


def nested(problem: Problem) -> tuple[Problem, Restore]:
    """The problem without the flats that go into others' holes, and a way to put them there.

    Nothing is put there where there are pins, nor where the hollow flat may be turned another way
    than the small one. An answer that leaves hollow flats out leaves out what they would hold.
    """
    left = Counter({item.id: item.count for item in problem.items})
    held: dict[str, tuple[Spot, ...]] = {}
    hollow = [item for item in problem.items if item.outline.holes and not problem.pins]
    for item in sorted(hollow, key=lambda each: (-each.outline.area, each.id)):
        held[item.id] = _held(problem, item, left)
    own = {item.id: item.count - left[item.id] for item in problem.items}
    if not any(own.values()):
        return problem, lambda packing: packing
    items = tuple(_closed(item) if held.get(item.id) else item for item in in_counts(problem, left))

    def restore(packing: Packing) -> Packing:
        there = Counter(own)
        return Packing(tuple(_with_held(packing.spots, held, there)))

    return replace(problem, items=items), restore


def _closed(item: Item) -> Item:
    """A hollow item that holds others: nothing more goes in, and it isn't turned over."""
    return replace(item, outline=Outline(item.outline.segments), mirrored=False)


def _held(problem: Problem, item: Item, left: Counter[str]) -> tuple[Spot, ...]:
    """What goes into an item's holes, the same in all of them; `left` is lessened by it."""
    found: list[Spot] = []
    for hole in item.outline.holes:
        small = sorted(
            (each for each in problem.items if _may_lie(each, item, hole) and left[each.id]),
            key=lambda each: (-each.outline.area, each.id),
        )[:MOST_HELD]
        if small and item.count:
            found += _filled(problem, hole, small, left, item.count)
    for id, count in Counter(spot.item for spot in found).items():
        left[id] -= min(left[id], count * item.count)
    return tuple(found)


def _may_lie(small: Item, large: Item, hole: Outline) -> bool:
    """Whether a flat may lie in another's hole by its area, its breadth and its turns."""
    if small.id == large.id or small.outline.area >= hole.area:
        return False
    if min(small.outline.width, small.outline.height) > max(hole.width, hole.height):
        return False
    return small.turns is None or (large.turns is not None and large.turns == small.turns)


def _filled(
    problem: Problem, hole: Outline, small: Sequence[Item], left: Counter[str], times: int
) -> tuple[Spot, ...]:
    """One hole filled with the largest that go in, no more of each than are left for all holes."""
    items = tuple(
        replace(
            _closed(item),
            count=min(MOST_IN_ONE, -(-left[item.id] // times)),
            turns=item.turns and (0.0,),
        )
        for item in small
    )
    bin = Bin("hole", Outline(hole.segments))
    part = Problem(items, (bin,), problem.between, problem.between)
    bench = bench_of(part, 2, COARSE)
    wanted = [item.id for item in items for _ in range(item.count)]
    return fill(bench, (), wanted, ["hole"], {"hole": long_way(bin)})


def _with_held(spots: Sequence[Spot], held: Held, there: Counter[str]) -> Iterator[Spot]:
    """Spots, and after each what lies in its holes, as long as any is there."""
    for spot in spots:
        yield spot
        inner = []
        for each in held.get(spot.item, ()):
            if there[each.item] > 0:
                there[each.item] -= 1
                inner.append(_carried(each, spot))
        yield from _with_held(inner, held, there)


def _carried(each: Spot, by: Spot) -> Spot:
    """A spot in an item's hole as it comes to lie with the item."""
    x, y = placed_point((each.x, each.y), by.x, by.y, by.turn)
    return replace(each, bin=by.bin, x=x, y=y, turn=(each.turn + by.turn) % 360.0)
