"""A first sound answer at once: flats largest first, in the cheapest metal first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from hollowright.shapes.nesting.fill import Bench, bench_of, fill, long_way
from hollowright.shapes.nesting.judge import faults
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem
from hollowright.shapes.nesting.rating import rating
from hollowright.shapes.nesting.rows import rows

COARSE = 1 / 150
"""How far the quick answer's polygons may lie off the curves, as a share of an outline's size."""


MOST_TRUE = 4
"""Of more kinds than this the quick answer takes the hulls."""


MOST_ORDERED = 5
"""With more kinds than this only one order of the bins is tried."""


def quick(problem: Problem) -> Packing:
    """A sound answer in under 0.1 s for some 100 flats in 10 bins; the same every time.

    The best of true shapes put in largest first, bins tried in a few orders, and of rows of boxes.
    Pins stay; items without a place are left out. Nothing is laid beside pins that are unsound.
    """
    kinds = max(1, len(problem.items))
    bench = bench_of(problem, max(1, min(4, 16 // kinds)), COARSE, hulled=kinds > MOST_TRUE)
    orders = list(bin_orders(problem))[: 1 if kinds > MOST_ORDERED else None]
    found = [by_shape(bench, bins) for bins in orders]
    best, plain = min(found, key=lambda each: rating(problem, each)), rows(problem)
    better = not problem.pins and rating(problem, plain) < rating(problem, best)
    return plain if better and not faults(problem, plain) else best


def by_shape(bench: Bench, bins: Sequence[Bin]) -> Packing:
    """Every item that isn't pinned put in by its true shape, the largest first, bins as ordered."""
    problem = bench.problem
    ways = {bin.id: long_way(bin) for bin in bins}
    names = names_of(bins, sum(item.count for item in problem.items))
    return Packing(fill(bench, problem.pins, wanted(problem), names, ways))


def wanted(problem: Problem, pinned: bool = False) -> list[str]:
    """Every flat that isn't pinned, by its item's id, the largest by its outer edge first.

    pinned: those that are pinned as well.
    """
    there = Counter(() if pinned else (pin.item for pin in problem.pins))
    found = sorted(problem.items, key=lambda item: (-_filled(item), item.id))
    return [item.id for item in found for _ in range(item.count - there[item.id])]


def names_of(bins: Sequence[Bin], most: int) -> list[str]:
    """The bins' names in order, those of a supply numbered, at most so many of each."""
    found = []
    for bin in bins:
        supply = most if bin.supply is None else min(bin.supply, most)
        found += [bin.id if n == 1 else f"{bin.id}#{n}" for n in range(1, supply + 1)]
    return found


def bin_orders(problem: Problem) -> Iterator[tuple[Bin, ...]]:
    """Orders of the bins worth trying: the least cost first, the least cost for its area first."""
    seen = set()
    by_cost = sorted(problem.bins, key=lambda bin: bin.cost)
    by_share = sorted(problem.bins, key=lambda bin: bin.cost / bin.outline.area)
    for order in (by_cost, by_share, problem.bins):
        if (ids := tuple(bin.id for bin in order)) not in seen:
            seen.add(ids)
            yield tuple(order)


def _filled(item: Item) -> float:
    return item.outline.area + sum(hole.area for hole in item.outline.holes)
