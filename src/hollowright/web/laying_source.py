"""Where the layout page's tasks come from: the pieces asked for, and the metal there is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from hollowright.errors import HollowrightError
from hollowright.job.laying import tasks as tasks_of
from hollowright.plan.bar_strips import could_be_strip
from hollowright.plan.laid import Sheet, Task
from hollowright.plan.orders import Order, batches, orders
from hollowright.shop import Shop
from hollowright.web.drawer_door import Door
from hollowright.web.laying_ask import Ask


def ordered(ask: Ask) -> tuple[Order, ...]:
    """The pieces asked for, each so many times."""
    named = orders([each.plan for each in ask.pieces])
    return tuple(
        replace(order, copies=piece.copies) for order, piece in zip(named, ask.pieces, strict=True)
    )


def could_strip(wanted: Sequence[Order]) -> tuple[str, ...]:
    """The flat blanks that could be sawn from strip, by id."""
    return tuple(
        f"{order.key}.{part.id}"
        for order in wanted
        for part in order.plan.parts
        if could_be_strip(part, order.plan.cuts[part.id])
    )


def strips_of(ask: Ask, wanted: Sequence[Order]) -> tuple[str, ...]:
    """Those chosen to be sawn from strip, without any that isn't there."""
    return tuple(id for id in could_strip(wanted) if id in ask.strips)


def tasks(ask: Ask, shop: Shop, door: Door) -> tuple[Task, ...]:
    """What is to be laid out, a task for each metal, thickness and temper.

    door: to the drawer, whose sheets come first; where it can't be opened it goes on without.
    """
    wanted = ordered(ask)
    known = {f"{order.key}.{part.id}" for order in wanted for part in order.plan.parts}
    single = [f"{id}={rule}" for id, rule in ask.turning_of.items() if id in known]
    over = [id for id in ask.over if id in known]
    drawer = drawer_sheets(wanted, shop, door) if ask.drawer else ()
    strips = strips_of(ask, wanted)
    return tasks_of(wanted, shop, drawer, None, [ask.turning, *single], over, ask.pins, strips)


def drawer_sheets(wanted: Sequence[Order], shop: Shop, door: Door) -> tuple[Sheet, ...]:
    """The drawer's sheets that blanks could come out of; none where it can't be opened."""
    tolerance = shop.value("sheet_tolerance")
    found: dict[str, Sheet] = {}
    try:
        store = door.opened()
        for batch in batches(wanted, tolerance):
            about = (batch.metal.id, batch.thickness, batch.temper, tolerance)
            found |= {sheet.id: sheet for sheet in store.sheets_for(*about)}
    except HollowrightError:
        return ()  # the page says why: Bench.drawer_fault
    return tuple(found.values())
