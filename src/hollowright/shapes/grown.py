"""A flat cut larger all round, and whether it goes on a sheet."""

from __future__ import annotations

import math

from hollowright.shapes.curves import Line
from hollowright.shapes.outline import Outline, rectangle

STEP = math.radians(1)
"""A flat is tried on a sheet at turns so far apart."""


def grown(outline: Outline, margin: float) -> Outline:
    """The outline larger by a margin all round [mm], its holes smaller; a tiny hole closes.

    Corners of an upright rectangle stay sharp, others get an arc of the margin, so that width and
    height grow by exactly two margins.
    """
    if margin == 0:
        return outline
    low_x, low_y, _, _ = outline.bounds
    if _upright(outline):
        wide, high = outline.width + 2 * margin, outline.height + 2 * margin
        return rectangle(wide, high).moved(low_x - margin, low_y - margin)
    from hollowright.shapes.offset import offset_pieces

    return offset_pieces(outline, margin, "round")[0]


def _upright(outline: Outline) -> bool:
    """Whether it is a rectangle with level sides and without holes."""
    if outline.holes or len(outline.segments) != 4:
        return False
    box = outline.width * outline.height
    lines = all(isinstance(each, Line) for each in outline.segments)
    return lines and abs(outline.area - box) < 1e-9 * box


def fits_in(outline: Outline, width: float, length: float) -> bool:
    """Whether an outline goes on a sheet [mm], turned as it likes by whole degrees."""
    short, long = sorted((width, length))
    if (min(outline.width, outline.height) <= short + 1e-9
            and max(outline.width, outline.height) <= long + 1e-9):  # fmt: skip
        return True
    if outline.area > width * length:
        return False
    points = outline.points(0.05)
    for turn in range(1, 180):
        c, s = math.cos(turn * STEP), math.sin(turn * STEP)
        xs = [x * c + y * s for x, y in points]
        ys = [y * c - x * s for x, y in points]
        across, up = max(xs) - min(xs), max(ys) - min(ys)
        if across <= width and up <= length:
            return True
    return False
