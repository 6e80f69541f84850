"""Other sheets to buy, searched for by filling one sheet at a time with what is dear elsewhere."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import replace
from functools import cached_property
from random import Random

from hollowright.plan.at_once import coarse_bench, in_turn
from hollowright.plan.filling import last_cheaper, spending, useful
from hollowright.plan.mixes import Pool
from hollowright.shapes.nesting.alike import Restore, in_counts, merged
from hollowright.shapes.nesting.changes import LEANS
from hollowright.shapes.nesting.fill import Bench, Halted, Way, bench_of, fill, long_way
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot

Stop = Callable[[], bool]

ROUND = 6
"""After so many sheets filled for each size the cheapest mix is reckoned anew."""

POSES = 6
"""So many ways to lay each flat are tried."""

SLACK = 0.1
"""Sheets are offered up to this share more of a flat than is wanted, and one more at least."""


class Mixing:
    """What is bought for a problem, chosen anew again and again; pins and what they lie on stay.

    What is tried follows from the problem and the answers it is told, the clock only ends it.
    """

    def __init__(self, whole: Problem) -> None:
        self._whole = whole
        alike, _ = merged(replace(whole, pins=()))
        kinds = {_kind(item): item.id for item in alike.items}
        self._names = {item.id: kinds[_kind(item)] for item in whole.items}
        self._pool = Pool(alike)
        self._alike, self._number = alike, 0

    @cached_property
    def _bench(self) -> Bench:
        return bench_of(self._alike, POSES)

    @cached_property
    def _coarse(self) -> Bench:
        return coarse_bench(self._alike)

    def note(self, packing: Packing) -> None:
        """A sound answer, of which every sheet bought is remembered."""
        self._pool.add(Packing(tuple(replace(s, item=self._names[s.item]) for s in packing.spots)))

    def seed(self, best: Packing, hear: Callable[[Packing], None], halt: Stop) -> None:
        """Each size that is sold filled by true shape with all that is to be bought for."""
        kept, part, restore = self._to_buy(best)
        for bin in part.bins:
            if halt() or not part.items:
                return
            try:
                self._pool.add(in_turn(self._coarse, replace(part, bins=(bin,)), halt))
            except Halted:
                return
            hear(Packing((*kept, *restore(self._mixed(part, halt)).spots)))

    def search(self, best: Packing, hear: Callable[[Packing], None], halt: Stop) -> None:
        """Sheets filled one at a time with what is dear in the mix so far, as long as may be."""
        kept, part, restore = self._to_buy(best)
        if not part.items or not part.bins:
            return
        wanted = {item.id: item.count for item in part.items}
        least, idle = spending(self._whole, best)[:2], 0
        while not halt():
            new, prices = False, self._pool.prices(wanted)
            for _ in range(ROUND * len(part.bins)):
                bin = part.bins[self._number % len(part.bins)]
                try:
                    new |= self._pool.add(self._one(part, bin, prices, halt))
                except Halted:
                    return
                self._number += 1
            found = self._mixed(part, halt) if new else Packing()
            whole = Packing((*kept, *restore(found).spots))
            if found.spots and spending(self._whole, whole)[:2] < least:
                least = spending(self._whole, whole)[:2]
                hear(whole)
            idle = 0 if new else idle + 1
            if idle > 5:
                return

    def _one(self, part: Problem, bin: Bin, prices: Mapping[str, float], halt: Stop) -> Packing:
        """One sheet filled with flats: the dearest for their area first, or the largest."""
        rng = Random(self._number)  # noqa: S311
        rates = {i.id: prices.get(i.id, 0.0) / i.outline.area for i in part.items}
        by_size = rng.random() < 0.5
        jolt = rng.choice((0.0, 0.1, 0.3))
        keys = {
            i.id: math.log(1e-9 + (i.outline.size if by_size else rates[i.id])) + rng.gauss(0, jolt)
            for i in part.items
        }
        room = bin.outline.area
        items = []
        for item in sorted(part.items, key=lambda each: -keys[each.id]):
            most = min(item.count + 1 + int(SLACK * item.count), int(room / item.outline.area) + 1)
            if rates[item.id] > 0 or rng.random() < 0.3:
                items += [item.id] * most
        way = long_way(bin)
        if rng.random() < 0.6:
            side = way.side if rng.random() < 0.6 else rng.randrange(4)
            way = Way(side, rng.random() < 0.5, rng.choice(LEANS))
        return Packing(fill(self._bench, (), items, [bin.id], {bin.id: way}, halt))

    def _mixed(self, part: Problem, halt: Stop) -> Packing:
        """The cheapest mix of the sheets known, its emptiest made cheaper."""
        found = self._pool.mix({item.id: item.count for item in part.items})
        with suppress(Halted):
            return last_cheaper(
                part, found, part.bins, lambda rest: in_turn(self._coarse, rest, halt)
            )
        return found

    def _to_buy(self, best: Packing) -> tuple[tuple[Spot, ...], Problem, Restore]:
        """What stays of an answer; a problem of the rest on what is sold; and its way back."""
        pinned = {pin.bin for pin in self._whole.pins}
        kept = tuple(
            spot
            for spot in best.spots
            if self._whole.bin(spot.bin).supply is not None or spot.bin in pinned
        )
        held = {name.partition("#")[0] for name in pinned}
        left = Packing(kept).left_over(self._whole)
        rest = replace(self._whole, items=in_counts(self._whole, left), pins=())
        sizes = [bin for bin in rest.bins if bin.supply is None and bin.id not in held]
        part, restore = merged(replace(rest, bins=useful(rest, sizes)))
        back = {self._names[item.id]: item.id for item in part.items}
        items = tuple(replace(item, id=self._names[item.id]) for item in part.items)

        def named(packing: Packing) -> Packing:
            spots = (replace(spot, item=back[spot.item]) for spot in packing.spots)
            return restore(Packing(tuple(spots)))

        return kept, replace(part, items=items), named


def _kind(item: Item) -> object:
    return (item.outline, item.turns, item.mirrored)
