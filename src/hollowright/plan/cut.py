"""Pass: net becomes cut size, here and nowhere else: dressing, guard, truing, rims, kerfs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from hollowright.errors import PlanRefused
from hollowright.formulas import allowance
from hollowright.piece import Part, Stock
from hollowright.plan.plan import Cut, Plan
from hollowright.quantity import Quantity, exact, total
from hollowright.shapes.grown import fits_in, grown
from hollowright.shapes.outline import disc, rectangle
from hollowright.shop import Shop
from hollowright.units import format_number


def cut(plan: Plan) -> Plan:
    """The plan with every part's cut size and every bar's need; refused when a bar is too short."""
    guards = {result.fit.part: result.left_on for result in plan.fits}
    cuts = {part.id: cut_of(part, plan.shop, guards) for part in plan.parts}
    quantities = dict(plan.quantities)
    for part in plan.parts:
        for name, size in cuts[part.id].sizes.items():
            if size.id == f"{part.id}_cut_{name}":
                quantities[size.id] = size
    for stock in plan.piece.stocks:
        if stock.bar:
            need = bar_need(stock, plan.parts, cuts, plan.shop)
            quantities[need.id] = need
            _long_enough(plan, stock, need)
        else:
            _on_the_sheet(plan, stock, cuts)
    for id in ("truing", "kerf"):
        quantities[id] = plan.shop.quantity(id)
    return replace(plan, quantities=quantities, cuts=cuts)


def cut_of(part: Part, shop: Shop, guards: Mapping[str, Quantity]) -> Cut:
    """A part's blank at the size to cut."""
    form = part.blank.form
    if form == "strip":
        return _strip(part, shop, guards.get(part.id))
    if form == "disc":
        return _disc(part, shop)
    return _plate(part, shop) if form == "plate" else _bar(part, shop)


def _strip(part: Part, shop: Shop, guard: Quantity | None) -> Cut:
    sizes, name = part.blank.to_cut, part.name
    guard = guard or exact("", "no guard", "mm", 0.0, "shop")
    dressing = shop.quantity("seam_dressing" if part.blank.closes else "edge_dressing")
    length = allowance.strip_cut(sizes["length"], dressing, guard).named(
        f"{part.id}_cut_length", f"{name} cut length"
    )
    edges = shop.quantity("edge_dressing")
    if part.blank.parted:
        cuts = exact("", f"{part.blank.parted}", "", part.blank.parted, "constant")
        wide = allowance.parted_cut(
            sizes["width"], edges, cuts, shop.quantity("kerf"), shop.quantity("truing")
        )
    else:
        wide = allowance.edge_cut(sizes["width"], edges)
    width = wide.named(f"{part.id}_cut_width", f"{name} cut width")
    return Cut(rectangle(length.value, width.value), {"length": length, "width": width})


def _disc(part: Part, shop: Shop) -> Cut:
    net = part.blank.to_cut["diameter"]
    rim: Quantity | float = shop.quantity(part.blank.rim) if part.blank.trimmed else 0.0
    size = allowance.trimmed_cut(net, rim).named(
        f"{part.id}_cut_diameter", f"{part.name} cut diameter"
    )
    return Cut(disc(size.value), {"diameter": size})


GROWS = {"length": 2, "width": 2, "diameter": 2}
"""By how many margins a plate's size grows, where the blank doesn't say."""


def _plate(part: Part, shop: Shop) -> Cut:
    """A flat of any outline, larger by one margin all round, its holes smaller by it."""
    blank = part.blank
    margin = allowance.margin(shop.quantity(blank.rim), 1.0) if blank.trimmed else (
        allowance.margin(shop.quantity("edge_dressing"), 0.5))  # fmt: skip
    grows = {**GROWS, **blank.grows}
    sizes = {
        name: _grown(part, name, size, grows.get(name, 0), margin)
        for name, size in blank.to_cut.items()
    }
    return Cut(grown(blank.outline, margin.value), sizes)


