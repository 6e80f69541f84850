"""What is left of a sheet when its blanks are out of it: the offcuts that are worth keeping."""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.shapes.outline import Outline, polygon
from hollowright.shapes.polygons import rests
from hollowright.shapes.webs import compact

LONG = 2.0
"""An offcut is at least so many times as long as it is wide at least: by its area."""

MOST_CORNERS = 40
"""An offcut is kept as a polygon of about so many corners at most, cut smaller to make it so."""


def offcuts(
    sheet: Outline, blanks: Sequence[Outline], kerf: float, least: float
) -> tuple[Outline, ...]:
    """The offcuts of a sheet, largest first; none overlaps a blank or the kerf round it.

    What is left in one ragged piece is cut straight across at its necks, so that no two overlap
    each other's kerf either. blanks: as they lie on the sheet. kerf: what the saw takes [mm];
    least: what is narrower [mm], or hasn't the area of a strip so wide and twice as long, is waste.
    """
    area = LONG * least * least
    pieces = compact(rests(sheet, blanks, kerf, least), kerf, least, area, MOST_CORNERS)
    found = (
        Outline(polygon(edge).segments, tuple(polygon(hole) for hole in holes))
        for edge, *holes in pieces
    )
    return tuple(sorted((o for o in found if o.area >= area), key=lambda each: -each.area))
