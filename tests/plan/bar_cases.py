"""Bars and lengths for the tests of cut lists, without a plan behind them."""

from typing import Any, cast

from hollowright.handbook.metals import metal
from hollowright.plan.bars import Bar, BarBatch, BarRules, Length, Run
from hollowright.quantity import exact

BRASS = metal("C26000", "metal")
SECTION = {"outside_diameter": 34.93, "wall": 0.915}
NO_LOSS = BarRules(0.0, 0.0, 0.0, 1e9)


def length(id: str, net: float, square_ends: int = 0) -> Length:
    """One kind of piece, of no order."""
    part = cast(Any, type("Part", (), {"id": id, "name": id})())
    return Length(id, cast(Any, None), part, cast(Any, None), exact(id, id, "mm", net), square_ends)


def run(count: int, *lengths: Length) -> Run:
    """Lengths side by side, so many times."""
    return Run(lengths, count)


def bar(
    long: float,
    square_ends: int = 2,
    supply: int | None = 1,
    cost: float | None = None,
    buy: bool = False,
    id: str = "",
) -> Bar:
    """A tube in the drawer, or to buy."""
    name = id or f"{'buy' if buy else 'drawer'}-{long:g}-{square_ends}"
    origin: Any = "to buy" if buy else "drawer"
    return Bar(name, name, origin, "tube", "C26000", SECTION, long, "", square_ends, cost, supply)


def batch(*runs: Run) -> BarBatch:
    """A batch of these runs."""
    return BarBatch("tube", BRASS, SECTION, "", runs)


def plain(pairs: dict[float, int]) -> BarBatch:
    """A batch of lengths and how many of each, as published instances give them."""
    return batch(*(run(count, length(f"{size:g}", size)) for size, count in pairs.items()))


def endless(long: float) -> Bar:
    """As many bars of a length as are wanted, without a price."""
    return bar(long, 2, None, None, True)
