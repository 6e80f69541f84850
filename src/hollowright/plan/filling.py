"""Which sheets are taken: first what is owned, then the cheapest mix of what is sold."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from functools import lru_cache

from hollowright.plan.mixes import Pool
from hollowright.shapes.nesting.alike import in_counts
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot
from hollowright.shapes.outline import Outline
from hollowright.shapes.polygons import narrowest

Pack = Callable[[Problem], Packing]
"""Lays flats out in the bins of a problem in the order they stand, as well as it can."""

MOST_OWNED = 40
"""So many owned sheets are tried at once, the largest among them [bins]."""

MOST_SIZES = 8
"""So many sizes that are sold are weighed against each other."""


def filled(problem: Problem, pack: Pack, mixing: Sequence[Pack] = ()) -> Packing:
    """Owned bins filled first, the smallest that serve; what is left is bought for.

    mixing: ways to fill bins, of which the cheapest mix to buy is made; none: no mix is reckoned.
    """
    return bought_for(problem, from_owned(problem, pack), pack, mixing)


def from_owned(problem: Problem, pack: Pack) -> Packing:
    """Flats laid out in the owned bins alone, and in those to buy that hold a pin."""
    pinned = {pin.bin for pin in problem.pins}
    held = [bin for bin in problem.bins if bin.supply is not None or _names(bin, pinned)]
    bins = [_as_pinned(bin, pinned) for bin in held]
    first = useful(problem, bins)
    if not first:
        return Packing()
    found = pack(replace(problem, bins=first))
    later = [bin for bin in bins if bin not in first]
    while later and (left := found.left_over(problem)):
        rest = replace(problem, items=in_counts(problem, left), pins=())
        chosen = [bin for bin in later if any(may_hold(rest, i, bin) for i in rest.items)]
        later = chosen[MOST_OWNED:]
        extra = pack(replace(rest, bins=tuple(chosen[:MOST_OWNED])))
        found = Packing((*found.spots, *extra.spots))
    return _one_instead(problem, found, first, pack)


def _names(bin: Bin, names: Iterable[str]) -> bool:
    return any(name.partition("#")[0] == bin.id for name in names)


def _as_pinned(bin: Bin, names: Iterable[str]) -> Bin:
    """A bin to buy, of which so many are there as pins need."""
    if bin.supply is not None:
        return bin
    return replace(bin, supply=max(number_of(n) for n in names if _names(bin, (n,))))


def number_of(name: str) -> int:
    """Which one of its kind a bin's name tells: 1 for 'a', 3 for 'a#3'."""
    return int(name.partition("#")[2] or 1)


def may_hold(problem: Problem, item: Item, bin: Bin) -> bool:
    """Whether a flat may fit in a bin: not where its area or its least width is too large."""
    area, narrow = _room(bin.outline)
    if _room(item.outline)[0] > area:
        return False
    return _width(item.outline) <= narrow - 2 * problem.edge + 1e-6


@lru_cache(maxsize=4096)
def _room(outline: Outline) -> tuple[float, float]:
    """Area and shorter side."""
    low_x, low_y, high_x, high_y = outline.bounds
    return outline.area, min(high_x - low_x, high_y - low_y)


@lru_cache(maxsize=1024)
def _width(outline: Outline) -> float:
    return narrowest(outline)


