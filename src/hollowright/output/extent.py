"""How much room items take on the paper, text about as wide as it comes out."""

from __future__ import annotations

import math
from collections.abc import Iterable

from hollowright.output.dimensions import drawn
from hollowright.output.drawing import Item, Label, Path, text_width
from hollowright.shapes.curves import Bounds, around, union

DESCENT = 0.35  # of the height of capitals: how far letters hang below the baseline


def extent(items: Iterable[Item]) -> Bounds:
    """Bounds of items [mm], lines taken as thin."""
    return union(_bounds(item) for item in items)


def _bounds(item: Item) -> Bounds:
    if isinstance(item, Path):
        return item.bounds()
    if isinstance(item, Label):
        return label_box(item)
    return extent(drawn(item))


def label_box(label: Label) -> Bounds:
    """Bounds of a label [mm], turned as it is."""
    width = text_width(label.text, label.height)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    c, s = math.cos(label.angle), math.sin(label.angle)
    corners = [
        (x, y) for x in (left, left + width) for y in (-DESCENT * label.height, label.height)
    ]
    return around((label.at[0] + x * c - y * s, label.at[1] + x * s + y * c) for x, y in corners)
