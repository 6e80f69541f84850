"""Polygons cut into few convex pieces: triangles joined as long as they stay convex."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from hollowright.shapes.curves import Point
from hollowright.shapes.polygons import Area, Numbers, corners_of, hull_of, rings_of, triangles


def convex_pieces(area: Area) -> list[Numbers]:
    """The corners [mm] of convex pieces that make up a polygon, holes left out; each (k, 2).

    Where its edges touch so that it can't be cut, its hull stands for it: never less than it is.
    """
    rings = [[(float(x), float(y)) for x, y in ring] for ring in rings_of(area)]
    hull = _hull(area)
    if len(rings) == 1 and abs(hull[1] - area.area) <= 1e-9 * hull[1]:
        return [hull[0]]
    try:
        cut = triangles(rings)
    except (ValueError, KeyError):
        return [hull[0]]
    corners = [point for ring in rings for point in ring]
    return [np.array([corners[i] for i in piece]) for piece in _joined(corners, cut)]


def summed(one: Numbers, other: Numbers) -> Numbers:
    """Corners [mm] of all sums of a point of one convex polygon and one of another.

    Both (k, 2), anticlockwise; a side alone (2, 2) is a polygon too. Their sides in order of
    heading make the sum's (the Minkowski sum of convex polygons).
    """
    sides = np.concatenate((one[1:], one[:1], other[1:], other[:1]))
    sides[: len(one)] -= one
    sides[len(one) :] -= other
    headings = np.arctan2(sides[:, 1] + 0.0, sides[:, 0])  # + 0.0: no side heads for -180 degrees
    order = np.argsort(headings, kind="stable")
    start = one[_first(one)] + other[_first(other)]
    corners: Numbers = start + np.cumsum(sides[order], axis=0)
    return corners


def _first(polygon: Numbers) -> int:
    """The corner from which headings begin at -180 degrees: the topmost, of those the leftmost."""
    return int(np.lexsort((polygon[:, 0], -polygon[:, 1]))[0])


def _hull(area: Area) -> tuple[Numbers, float]:
    hull = hull_of(area)
    corners = corners_of(hull)[1:]
    x, y = corners[:, 0], corners[:, 1]
    clockwise = np.dot(x, np.roll(y, -1)) < np.dot(y, np.roll(x, -1))
    return corners[::-1] if clockwise else corners, float(hull.area)


def _joined(corners: Sequence[Point], cut: Sequence[tuple[int, int, int]]) -> list[tuple[int, ...]]:
    """Triangles joined over their longest shared sides first, where the whole stays convex."""
    pieces: dict[int, tuple[int, ...]] = dict(enumerate(cut))
    owner = {side: number for number, piece in pieces.items() for side in _sides(piece)}
    shared = [side for side in owner if side[0] < side[1] and side[::-1] in owner]
    shared.sort(key=lambda side: (-math.dist(corners[side[0]], corners[side[1]]), side))
    for side in shared:
        one, other = owner[side], owner[side[::-1]]
        whole = _over(pieces[one], pieces[other], side)
        if one != other and _convex(corners, whole):
            pieces[one] = whole
            owner |= dict.fromkeys(_sides(pieces.pop(other)), one)
    return list(pieces.values())


def _sides(piece: tuple[int, ...]) -> list[tuple[int, int]]:
    return list(zip(piece, piece[1:] + piece[:1], strict=True))


def _over(one: tuple[int, ...], other: tuple[int, ...], side: tuple[int, int]) -> tuple[int, ...]:
    """Two pieces as one over a side that the first runs from, the second to, its first corner."""
    start, end = side
    at, there = one.index(end), other.index(start)
    first, second = one[at:] + one[:at], other[there:] + other[:there]
    return first + second[1:-1]


def _convex(corners: Sequence[Point], piece: tuple[int, ...]) -> bool:
    """Whether it turns left, or not at all, at every corner."""
    points = [corners[i] for i in piece]
    for a, b, c in zip(points[-1:] + points[:-1], points, points[1:] + points[:1], strict=True):
        cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        if cross < -1e-12 * math.dist(a, b) * math.dist(b, c):
            return False
    return True
