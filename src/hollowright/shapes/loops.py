"""Outlines as polygons fine enough for a mesh: within a tolerance, and no chord turning by over 8°.

A polygon's corner is sharp where two curves meet at an angle, not where a chord of one ends.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hollowright.shapes import along
from hollowright.shapes.curves import TURN, Arc, Curve, Line, Point, chords
from hollowright.shapes.meshes import CREASE, ROUND, SMOOTH

DEEPEST = 16  # how often a free curve is halved at most
FIRST = 4  # pieces that a free curve is looked at in
LOOKS = (0.25, 0.5, 0.75)  # shares of a stretch at which its chord is checked

Loop = tuple[list[Point], list[bool]]
"""Corners of a closed polygon [mm] and which of them are sharp."""


def loop(curves: Sequence[Curve], tolerance: float) -> Loop:
    """A closed chain of curves as a polygon: its corners [mm] and which of them are sharp."""
    points: list[Point] = []
    sharp: list[bool] = []
    for before, curve in zip([*curves[-1:], *curves[:-1]], curves, strict=True):
        found = followed(curve, tolerance)[:-1]
        points += found
        sharp += [_meets(before, curve) > CREASE, *[False] * (len(found) - 1)]
    return points, sharp


def followed(curve: Curve, tolerance: float) -> list[Point]:
    """Points on a curve, both ends included."""
    if isinstance(curve, Line):
        return [curve.start, curve.end]
    if isinstance(curve, Arc):
        whole = sides(curve.radius, tolerance)
        count = math.ceil(abs(curve.sweep) / TURN * whole - 1e-9)
        return [along.place(curve, i / count) for i in range(count + 1)]
    found = [curve.start]
    for i in range(FIRST):
        _halved(curve, (i / FIRST, (i + 1) / FIRST), tolerance, found, DEEPEST)
    return found


def sides(radius: float, tolerance: float) -> int:
    """Sides of a circle as a polygon: 48 or twice, four times ... as many, within a tolerance [mm].

    So the polygons of circles that lie within each other have their corners side by side, and don't
    run through each other where the metal has play.
    """
    doublings = max(0, math.ceil(math.log2(chords(radius, TURN, tolerance) / ROUND)))
    return ROUND << doublings


def _halved(
    curve: Curve, stretch: tuple[float, float], tolerance: float, found: list[Point], depth: int
) -> None:
    low, high = stretch
    start, end = along.place(curve, low), along.place(curve, high)
    turn = math.remainder(along.heading(curve, high) - along.heading(curve, low), TURN)
    inner = (along.place(curve, low + (high - low) * share) for share in LOOKS)
    near = all(_off(point, start, end) <= tolerance for point in inner)
    if depth == 0 or (abs(turn) <= SMOOTH and near):
        found.append(end)
        return
    middle = (low + high) / 2
    _halved(curve, (low, middle), tolerance, found, depth - 1)
    _halved(curve, (middle, high), tolerance, found, depth - 1)


def _meets(before: Curve, after: Curve) -> float:
    """By how much the way turns where one curve follows another [rad]."""
    return abs(math.remainder(along.heading(after, 0.0) - along.heading(before, 1.0), TURN))


def _off(point: Point, start: Point, end: Point) -> float:
    """Distance of a point from the line through two others [mm]."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    px, py = point[0] - start[0], point[1] - start[1]
    size = math.hypot(dx, dy)
    return abs(dx * py - dy * px) / size if size else math.hypot(px, py)
