"""What the search tries next: another order, a bin emptied, a far end or a patch put in anew."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from random import Random

from hollowright.shapes.nesting.fill import Way, long_way
from hollowright.shapes.nesting.problem import Bin, Packing, Problem, Spot
from hollowright.shapes.nesting.quick import bin_orders, names_of, wanted
from hollowright.shapes.nesting.rating import bounds_of, swept

LEANS = (0.02, 0.05, 0.2, 0.6)


@dataclass(frozen=True)
class Change:
    """What stays, which items are put in anew in which order, into which bins and how."""

    kept: tuple[Spot, ...]
    items: tuple[str, ...]
    bins: tuple[str, ...]
    ways: Mapping[str, Way]


def refilling(problem: Problem, rng: Random, number: int) -> Change:
    """Everything but the pins put in anew; the first times by plain orders, then shuffled."""
    orders = list(bin_orders(problem))
    order = list(orders[number % len(orders)])
    ways = {bin.id: long_way(bin) for bin in order}
    items = wanted(problem)
    if number >= len(orders):
        items = _jolted(problem, items, rng)
        ways = {bin.id: _way(bin, rng) for bin in order}
    if number >= 2 * len(orders) and rng.random() < 0.5:
        order.remove(rng.choice(order))
    return Change(problem.pins, tuple(items), tuple(names_of(order, len(items))), ways)


def taking_out(problem: Problem, here: Packing, rng: Random) -> Change:
    """Some of what lies there taken out, to be put back with whatever is left over."""
    if not here.bins:
        return refilling(problem, rng, 10**6)
    draw = rng.random()
    used = list(here.bins)
    if draw < 0.25:
        return _without_bin(problem, here, rng)
    name = rng.choice(used)
    if draw < 0.65:
        out = _far_end(problem, here, name, rng)
    elif draw < 0.9:
        out = _patch(problem, here, name, rng)
    else:
        out = list(here.within(name))
    return _change(problem, here, out, _least_first(problem, used), rng)


def _without_bin(problem: Problem, here: Packing, rng: Random) -> Change:
    """One bin emptied: into the others that are used, and any that cost no more than it."""
    used = list(here.bins)
    pinned = {pin.bin for pin in problem.pins}
    loose = [name for name in used if name not in pinned] or used
    name = rng.choice(loose)
    others = [each for each in used if each != name]
    cost = problem.bin(name).cost
    cheaper = [
        each for bin in problem.bins if bin.cost < cost or (len(used) == 1 and bin.cost <= cost)
        for each in names_of([bin], len(used) + 1) if each not in used
    ]  # fmt: skip
    out = list(here.within(name))
    if rng.random() < 0.5 and others:
        out += _far_end(problem, here, rng.choice(others), rng)
    bins = [*_least_first(problem, [*others, *cheaper]), name]
    return _change(problem, here, out, bins, rng)


def _change(
    problem: Problem, here: Packing, out: Sequence[Spot], bins: Sequence[str], rng: Random
) -> Change:
    pins = Counter(problem.pins)
    kept, taken = [], Counter(out)
    for spot in here.spots:
        if taken[spot] and not pins[spot]:
            taken[spot] -= 1
        else:
            kept.append(spot)
    laid = Counter(spot.item for spot in kept)
    items = []
    for item in wanted(problem, pinned=True):
        if laid[item]:
            laid[item] -= 1
        else:
            items.append(item)
    ways = {}
    for name in dict.fromkeys(name.partition("#")[0] for name in bins):
        ways[name] = _same_way(problem, here, name, rng)
    return Change(tuple(kept), tuple(_jolted(problem, items, rng)), tuple(bins), ways)


def _far_end(problem: Problem, here: Packing, name: str, rng: Random) -> list[Spot]:
    """The flats of a bin that reach furthest out from the side it is filled from, some spared."""
    spots = here.within(name)
    side = _side(problem, here, name)
    far = sorted(spots, key=lambda spot: -_out(bounds_of(problem, spot), side))
    count = 1 + int(rng.random() ** 2 * min(len(far), 12))
    spare = rng.random() * 0.3
    more = [spot for spot in far[count:] if rng.random() < 0.15]
    return [spot for spot in far[:count] if rng.random() >= spare] + more[:4]


def _patch(problem: Problem, here: Packing, name: str, rng: Random) -> list[Spot]:
    """The flats of a bin nearest to one of them."""
    spots = here.within(name)
    middles = {spot: _middle(problem, spot) for spot in spots}
    centre = middles[rng.choice(spots)]
    count = 2 + int(rng.random() * min(len(spots), 8))
    return sorted(spots, key=lambda spot: math.dist(middles[spot], centre))[:count]


def _middle(problem: Problem, spot: Spot) -> tuple[float, float]:
    box = bounds_of(problem, spot)
    return ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)


def _out(box: tuple[float, float, float, float], side: int) -> float:
    return (box[2], box[3], -box[0], -box[1])[side]


def _side(problem: Problem, here: Packing, name: str) -> int:
    """The side that a bin is best filled from as it stands."""
    boxes = [bounds_of(problem, spot) for spot in here.within(name)]
    if not boxes:
        return long_way(problem.bin(name)).side
    low_x, low_y, high_x, high_y = zip(*boxes, strict=True)
    around = (min(low_x), min(low_y), max(high_x), max(high_y))
    areas = swept(problem.bin(name).outline, around, problem.between)
    return areas.index(min(areas))


def _same_way(problem: Problem, here: Packing, name: str, rng: Random) -> Way:
    """A bin filled on from the side it is filled from."""
    return Way(_side(problem, here, name), rng.random() < 0.5, rng.choice(LEANS))


def _way(bin: Bin, rng: Random) -> Way:
    side = long_way(bin).side
    if rng.random() < 0.4:
        side = rng.randrange(4)
    return Way(side, rng.random() < 0.5, rng.choice(LEANS))


def _least_first(problem: Problem, names: Sequence[str]) -> list[str]:
    """Bins the cheapest for their area first."""

    def share(name: str) -> float:
        bin = problem.bin(name)
        return bin.cost / bin.outline.area

    return sorted(names, key=share)


def _jolted(problem: Problem, items: Sequence[str], rng: Random) -> list[str]:
    """Items the largest first, by one measure or another, a little out of order."""
    measure, jolt = rng.randrange(3), rng.choice((0.0, 0.1, 0.3, 0.6))
    sizes = {}
    for item in problem.items:
        width, height = item.outline.width, item.outline.height
        sizes[item.id] = (width * height, max(width, height) ** 2, item.outline.area)[measure]
    keys = {id: math.log(size) + rng.gauss(0, jolt) for id, size in sizes.items()}
    one_by_one = rng.random() < 0.5
    loose = [(keys[id] + (rng.gauss(0, jolt) if one_by_one else 0.0), id) for id in items]
    return [id for _, id in sorted(loose, key=lambda each: -each[0])]
