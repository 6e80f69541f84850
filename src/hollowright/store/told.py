"""Items and cuttings as plain data, for JSON and for tables."""

from __future__ import annotations

from typing import Any

from hollowright.shapes.outline_json import outline_data
from hollowright.store.items import MEASURES, Change, Cutting, Item, Page

EXCHANGED = (
    "number", "form", "metal", "temper", *MEASURES, "outline", "grain", "square_ends", "place",
    "cost", "note", "readings", "cut_from", "added", "gone", "gone_how", "gone_why",
)  # fmt: skip
"""What of an item goes into a file and comes back from it, in this order."""


def exchanged(item: Item) -> dict[str, Any]:
    """An item as it goes into a file; lengths mm, times UTC, the outline exact."""
    found = {name: getattr(item, name) for name in EXCHANGED}
    for name in ("added", "gone"):
        found[name] = found[name].isoformat() if found[name] else None
    found["outline"] = outline_data(item.outline) if item.outline else None
    found["readings"] = {name: list(texts) for name, texts in item.readings.items()}
    return found


def item_data(item: Item) -> dict[str, Any]:
    """An item as it is shown: as in a file, and its label, area [mm2], cuttings."""
    return exchanged(item) | {
        "label": item.label,
        "area": item.area,
        "came_by": item.came_by,
        "gone_by": item.gone_by,
    }


def page_data(page: Page) -> dict[str, Any]:
    """A page of items."""
    return {
        "page": page.page,
        "pages": page.pages,
        "total": page.total,
        "items": [item_data(item) for item in page.items],
    }


def change_data(change: Change) -> dict[str, Any]:
    """A line of the record."""
    return {"at": change.at.isoformat(), "what": change.what, "told": dict(change.told)}


def cutting_data(cutting: Cutting) -> dict[str, Any]:
    """A cutting with what it was cut by."""
    return {
        "number": cutting.number,
        "at": cutting.at.isoformat(),
        "made_for": cutting.made_for,
        "kind": cutting.kind,
        "out": list(cutting.out),
        "came_in": list(cutting.came_in),
        "undone": cutting.undone.isoformat() if cutting.undone else None,
        "data": dict(cutting.data),
    }
