"""Flat blanks that a person chose to have sawn from strip: which can be, and which strips do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from hollowright.errors import InputError, UnknownName
from hollowright.piece import Part
from hollowright.plan.bars import Bar, BarBatch, Length, Run
from hollowright.plan.buying import FACTORY_ENDS
from hollowright.plan.orders import Order
from hollowright.plan.plan import Cut
from hollowright.shapes.nesting.rows import is_rectangle
from hollowright.shop.sold import Sold
from hollowright.units import format_number

WIDER = 1.0
"""A strip may be so much wider than a blank's cut width [mm]: common practice, no source.

It is filed down to width, and is never narrower than the finished width: the strip's own edges are
straight, so they need no dressing.
"""

ALL = "all"
ALONG = (None, 0.0, 180.0)
"""Ways of the grain that a strip has: along its length."""


@dataclass(frozen=True)
class Wanted:
    """One kind of blank that is sawn from strip: its length, how many, how wide a strip may be."""

    length: Length
    count: int
    least: float
    cut: float

    def does(self, bar: Bar, tolerance: float) -> bool:
        """Whether a strip is of its metal, thickness and temper, and of its width."""
        wide = bar.sizes["width"]
        return self.near(bar, tolerance) and self.least - 1e-9 <= wide <= self.cut + WIDER + 1e-9

    def near(self, bar: Bar, tolerance: float) -> bool:
        """Whether a strip is of its metal, thickness and temper, whatever its width."""
        stock = self.length.stock
        return (
            (bar.form, bar.metal) == ("strip", stock.metal.id)
            and not (bar.temper and stock.temper and bar.temper != stock.temper)
            and abs(bar.sizes["thickness"] - stock.thickness.value) <= tolerance + 1e-9
        )


def could_be_strip(part: Part, cut: Cut) -> bool:
    """Whether a blank may be sawn from strip: a plain rectangle, its grain along its length."""
    return (
        part.blank.flat
        and part.blank.grain in ALONG
        and {"length", "width"} <= set(cut.sizes)
        and is_rectangle(cut.outline)
    )


def strip_ids(wanted: Sequence[Order], names: Sequence[str]) -> tuple[str, ...]:
    """The flat blanks meant by names: 'ring', 'striker-box.ring', or 'all' that could be.

    UnknownName for one that isn't there, InputError for one that is no plain rectangle.
    """
    could = {
        f"{order.key}.{part.id}": could_be_strip(part, order.plan.cuts[part.id])
        for order in wanted
        for part in order.plan.parts
        if part.blank.flat
    }
    known = [*dict.fromkeys(id.rpartition(".")[2] for id in could), *could]
    chosen: set[str] = set()
    for name in (name.strip() for name in names):
        meant = [id for id in could if name in (ALL, id, id.rpartition(".")[2])]
        if not meant and name != ALL:
            raise UnknownName("strip", name, known)
        plain = [id for id in meant if could[id]]
        if not plain:
            raise _not_plain(name, [id for id, fits in could.items() if fits])
        chosen.update(plain)
    return tuple(id for id in could if id in chosen)


def _not_plain(name: str, others: Sequence[str]) -> InputError:
    rest = f"From strip: {', '.join(others)}." if others else "Leave --strip away."
    if name == ALL:
        return InputError("strip", "no flat blank here is a plain rectangle.", rest)
    return InputError(
        "strip", f"{name} is no plain rectangle, so it is cut from sheet, not from strip.", rest
    )


def wanted_of_strip(wanted: Sequence[Order], ids: Sequence[str]) -> tuple[Wanted, ...]:
    """The blanks with these ids, as lengths of strip."""
    return tuple(
        _wanted(order, part)
        for order in wanted
        for part in order.plan.parts
        if f"{order.key}.{part.id}" in ids
    )


def _wanted(order: Order, part: Part) -> Wanted:
    cut = order.plan.cuts[part.id].sizes
    stock = order.plan.piece.stock(part.stock)
    one = Length(f"{order.key}.{part.id}", order, part, stock, cut["length"], 0)
    least = cut["width"] if part.blank.parted else part.blank.to_cut["width"]
    return Wanted(one, part.count * order.copies, least.value, cut["width"].value)


def check_widths(wanted: Sequence[Wanted], strips: Sequence[Bar], tolerance: float) -> None:
    """InputError for the first blank that is wider than every strip of its metal and thickness."""
    for each in wanted:
        near = [bar.sizes["width"] for bar in strips if each.near(bar, tolerance)]
        if not near or max(near) >= each.least - 1e-9:
            continue
        others = [
            one.length.id for one in wanted if any(one.does(bar, tolerance) for bar in strips)
        ]
        rest = f" Strips of their width: {', '.join(others)}." if others else ""
        raise InputError(
            "strip",
            f"{each.length.id} is cut {format_number(each.cut)} mm wide, and the widest strip of "
            f"its metal and thickness is {format_number(max(near))} mm.",
            f"Leave it to the layout, on sheet.{rest}",
        )


def strip_batches(
    wanted: Sequence[Wanted], strips: Sequence[Bar], tolerance: float
) -> Iterator[tuple[BarBatch, tuple[Bar, ...]]]:
    """Batches of blanks that the same strips do for, each with all of these strips.

    Those that the fewest do for come first: what they take, the others haven't.
    """
    groups: dict[tuple[object, ...], tuple[list[Wanted], tuple[Bar, ...]]] = {}
    for each in wanted:
        bars = tuple(bar for bar in strips if each.does(bar, tolerance))
        stock = each.length.stock
        own = () if bars else (round(each.cut, 2), round(stock.thickness.value, 3))
        key = (stock.metal.id, stock.temper, tuple(bar.id for bar in bars), own)
        groups.setdefault(key, ([], _narrowest(bars)))[0].append(each)
    for group, bars in sorted(groups.values(), key=lambda found: len(found[1])):
        widest = max(group, key=lambda each: each.cut)
        stock = widest.length.stock
        sizes = {"width": widest.cut, "thickness": stock.thickness.value}
        runs = tuple(Run((each.length,), each.count) for each in group)
        yield BarBatch("strip", stock.metal, sizes, stock.temper, runs), bars


def _narrowest(bars: Sequence[Bar]) -> tuple[Bar, ...]:
    """The strips without those to buy that differ from a narrower one in width alone."""
    seen: set[tuple[object, ...]] = set()
    found = []
    for bar in sorted(bars, key=lambda bar: (bar.sizes["width"], bar.id)):
        key = (bar.length, bar.cost)
        if bar.origin == "to buy" and key in seen:
            continue
        if bar.origin == "to buy":
            seen.add(key)
        found.append(bar)
    return tuple(found)


def sold_strips(wanted: Sequence[Wanted], sold: Sold, tolerance: float) -> tuple[Bar, ...]:
    """The strips on a sold list of the metals and thicknesses of these blanks."""
    found: dict[str, Bar] = {}
    for stock in (each.length.stock for each in wanted):
        thickness = stock.thickness.value
        for row in sold.of_form("strip"):
            if row.width is None or not row.fits(
                stock.metal.id, {"thickness": thickness}, stock.temper, tolerance
            ):
                continue
            id = f"buy-strip-{stock.metal.id}-{row.length:g}x{row.width:g}x{thickness:g}"
            sizes = {"width": row.width, "thickness": row.sizes.get("thickness", thickness)}
            label = f"strip {row.length:g} x {row.width:g} mm"
            bar = Bar(
                id, f"{label}, {row.supplier}" if row.supplier else label, "to buy", "strip",
                stock.metal.id, sizes, row.length, row.temper or stock.temper, FACTORY_ENDS,
                row.price, None,
            )  # fmt: skip
            old = found.get(id)
            if old is None or (bar.cost is not None and bar.cost < (old.cost or 1e99)):
                found[id] = bar
    return tuple(found.values())


def without(bars: Sequence[Bar], taken: Sequence[Bar]) -> list[Bar]:
    """The bars less those taken, of which there is one each; those to buy stay."""
    gone = {bar.id for bar in taken if bar.supply is not None}
    return [bar for bar in bars if bar.id not in gone]
