"""The drawer's metal as the planner wants it: sheets to lay out on, bars to saw from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from sqlalchemy import Column, ColumnElement, Connection, and_, or_, select, true

from hollowright.plan.bars import Bar
from hollowright.plan.laid import Sheet
from hollowright.shapes.outline import Outline, rectangle
from hollowright.store.checks import plain_temper
from hollowright.store.items import FLAT_FORMS, MEASURES, PREFIX, SECTIONS, label_of
from hollowright.store.rows import outline_of
from hollowright.store.tables import items

NEAR = 1e-9
"""Sizes are compared so loosely [mm], since they were reckoned in binary."""


_SHEET = ("number", "place", "metal", "thickness", "outline", "length", "width", "temper", "grain",
          "cost")  # fmt: skip
_BAR = ("number", "place", "form", "metal", *MEASURES, "temper", "square_ends", "cost")


def sheet_of(row: Mapping[Any, Any]) -> Sheet:
    """A sheet or strip of the drawer, to lay blanks out on."""
    outline = row["outline"]
    shape = _plain(row["length"], row["width"]) if outline is None else outline_of(outline)
    number = row["number"]
    return Sheet(
        f"{PREFIX}{number}", label_of(number, row["place"]), "drawer", row["metal"],
        row["thickness"], shape, row["temper"], row["grain"], row["cost"],
    )  # fmt: skip


@lru_cache(maxsize=4096)
def _plain(length: float, width: float) -> Outline:
    return rectangle(length, width)


def bar_of(row: Mapping[Any, Any]) -> Bar:
    """A tube, rod or strip of the drawer, to saw from."""
    number, form = row["number"], row["form"]
    sizes = {name: row[name] for name in SECTIONS[form]}
    return Bar(
        f"{PREFIX}{number}", label_of(number, row["place"]), "drawer", form, row["metal"], sizes,
        row["length"], row["temper"], row["square_ends"], row["cost"],
    )  # fmt: skip


def sheets(
    connection: Connection, metal: str, thickness: float, temper: str, tolerance: float
) -> tuple[Sheet, ...]:
    """Sheets and strips of a metal, thickness and temper that lie in the drawer, by number."""
    wanted = (
        items.c.form.in_(FLAT_FORMS),
        items.c.metal == metal,
        _near(items.c.thickness, thickness, tolerance),
    )
    return tuple(map(sheet_of, _found(connection, _SHEET, wanted, temper)))


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
    wanted = (items.c.form == form, items.c.metal == metal, items.c.outline.is_(None), *near)
    return tuple(map(bar_of, _found(connection, _BAR, wanted, temper)))


def _near(column: Column[Any], size: float, tolerance: float) -> ColumnElement[bool]:
    return column.between(size - tolerance - NEAR, size + tolerance + NEAR)


def _found(
    connection: Connection,
    names: Sequence[str],
    wanted: Sequence[ColumnElement[bool]],
    temper: str,
) -> Sequence[Mapping[Any, Any]]:
    plain = plain_temper(temper)
    tempered = or_(items.c.temper == "", items.c.temper == plain) if plain else true()
    query = select(*(items.c[name] for name in names))
    query = query.where(and_(items.c.gone.is_(None), *wanted, tempered)).order_by(items.c.number)
    return connection.execute(query).mappings().all()
