"""Sheets and bars to buy, from the sold list: those that a batch could come out of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hollowright.handbook.metals import Metal
from hollowright.plan.bars import Bar
from hollowright.plan.laid import Sheet
from hollowright.shapes.outline import rectangle
from hollowright.shop.sold import Sold, SoldSize

FACTORY_ENDS = 2
"""A bar as bought has both its ends square: common practice, no source."""


def sold_sheets(
    sold: Sold, metal: Metal, thickness: float, temper: str, tolerance: float
) -> tuple[Sheet, ...]:
    """Sheets and strips that are sold of a metal, thickness [mm] and temper; as many as wanted.

    tolerance: a thickness that differs by no more [mm] is the same. Of one size, sold by several,
    the cheapest. Largest last.
    """
    wanted = {"thickness": thickness}
    rows = _cheapest(
        row
        for row in sold.of_form("sheet", "strip")
        if row.width is not None and row.fits(metal.id, wanted, temper, tolerance)
    )
    found = [
        Sheet(
            f"buy-{row.length:g}x{row.width:g}",
            _label(f"{row.form} {row.length:g} x {row.width:g} mm", row),
            "to buy", metal.id, row.sizes.get("thickness", thickness),
            rectangle(row.length, row.width or 0.0), row.temper or temper, 0.0, row.price, None,
        )
        for row in rows
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda each: (each.outline.area, each.id)))


def sold_bars(
    sold: Sold, form: str, metal: Metal, sizes: Mapping[str, float], temper: str, tolerance: float
) -> tuple[Bar, ...]:
    """Bars that are sold of a form ('tube', 'rod'), metal, section [mm] and temper; shortest first.

    sizes: outside_diameter and wall, or diameter; each may differ by the tolerance [mm].
    """
    rows = _cheapest(
        row for row in sold.of_form(form) if row.fits(metal.id, sizes, temper, tolerance)
    )
    found = [
        Bar(
            f"buy-{row.length:g}", _label(f"{row.form} {row.length:g} mm", row), "to buy", form,
            metal.id, {**sizes, **row.sizes}, row.length, row.temper or temper, FACTORY_ENDS,
            row.price, None,
        )
        for row in rows
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda each: each.length))


def _label(size: str, row: SoldSize) -> str:
    return f"{size}, {row.supplier}" if row.supplier else size


def _cheapest(rows: Iterable[SoldSize]) -> list[SoldSize]:
    """Of each size the row with the least price; the first one where none has a price."""
    best: dict[tuple[float, float | None], SoldSize] = {}
    for row in rows:
        key = (round(row.length, 3), row.width and round(row.width, 3))
        old = best.get(key)
        if old is None or _price(row) < _price(old):
            best[key] = row
    return list(best.values())


def _price(row: SoldSize) -> float:
    return float("inf") if row.price is None else row.price