def useful(problem: Problem, bins: Sequence[Bin], names: Iterable[str] = ()) -> tuple[Bin, ...]:
    """The bins that any flat may fit in; where they are many, the smallest and the largest.

    names: of bins that are kept in any case, as pinned ones are.
    """
    pinned = {name.partition("#")[0] for name in (*names, *(pin.bin for pin in problem.pins))}
    roomy = [
        bin
        for bin in bins
        if bin.id in pinned or any(may_hold(problem, item, bin) for item in problem.items)
    ]
    if len(roomy) <= MOST_OWNED:
        return tuple(roomy)
    kept = {bin.id for bin in (*roomy[: MOST_OWNED // 2], *roomy[-MOST_OWNED // 2 :])} | pinned
    return tuple(bin for bin in roomy if bin.id in kept)


def _one_instead(problem: Problem, found: Packing, bins: Sequence[Bin], pack: Pack) -> Packing:
    """The smallest owned bin that holds all by itself, where several had been begun."""
    if problem.pins or len(found.bins) < 2:
        return found
    begun = sum(problem.bin(name).cost for name in found.bins)
    needed = sum(item.outline.area * item.count for item in problem.items)
    for bin in bins:
        if bin.cost < begun and bin.outline.area >= needed:
            alone = pack(replace(problem, bins=(replace(bin, supply=1),)))
            if not alone.left_over(problem):
                return alone
    return found


def bought_for(
    problem: Problem, start: Packing, pack: Pack, mixing: Sequence[Pack] = ()
) -> Packing:
    """What found no place laid out on the cheapest mix of bins to buy."""
    left = start.left_over(problem)
    rest = replace(problem, items=in_counts(problem, left), pins=())
    sizes = useful(rest, [bin for bin in problem.bins if bin.supply is None])
    if not left or not sizes:
        return start
    extra = cheapest(replace(rest, bins=sizes), _promising(sizes), pack, mixing)
    return Packing((*start.spots, *_renamed(extra, start)))


def bought_at_once(problem: Problem, start: Packing, sizes: Sequence[Bin], pack: Pack) -> Packing:
    """What found no place laid out on these bins to buy, in one go."""
    left = start.left_over(problem)
    if not left or not sizes:
        return start
    rest = replace(problem, items=in_counts(problem, left), bins=tuple(sizes), pins=())
    return Packing((*start.spots, *_renamed(pack(rest), start)))


def _promising(sizes: Sequence[Bin]) -> list[Bin]:
    """The sizes to weigh: where there are many, the cheapest by area, and the largest."""
    if len(sizes) <= MOST_SIZES:
        return list(sizes)
    by_metal = sorted(sizes, key=lambda bin: bin.cost / bin.outline.area)
    largest = max(sizes, key=lambda bin: bin.outline.area)
    kept = {bin.id for bin in (*by_metal[: MOST_SIZES - 1], largest)}
    return [bin for bin in sizes if bin.id in kept]


def cheapest(
    problem: Problem, sizes: Sequence[Bin], pack: Pack, mixing: Sequence[Pack] = ()
) -> Packing:
    """Flats on the cheapest bins to buy: each size by itself, its last one made cheaper, and mixed.

    A mix is of bins as any of the tries filled them, and as each kind by itself fills them.
    """
    pool, tried = Pool(problem), list[Packing]()
    for way in mixing or (pack,):
        noting = _noting(way, pool)
        for bin in sizes:
            found = _with_others(problem, bin, sizes, noting)
            tried.append(last_cheaper(problem, found, sizes, noting))
        if mixing and len(problem.items) > 1:
            _each_alone(problem, sizes, noting)
    best = min(tried, key=lambda each: spending(problem, each))
    if mixing and (len(sizes) > 1 or len(problem.items) > 1):
        mixed = pool.mix({item.id: item.count for item in problem.items})
        mixed = last_cheaper(problem, mixed, sizes, pack)
        best = min(best, mixed, key=lambda each: spending(problem, each))
    return best


def _noting(pack: Pack, pool: Pool) -> Pack:
    """A way to fill bins that puts all that it finds into a pool."""

    def noted(part: Problem) -> Packing:
        found = pack(part)
        pool.add(found)
        return found

    return noted


def _each_alone(problem: Problem, sizes: Sequence[Bin], pack: Pack) -> None:
    """One bin of each size filled with each kind by itself."""
    for bin in sizes:
        for item in problem.items:
            most = int(bin.outline.area / item.outline.area)
            if most and may_hold(problem, item, bin):
                alone = replace(item, count=min(most, item.count))
                pack(replace(problem, items=(alone,), bins=(replace(bin, supply=1),)))


def spending(problem: Problem, found: Packing) -> tuple[int, float, int]:
    """How many flats are left over, what the bins cost together, how many they are."""
    return (_count_left(problem, found), round(spent(problem, found), 6), len(found.bins))


def _with_others(problem: Problem, bin: Bin, sizes: Sequence[Bin], pack: Pack) -> Packing:
    """Flats on one size, and those that don't go on it on the next one that they go on."""
    found = Packing()
    for size in (bin, *(each for each in sizes if each is not bin)):
        left = found.left_over(problem)
        if not left:
            break
        extra = pack(replace(problem, items=in_counts(problem, left), bins=(size,)))
        found = Packing((*found.spots, *_renamed(extra, found)))
    return found


def last_cheaper(problem: Problem, found: Packing, sizes: Sequence[Bin], pack: Pack) -> Packing:
    """What lies on the emptiest bin laid out on cheaper ones, where they hold it all."""
    if not found.bins:
        return found
    last = min(found.bins, key=lambda name: _filling(problem, found, name))
    own = problem.bin(last)
    counts = Counter(spot.item for spot in found.within(last))
    rest = replace(problem, items=in_counts(problem, counts))
    needed = sum(item.outline.area * item.count for item in rest.items)
    tried = [
        _with_others(rest, bin, [], pack)
        for bin in sizes
        if bin.cost < own.cost and bin.cost * -(-needed // bin.outline.area) < own.cost
    ]
    whole = [each for each in tried if not each.left_over(rest)]
    instead = min(whole, key=lambda each: (spent(problem, each), len(each.bins)), default=None)
    if instead is None or spent(problem, instead) >= own.cost:
        return found
    kept = Packing(tuple(spot for spot in found.spots if spot.bin != last))
    return Packing((*kept.spots, *_renamed(instead, kept)))


def _filling(problem: Problem, found: Packing, name: str) -> float:
    used = sum(problem.item(spot.item).outline.area for spot in found.within(name))
    return used / problem.bin(name).outline.area


def spent(problem: Problem, found: Packing) -> float:
    """What the bins that are used cost together."""
    return sum(problem.bin(name).cost for name in found.bins)


def to_buy(problem: Problem, found: Packing) -> tuple[int, float]:
    """How many flats are left over, and what the bins to buy cost together."""
    bins = (problem.bin(name) for name in found.bins)
    cost = sum(bin.cost for bin in bins if bin.supply is None)
    return (_count_left(problem, found), round(cost, 6))


def _count_left(problem: Problem, found: Packing) -> int:
    return sum(found.left_over(problem).values())


def _renamed(extra: Packing, start: Packing) -> tuple[Spot, ...]:
    """The spots of bins to buy, numbered on past those that are used already."""
    taken = set(start.bins)
    names: dict[str, str] = {}
    for name in extra.bins:
        id, number = name.partition("#")[0], 1
        while (fresh := id if number == 1 else f"{id}#{number}") in taken:
            number += 1
        taken.add(fresh)
        names[name] = fresh
    return tuple(replace(spot, bin=names[spot.bin]) for spot in extra.spots)
