"""What is left of a sheet when its blanks are out of it: the offcuts that are worth keeping."""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.shapes.inwards import fewer_corners
from hollowright.shapes.outline import Outline, polygon
from hollowright.shapes.polygons import rests

LONG = 2.0
"""An offcut is at least so many times as long as it is wide at least: by its area."""

MOST_CORNERS = 40
"""An offcut is kept as a polygon of about so many corners at most, cut smaller to make it so."""


def offcuts(
    sheet: Outline, blanks: Sequence[Outline], kerf: float, least: float
) -> tuple[Outline, ...]:
    """The offcuts of a sheet, largest first; none overlaps a blank or the kerf round it.

    blanks: as they lie on the sheet. kerf: what the saw takes [mm]; least: what is narrower [mm],
    or hasn't the area of a strip so wide and twice as long, is waste.
    """
    found = []
    for rings in rests(sheet, blanks, kerf, least):
        edge, *holes = fewer_corners(rings, MOST_CORNERS)
        outline = polygon(edge)
        whole = Outline(outline.segments, tuple(polygon(hole) for hole in holes))
        if whole.area >= LONG * least * least:
            found.append(whole)
    return tuple(sorted(found, key=lambda each: -each.area))
