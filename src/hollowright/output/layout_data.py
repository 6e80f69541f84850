"""Layouts as JSON: where every blank lies, what is taken, bought, kept, wasted and missing.

Lengths mm, areas mm2, masses g, turns degrees anticlockwise; money in the shop's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from hollowright.output.data import number
from hollowright.output.layout_words import least_area
from hollowright.plan.laid import LaidSheet, Layout, NotLaid, Rules
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import Outline

Data = dict[str, Any]
FINE = 0.01
"""How far the points of an outline may lie off its curves [mm]."""


def layouts_data(layouts: Sequence[Layout], keys: Sequence[str] = ()) -> Data:
    """Layouts as plain dictionaries, lists, texts and numbers.

    keys: what each is stored by, where it is.
    """
    named = [*keys, *[""] * (len(layouts) - len(keys))]
    batches = [_batch(layout, key) for layout, key in zip(layouts, named, strict=True)]
    return {"batches": batches, "totals": _totals(layouts)}


def _batch(layout: Layout, key: str) -> Data:
    batch = layout.task.batch
    return {
        "id": batch.id,
        "metal": batch.metal.id,
        "thickness": number(batch.thickness),
        "temper": batch.temper,
        "blanks": [
            {"id": each.id, "order": each.order.key, "part": each.part.id, "name": each.name,
             "count": each.count, "area": number(each.outline.area)}
            for each in batch.flats
        ],
        "sheets": [_sheet(layout, laid) for laid in layout.sheets],
        "bought": [_bought(list(group)) for group in _kinds(layout)],
        "missing": [_missing(layout, lost) for lost in layout.missing],
        "bound": number(layout.bound),
        "bound_text": layout.bound_text,
        "blanks_area": number(least_area(layout)),
        "taken": number(layout.taken),
        "found": layout.found,
        "seconds": number(layout.seconds),
        "cautions": [caution.text for caution in layout.cautions],
        "key": key,
        "rules": _rules(layout.task.rules),
    }  # fmt: skip


def _sheet(layout: Layout, laid: LaidSheet) -> Data:
    sheet = laid.sheet
    return {
        "id": laid.id,
        "label": sheet.label,
        "origin": sheet.origin,
        "cost": None if sheet.cost is None else number(sheet.cost),
        "grain": None if sheet.grain is None else number(sheet.grain),
        **_outline(sheet.outline),
        "spots": [_spot(layout, spot) for spot in laid.spots],
        "offcuts": [{**_outline(each), "area": number(each.area)} for each in laid.offcuts],
        "area": number(laid.area),
        "used": number(laid.used),
        "kept": number(laid.kept),
        "waste": number(laid.waste),
        "density": number(laid.density),
        "mass_used": number(layout.grams(laid.used)),
        "mass_kept": number(layout.grams(laid.kept)),
        "mass_waste": number(layout.grams(laid.waste)),
    }


def _outline(outline: Outline) -> Data:
    return {"outline": _points(outline), "holes": [_points(hole) for hole in outline.holes]}


def _points(edge: Outline) -> list[list[float]]:
    return [[number(x), number(y)] for x, y in edge.points(FINE)]


def _spot(layout: Layout, spot: Spot) -> Data:
    flat = layout.task.batch.flat(spot.item)
    return {
        "blank": spot.item,
        "order": flat.order.key,
        "part": flat.part.id,
        "x": number(spot.x),
        "y": number(spot.y),
        "turn": number(spot.turn),
        "mirrored": spot.mirrored,
        "pinned": spot.pinned,
        **_outline(spot.place(flat.outline)),
    }


def _kinds(layout: Layout) -> list[list[LaidSheet]]:
    """The sheets to buy, those of one kind together."""
    ordered = sorted(layout.bought, key=lambda each: each.sheet.id)
    return [list(group) for _, group in groupby(ordered, key=lambda each: each.sheet.id)]


def _bought(kind: Sequence[LaidSheet]) -> Data:
    sheet = kind[0].sheet
    return {
        "id": sheet.id,
        "label": sheet.label,
        "count": len(kind),
        "cost": None if sheet.cost is None else number(sheet.cost),
        "cost_of_all": None if sheet.cost is None else number(sheet.cost * len(kind)),
    }


def _missing(layout: Layout, lost: NotLaid) -> Data:
    flat = layout.task.batch.flat(lost.flat)
    return {
        "blank": lost.flat,
        "order": flat.order.key,
        "part": flat.part.id,
        "count": lost.count,
        "why": lost.why,
        "remedy": lost.remedy,
    }


def _rules(rules: Rules) -> Data:
    return {
        "between": number(rules.between),
        "edge": number(rules.edge),
        "offcut_least": number(rules.offcut_least),
        "turning": rules.turning,
        "turning_of": dict(rules.turning_of),
        "over": list(rules.over),
        "turned_over": rules.turned_over,
    }


def _totals(layouts: Sequence[Layout]) -> Data:
    """Sums over all batches; the cost is null where a price isn't known."""
    sheets = [(layout, laid) for layout in layouts for laid in layout.sheets]
    costs = [laid.sheet.cost for layout in layouts for laid in layout.bought]
    known = [cost for cost in costs if cost is not None]
    return {
        "sheets": len(sheets),
        "bought": len(costs),
        "cost": number(sum(known)) if len(known) == len(costs) else None,
        "missing": sum(lost.count for layout in layouts for lost in layout.missing),
        **{
            f"mass_{name}": number(sum(each.grams(getattr(laid, name)) for each, laid in sheets))
            for name in ("used", "kept", "waste")
        },
    }
