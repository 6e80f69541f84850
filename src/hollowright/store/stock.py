"""The drawer's metal as the planner wants it: sheets to lay out on, bars to saw from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import Column, ColumnElement, Connection, and_, or_, select, true

from hollowright.plan.bars import Bar
from hollowright.plan.laid import Sheet
from hollowright.store.checks import plain_temper
from hollowright.store.items import FLAT_FORMS, SECTIONS, Item
from hollowright.store.rows import item_of
from hollowright.store.tables import items

NEAR = 1e-9
"""Sizes are compared so loosely [mm], since they were reckoned in binary."""


def sheet_of(item: Item) -> Sheet:
    """A sheet or strip of the drawer, to lay blanks out on."""
    return Sheet(
        item.id,
        item.label,
        "drawer",
        item.metal,
        item.thickness or 0.0,
        item.shape,
        item.temper,
        item.grain,
        item.cost,
    )


def bar_of(item: Item) -> Bar:
    """A tube, rod or strip of the drawer, to saw from."""
    return Bar(
        item.id,
        item.label,
        "drawer",
        item.form,
        item.metal,
        item.sizes,
        item.length or 0.0,
        item.temper,
        item.square_ends,
        item.cost,
    )


def sheets(
    connection: Connection, metal: str, thickness: float, temper: str, tolerance: float
) -> tuple[Sheet, ...]:
    """Sheets and strips of a metal, thickness and temper that lie in the drawer, by number."""
    wanted = (
        items.c.form.in_(FLAT_FORMS),
        items.c.metal == metal,
        _near(items.c.thickness, thickness, tolerance),
    )
    return tuple(sheet_of(item) for item in _found(connection, wanted, temper))


def bars(
    connection: Connection,
    form: str,
    metal: str,
    sizes: Mapping[str, float],
    temper: str,
    tolerance: float,
) -> tuple[Bar, ...]:
    """Bars of a form, metal, section [mm] and temper that lie in the drawer, by number."""
    near = [
        _near(items.c[name], sizes[name], tolerance) for name in SECTIONS[form] if name in sizes
    ]
    wanted = (items.c.form == form, items.c.metal == metal, *near)
    whole = (
        item for item in _found(connection, wanted, temper) if item.outline is None
    )  # a strip cut out of shape is no bar
    return tuple(map(bar_of, whole))


def _near(column: Column[Any], size: float, tolerance: float) -> ColumnElement[bool]:
    return column.between(size - tolerance - NEAR, size + tolerance + NEAR)


def _found(
    connection: Connection, wanted: Sequence[ColumnElement[bool]], temper: str
) -> tuple[Item, ...]:
    plain = plain_temper(temper)
    tempered = or_(items.c.temper == "", items.c.temper == plain) if plain else true()
    query = select(items).where(and_(items.c.gone.is_(None), *wanted, tempered))
    rows = connection.execute(query.order_by(items.c.number)).mappings()
    return tuple(item_of(row) for row in rows)
