"""Pass: net becomes cut size, here and nowhere else: dressing, guard, truing, rims, kerfs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from hollowright.errors import PlanRefused
from hollowright.formulas import allowance
from hollowright.piece import Part, Stock
from hollowright.plan.plan import Cut, Plan
from hollowright.quantity import Quantity, exact, total
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
        if stock.form == "tube":
            need = bar_need(stock, plan.parts, cuts, plan.shop)
            quantities[need.id] = need
            _long_enough(plan, stock, need)
    for id in ("truing", "kerf"):
        quantities[id] = plan.shop.quantity(id)
    return replace(plan, quantities=quantities, cuts=cuts)


def cut_of(part: Part, shop: Shop, guards: Mapping[str, Quantity]) -> Cut:
    """A part's blank at the size to cut."""
    if part.blank.form == "strip":
        return _strip(part, shop, guards.get(part.id))
    return _disc(part, shop) if part.blank.form == "disc" else _tube(part, shop)


def _strip(part: Part, shop: Shop, guard: Quantity | None) -> Cut:
    sizes, name = part.blank.to_cut, part.name
    guard = guard or exact("", "no guard", "mm", 0.0, "shop")
    dressing = shop.quantity("seam_dressing" if part.blank.closes else "edge_dressing")
    length = allowance.strip_cut(sizes["length"], dressing, guard).named(
        f"{part.id}_cut_length", f"{name} cut length"
    )
    width = allowance.edge_cut(sizes["width"], shop.quantity("edge_dressing")).named(
        f"{part.id}_cut_width", f"{name} cut width"
    )
    return Cut(rectangle(length.value, width.value), {"length": length, "width": width})


def _disc(part: Part, shop: Shop) -> Cut:
    net = part.blank.to_cut["diameter"]
    rim: Quantity | float = shop.quantity("cap_rim") if part.blank.trimmed else 0.0
    size = allowance.trimmed_cut(net, rim).named(
        f"{part.id}_cut_diameter", f"{part.name} cut diameter"
    )
    return Cut(disc(size.value), {"diameter": size})


def _tube(part: Part, shop: Shop) -> Cut:
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
    if stock.length is None or sawn & {"lid_depth", "body_length"}:
        return
    short = need.value - stock.length.value
    if short > 0:
        raise PlanRefused(
            f"stock.{stock.id}.length",
            f"the {stock.label} is {format_number(stock.length.value)} mm and "
            f"{format_number(need.value)} mm are needed: {format_number(short)} mm too short.",
            "Take a longer one, or make the piece lower.",
        )