def _grown(part: Part, name: str, size: Quantity, times: int, margin: Quantity) -> Quantity:
    """A plate's size with so many margins added, or taken off."""
    if times == 0:
        return size
    if times < 0:
        made = allowance.shrunk_cut(size, float(-times), margin)
    else:
        made = allowance.grown_cut(size, float(times), margin)
    return made.named(f"{part.id}_cut_{name}", f"{part.name} cut {name.replace('_', ' ')}")


def _bar(part: Part, shop: Shop) -> Cut:
    sizes = part.blank.to_cut
    ends = exact("", f"{part.blank.sawn_ends}", "", part.blank.sawn_ends, "constant")
    length = allowance.trued_cut(sizes["length"], ends, shop.quantity("truing")).named(
        f"{part.id}_cut_length", f"{part.name} cut length"
    )
    outline = rectangle(sizes["diameter"].value, length.value)
    return Cut(outline, {"diameter": sizes["diameter"], "length": length})


def bar_need(
    stock: Stock, parts: tuple[Part, ...], cuts: Mapping[str, Cut], shop: Shop
) -> Quantity:
    """Length of a bar that its parts need, kerfs and truing included [mm]."""
    lengths = [
        cuts[part.id].sizes["length"]
        for part in parts
        if part.stock == stock.id
        for _ in range(part.count)
    ]
    saw = exact("", f"{stock.cuts}", "", stock.cuts, "constant")
    pieces = total("", "", lengths)
    return allowance.bar_needed(pieces, saw, shop.quantity("kerf")).named(
        f"{stock.id}_needed", f"{stock.label} needed"
    )


def _long_enough(plan: Plan, stock: Stock, need: Quantity) -> None:
    """Refuse a bar that is too short, unless it is sawn already (its parts have been read)."""
    sawn = {change.id for change in plan.piece.changes}
    if stock.length is None or sawn & set(stock.sawn_once):
        return
    short = need.value - stock.length.value
    if short > 0:
        raise PlanRefused(
            f"{stock.path}.length",
            f"the {stock.label} is {format_number(stock.length.value)} mm and "
            f"{format_number(need.value)} mm are needed: {_said(short)} mm too short.",
            "Take a longer one, make the piece smaller, or leave its length out: "
            "hollowright cutlist then shares the pieces out over several.",
        )


def _said(short: float) -> str:
    """How much is lacking, never as nothing [mm]."""
    return format_number(short) if short >= 0.005 else "less than 0.01"


def _on_the_sheet(plan: Plan, stock: Stock, cuts: Mapping[str, Cut]) -> None:
    """Refuse a sheet that can't hold one of its blanks, or has less metal than all of them.

    A quick check of sizes and areas; `plan/layout` tells whether they really go on it side by side.
    """
    if stock.length is None or stock.width is None:
        return
    mine = [part for part in plan.parts if part.stock == stock.id]
    room = sorted((stock.length.value, stock.width.value))
    said = f"{format_number(stock.length.value)} x {format_number(stock.width.value)} mm"
    for part in mine:
        outline = cuts[part.id].outline
        if not fits_in(outline, *room):
            raise PlanRefused(
                f"{stock.path}.length",
                f"the {part.name} is cut {format_number(outline.width)} x "
                f"{format_number(outline.height)} mm and the {stock.label} is {said}.",
                "Take a larger sheet, or make the piece smaller.",
            )
    area = sum(part.count * cuts[part.id].outline.area for part in mine)
    if area > room[0] * room[1]:
        raise PlanRefused(
            f"{stock.path}.length",
            f"the blanks have {format_number(area, 0)} mm2 and the {stock.label} of {said} has "
            f"{format_number(room[0] * room[1], 0)} mm2.",
            "Take a larger sheet, make the piece smaller, or leave its length and width out: "
            "hollowright layout then lays the blanks out on several.",
        )
