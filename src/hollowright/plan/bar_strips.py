"""Straight strips among the blanks that come out of strip of their width, instead of sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.piece import Part, Stock
from hollowright.plan.bar_runs import added
from hollowright.plan.bars import Bar, BarBatch, Length, Run
from hollowright.plan.buying import FACTORY_ENDS
from hollowright.plan.orders import Order
from hollowright.shop.sold import Sold

WIDER = 1.0
"""A strip may be so much wider than a blank's cut width [mm]: common practice, no source.

It is filed down to width, and is never narrower than the finished width: the strip's own edges are
straight, so they need no dressing.
"""


@dataclass(frozen=True)
class Strips:
    """Blanks that come out of strip of their width instead of sheet; `ids`: which they are."""

    batches: tuple[BarBatch, ...]
    ids: tuple[str, ...]


def strip_batches(wanted: Sequence[Order], strips: Sequence[Bar], tolerance: float) -> Strips:
    """The straight strips among the blanks that have a strip of stock of their width.

    A strip of stock does when it is of the same metal, thickness and temper, at least as wide as
    the finished blank and at most WIDER than the one cut from sheet. The narrowest is taken. Where
    a blank's grain should run across it, none does.
    """
    found: list[BarBatch] = []
    ids: list[str] = []
    for order in wanted:
        for part in order.plan.parts:
            stock = order.plan.piece.stock(part.stock)
            if part.blank.form != "strip" or part.blank.parted or part.blank.grain not in ALONG:
                continue
            fitting = [bar for bar in strips if _as_wide(order, part, stock, bar, tolerance)]
            if not fitting:
                continue
            taken = min(fitting, key=lambda bar: (bar.sizes["width"], bar.id))
            length = order.plan.cuts[part.id].sizes["length"]
            one = Length(f"{order.key}.{part.id}", order, part, stock, length, 0)
            ids.append(one.id)
            runs = (Run((one,), part.count * order.copies),)
            found = added(found, "strip", stock, taken.sizes, runs, tolerance)
    return Strips(tuple(found), tuple(ids))


ALONG = (None, 0.0, 180.0)
"""Ways of the grain that a strip has: along its length."""


def _as_wide(order: Order, part: Part, stock: Stock, bar: Bar, tolerance: float) -> bool:
    if bar.form != "strip" or bar.metal != stock.metal.id:
        return False
    if bar.temper and stock.temper and bar.temper != stock.temper:
        return False
    if abs(bar.sizes["thickness"] - stock.thickness.value) > tolerance + 1e-9:
        return False
    least = part.blank.to_cut["width"].value
    most = order.plan.cuts[part.id].sizes["width"].value + WIDER
    return least - 1e-9 <= bar.sizes["width"] <= most + 1e-9


def sold_strips(wanted: Sequence[Order], sold: Sold, tolerance: float) -> tuple[Bar, ...]:
    """The strips on a sold list of the metals and thicknesses that the orders' sheets have."""
    found: dict[str, Bar] = {}
    for stock in (stock for order in wanted for stock in order.plan.piece.stocks):
        if stock.bar:
            continue
        thickness = stock.thickness.value
        for row in sold.of_form("strip"):
            if row.width is None or not row.fits(
                stock.metal.id, {"thickness": thickness}, stock.temper, tolerance
            ):
                continue
            id = f"buy-strip-{stock.metal.id}-{row.length:g}x{row.width:g}x{thickness:g}"
            sizes = {"width": row.width, "thickness": row.sizes.get("thickness", thickness)}
            bar = Bar(
                id, f"strip {row.length:g} mm", "to buy", "strip", stock.metal.id, sizes,
                row.length, row.temper or stock.temper, FACTORY_ENDS, row.price, None,
            )  # fmt: skip
            old = found.get(id)
            if old is None or (bar.cost is not None and bar.cost < (old.cost or 1e99)):
                found[id] = bar
    return tuple(found.values())
