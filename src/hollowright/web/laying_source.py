"""Where the layout page's tasks come from: the pieces asked for, and the metal there is."""

from __future__ import annotations

from dataclasses import replace

from hollowright.plan.buying import sold_sheets
from hollowright.plan.laid import Rules, Task
from hollowright.plan.orders import Order, batches, orders
from hollowright.shop import Shop
from hollowright.shop.sold import default_sold
from hollowright.web.laying_ask import Ask


def ordered(ask: Ask) -> tuple[Order, ...]:
    """The pieces asked for, each so many times."""
    named = orders([each.plan for each in ask.pieces])
    return tuple(
        replace(order, copies=piece.copies) for order, piece in zip(named, ask.pieces, strict=True)
    )


def tasks(ask: Ask, shop: Shop) -> tuple[Task, ...]:
    """What is to be laid out, a task for each metal, thickness and temper."""
    tolerance = 0.03
    rules = rules_of(ask, shop)
    found = []
    for batch in batches(ordered(ask), tolerance):
        sheets = sold_sheets(default_sold(), batch.metal, batch.thickness, batch.temper, tolerance)
        ids = {flat.id for flat in batch.flats}
        pins = tuple(pin for pin in ask.pins if pin.item in ids)
        found.append(Task(batch, sheets, rules, pins))
    return tuple(found)


def rules_of(ask: Ask, shop: Shop) -> Rules:
    """How blanks may lie: the shop's gaps, the turning that was chosen."""
    return Rules(
        shop.value("kerf"),
        shop.value("sheet_margin"),
        shop.value("offcut_least"),
        ask.turning,
        ask.turning_of,
        ask.over,
    )
