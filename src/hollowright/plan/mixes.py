"""The cheapest mix of sheets: a pool of sheets as they were filled, and which of them cover all.

Every sheet that any packing filled is a pattern: of what size it is, and how many of each flat come
out of it. Which patterns to take, and how often, so that every flat is there and the least is
spent, is a small covering problem. The method of patterns: P. C. Gilmore, R. E. Gomory, "A linear
programming approach to the cutting-stock problem", Operations Research 9 (1961).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from hollowright.plan.highs import Column, solve
from hollowright.shapes.nesting.problem import Packing, Problem, Spot

EACH = 1e-3
"""What one more sheet counts for beside the sheets' costs, so that of equals the fewest stand."""

LOST = 1e7
"""What a flat that no pattern gives counts for."""

BRANCHES = 300
"""After so many branches the best mix found stands."""

MOST = 400
"""Of more patterns than this those that give least for their cost are forgotten."""


@dataclass(frozen=True)
class Pattern:
    """One sheet as it was filled: its size's id, its spots, how many of each flat there are."""

    size: str
    spots: tuple[Spot, ...]
    counts: Mapping[str, int]


class Pool:
    """Patterns of the sizes to buy; what is put in stays sound, since each is a sheet by itself."""

    def __init__(self, problem: Problem) -> None:
        self._costs = {bin.id: bin.cost for bin in problem.bins if bin.supply is None}
        self._areas = {item.id: item.outline.area for item in problem.items}
        self._patterns: dict[tuple[str, frozenset[tuple[str, int]]], Pattern] = {}

    def add(self, packing: Packing) -> bool:
        """Every sheet to buy of a sound packing as a pattern; whether any is new."""
        before = len(self._patterns)
        by_bin: dict[str, list[Spot]] = {}
        for spot in packing.spots:
            by_bin.setdefault(spot.bin, []).append(spot)
        for name, spots in by_bin.items():
            size = name.partition("#")[0]
            if size in self._costs and not any(spot.pinned for spot in spots):
                counts = Counter(spot.item for spot in spots)
                key = (size, frozenset(counts.items()))
                self._patterns.setdefault(key, Pattern(size, tuple(spots), counts))
        return len(self._patterns) > before

    def mix(self, wanted: Mapping[str, int], branches: int = BRANCHES) -> Packing:
        """The flats on the cheapest sheets of the pool; those that no pattern gives are left out.

        The same for the same pool, whatever the clock says.
        """
        patterns = self._kept(wanted)
        if not patterns:
            return Packing()
        columns, low = self._columns(patterns, wanted)
        answer = solve(columns, low, [1e30] * len(low), seconds=60.0, branches=branches)
        times = [round(value) for value in answer.values[: len(patterns)]]
        return _laid(list(zip(patterns, times, strict=False)), wanted)

    def prices(self, wanted: Mapping[str, int]) -> Mapping[str, float]:
        """What one more of each flat would cost at the mix as it is, by parts of sheets."""
        patterns = self._kept(wanted)
        columns, low = self._columns(patterns, wanted)
        answer = solve(columns, low, [1e30] * len(low), whole=False)
        if not answer.prices:
            return dict.fromkeys(wanted, 1.0)
        return dict(zip(wanted, (max(0.0, price) for price in answer.prices), strict=True))

    def _kept(self, wanted: Mapping[str, int]) -> list[Pattern]:
        useful = [each for each in self._patterns.values() if wanted.keys() & each.counts.keys()]
        if len(useful) <= MOST:
            return useful
        self._patterns = dict(
            sorted(self._patterns.items(), key=lambda pair: self._rate(pair[1]))[: MOST * 3 // 4]
        )
        return self._kept(wanted)

    def _rate(self, pattern: Pattern) -> float:
        """What a pattern costs for the area of flats that it gives."""
        area = sum(self._areas.get(id, 0.0) * count for id, count in pattern.counts.items())
        return self._costs[pattern.size] / max(area, 1e-9)

    def _columns(
        self, patterns: list[Pattern], wanted: Mapping[str, int]
    ) -> tuple[list[Column], list[float]]:
        rows = {id: row for row, id in enumerate(wanted)}
        columns = []
        for pattern in patterns:
            own = {rows[id]: float(n) for id, n in pattern.counts.items() if id in rows}
            cost = self._costs[pattern.size] + EACH
            most = float(max(-(-wanted[id] // n) for id, n in pattern.counts.items() if id in rows))
            columns.append(Column(cost, tuple(own), tuple(own.values()), most))
        lost = [Column(LOST, (row,), (1.0,)) for row in rows.values()]
        return [*columns, *lost], [float(count) for count in wanted.values()]


def _laid(mix: list[tuple[Pattern, int]], wanted: Mapping[str, int]) -> Packing:
    """The chosen patterns as numbered sheets, the fullest first; what is too much is left out."""
    left, numbers, found = Counter(wanted), Counter[str](), list[Spot]()
    for pattern, times in sorted(mix, key=lambda pair: -len(pair[0].spots)):
        for _ in range(times):
            kept = []
            for spot in pattern.spots:
                if left[spot.item] > 0:
                    left[spot.item] -= 1
                    kept.append(spot)
            if kept:
                numbers[pattern.size] += 1
                number = numbers[pattern.size]
                name = pattern.size if number == 1 else f"{pattern.size}#{number}"
                found += [replace(spot, bin=name) for spot in kept]
    return Packing(tuple(found))
