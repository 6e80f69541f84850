"""Ellipses and regular polygons from the sizes that are measured on them."""

from __future__ import annotations

import math

from hollowright.shapes.curves import TURN, EllipseArc, Point
from hollowright.shapes.outline import Outline, polygon, positive


def ellipse(length: float, width: float) -> Outline:
    """A true ellipse round 0, 0, `length` along x and `width` along y [mm].

    >>> oval = ellipse(60, 40)
    >>> round(oval.perimeter, 6), round(oval.area, 6)
    (158.654396, 1884.955592)
    """
    positive(length=length, width=width)
    half, across = (length / 2, 0.0), (0.0, width / 2)
    return Outline((EllipseArc((0.0, 0.0), half, across, 0.0, TURN),))


def regular_polygon(sides: int, across_flats: float) -> Outline:
    """A regular polygon round 0, 0 with a flat at the bottom [mm].

    `across_flats` is measured between opposite flats; for an odd number of sides, which has none,
    it is the diameter of the circle that touches every flat from inside.

    >>> hexagon = regular_polygon(6, 40)
    >>> round(hexagon.perimeter, 6), round(hexagon.height, 6)
    (138.564065, 40.0)
    """
    positive(across_flats=across_flats)
    if sides < 3:
        raise ValueError(f"sides must be 3 or more, not {sides}")
    radius = across_flats / 2 / math.cos(math.pi / sides)
    first = -math.pi / 2 - math.pi / sides

    def corner(i: int) -> Point:
        angle = first + TURN * i / sides
        return (radius * math.cos(angle), radius * math.sin(angle))

    return polygon([corner(i) for i in range(sides)])
