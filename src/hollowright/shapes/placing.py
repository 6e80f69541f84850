"""Outlines and curves turned over, turned round and shifted: how a flat lies on a sheet."""

from __future__ import annotations

import math

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Curve, EllipseArc, Line, Point
from hollowright.shapes.outline import Outline


def placed(
    outline: Outline, x: float, y: float, turn: float = 0.0, mirrored: bool = False
) -> Outline:
    """The outline as it lies: turned over left to right, turned, then shifted.

    turn: anticlockwise round 0, 0 [deg]; x, y: the shift [mm]; mirrored: x becomes -x first.
    """
    segments = tuple(placed_curve(each, x, y, turn, mirrored) for each in outline.segments)
    holes = tuple(placed(hole, x, y, turn, mirrored) for hole in outline.holes)
    return Outline(segments, holes)


def placed_point(
    point: Point, x: float, y: float, turn: float = 0.0, mirrored: bool = False
) -> Point:
    """Where a point of the outline comes to lie [mm].

    >>> placed_point((3.0, 1.0), 10.0, 20.0, 90.0)
    (9.0, 23.0)
    """
    c, s = cosine_and_sine(turn)
    across, up = (-point[0] if mirrored else point[0]), point[1]
    return (across * c - up * s + x, across * s + up * c + y)


def cosine_and_sine(turn: float) -> tuple[float, float]:
    """Cosine and sine of a turn [deg], exact at the quarters."""
    quarters = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    angle = turn % 360.0
    if angle in quarters:
        return quarters[angle]
    return math.cos(math.radians(angle)), math.sin(math.radians(angle))


def placed_curve(
    curve: Curve, x: float, y: float, turn: float = 0.0, mirrored: bool = False
) -> Curve:
    """One curve as it comes to lie."""

    def at(point: Point) -> Point:
        return placed_point(point, x, y, turn, mirrored)

    def heading(angle: float) -> float:
        return (math.pi - angle if mirrored else angle) + math.radians(turn)

    side = -1.0 if mirrored else 1.0
    if isinstance(curve, Line):
        return Line(at(curve.start), at(curve.end))
    if isinstance(curve, Arc):
        start, sweep = heading(curve.start_angle), side * curve.sweep
        return Arc(at(curve.centre), curve.radius, start, sweep)
    if isinstance(curve, EllipseArc):
        major, minor = (placed_point(way, 0.0, 0.0, turn, mirrored) for way in _axes(curve))
        return EllipseArc(at(curve.centre), major, minor, curve.start_angle, curve.sweep)
    if isinstance(curve, Cubic):
        return Cubic(at(curve.start), at(curve.control), at(curve.control_end), at(curve.end))
    raise TypeError(f"a curve of unknown kind: {type(curve).__name__}")


def _axes(curve: EllipseArc) -> tuple[Point, Point]:
    return curve.major, curve.minor
