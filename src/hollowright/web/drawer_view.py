"""The drawer as its page shows it: a line an item with its shape, an item's record, cuttings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from hollowright.handbook.metals import metal
from hollowright.output.svg import number, path_data
from hollowright.store import Change, Item, Page
from hollowright.units import format_number

TAKEN_BACK = "taken back"
"""What came of a cutting that was undone, in the bench's word."""

GRAIN = {0.0: "along its length", 90.0: "along its width"}


@dataclass(frozen=True)
class Shape:
    """A flat item's outline as a picture: the box it is drawn in, its path."""

    box: str
    path: str


def shape(item: Item) -> Shape | None:
    """The picture of a sheet or an offcut; None for a bar."""
    if not item.flat:
        return None
    outline = item.shape
    low_x, low_y, _, _ = outline.bounds
    outline = outline.moved(-low_x, -low_y)
    rings = (outline, *outline.holes)
    path = "".join(path_data(ring.segments, outline.height) for ring in rings)
    edge = 0.03 * outline.size
    box = (-edge, -edge, outline.width + 2 * edge, outline.height + 2 * edge)
    return Shape(" ".join(number(each) for each in box), path)


def metal_name(id: str) -> str:
    """What a metal is called."""
    return metal(id).name


@dataclass(frozen=True)
class Asked:
    """What the list was asked for: words, form, metal, gone ones, which page."""

    text: str = ""
    form: str = ""
    metal: str = ""
    gone: bool = False
    page: int = 1

    def to(self, page: int) -> str:
        """The address of another page of the same list."""
        told = {"text": self.text, "form": self.form, "metal": self.metal}
        told |= {"gone": "yes" if self.gone else "", "page": str(page) if page > 1 else ""}
        query = urlencode({name: text for name, text in told.items() if text})
        return f"/drawer?{query}" if query else "/drawer"


def facts(item: Item) -> list[tuple[str, str]]:
    """What is known of an item besides its metal and size: name and words."""
    told = {
        "temper": item.temper,
        "rolled": "" if item.grain is None else GRAIN.get(item.grain, f"{item.grain:g}° to x"),
        "square ends": "" if item.flat else str(item.square_ends),
        "area": f"{item.area:,.0f} mm²" if item.outline else "",
        **{f"{n.replace('_', ' ')} read": "; ".join(t) for n, t in item.readings.items()},
        "place": item.place,
        "cost": "" if item.cost is None else format_number(item.cost),
        "note": item.note,
        "cut from": f"number {item.cut_from}" if item.cut_from else "",
        "gone": "" if item.there else gone_words(item),
    }
    return [(name, words) for name, words in told.items() if words]


def gone_words(item: Item) -> str:
    """How and why an item has gone."""
    if item.gone_how == "undone":
        return item.gone_why or TAKEN_BACK
    return f"{item.gone_how}, {item.gone_why}" if item.gone_why else item.gone_how


def record_lines(changes: Sequence[Change]) -> list[tuple[str, str]]:
    """When and what happened to an item."""
    return [(f"{change.at:%Y-%m-%d %H:%M}", _words(change)) for change in changes]


def _words(change: Change) -> str:
    told: Mapping[str, Any] = change.told
    if change.what != "changed":
        said = ", ".join(f"{name} {value}" for name, value in told.items() if value)
        what = TAKEN_BACK if change.what == "undone" else change.what
        return f"{what}{f': {said}' if said else ''}"
    return "changed: " + "; ".join(
        f"{name.replace('_', ' ')} {_short(old)} → {_short(new)}"
        for name, (old, new) in told.items()
    )


def _short(value: Any) -> str:
    text = "nothing" if value in (None, "", {}, []) else str(value)
    return text if len(text) <= 60 else f"{text[:59]}…"


def listed(page: Page) -> list[tuple[Item, Shape | None]]:
    """The items of a page with their pictures."""
    return [(item, shape(item)) for item in page.items]
