"""A curve given by points on it: straight from each to the next."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from hollowright.shapes.curves import Bounds, Curve, Line, Point, around, shift, times


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight from corner to corner [mm]; the last is the first again where it is closed."""

    corners: tuple[Point, ...]

    @property
    def start(self) -> Point:
        """First point [mm]."""
        return self.corners[0]

    @property
    def end(self) -> Point:
        """Last point [mm]."""
        return self.corners[-1]

    def length(self) -> float:
        """Length [mm]."""
        return sum(math.dist(a, b) for a, b in pairwise(self.corners))

    def moment(self) -> float:
        """Half the sum of x dy - y dx [mm2]."""
        return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(self.corners)) / 2

    def bounds(self) -> Bounds:
        """Exact bounds [mm]."""
        return around(self.corners)

    def points(self, tolerance: float) -> tuple[Point, ...]:
        """All corners, whatever the tolerance."""
        del tolerance
        return self.corners

    def moved(self, dx: float, dy: float) -> Polyline:
        """The same line shifted by dx and dy [mm]."""
        return Polyline(tuple(shift(corner, dx, dy) for corner in self.corners))

    def scaled(self, factor: float) -> Polyline:
        """The same line enlarged from 0, 0."""
        return Polyline(tuple(times(corner, factor) for corner in self.corners))


def through(points: Sequence[Point], tolerance: float) -> Curve:
    """A curve from point to point, those left out that lie within `tolerance` [mm] of the rest.

    >>> through([(0, 0), (1, 0.001), (2, 0)], 0.01)
    Line(start=(0, 0), end=(2, 0))
    """
    kept = thinned(points, tolerance)
    return Line(*kept) if len(kept) == 2 else Polyline(tuple(kept))


def thinned(points: Sequence[Point], tolerance: float) -> list[Point]:
    """The points needed to stay within `tolerance` [mm] of all (Ramer, Douglas and Peucker)."""
    keep = [False] * len(points)
    keep[0] = keep[-1] = True
    spans = [(0, len(points) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        worst, at = max(
            (_off(points[i], points[first], points[last]), i) for i in range(first + 1, last)
        )
        if worst > tolerance:
            keep[at] = True
            spans += [(first, at), (at, last)]
    return [point for point, wanted in zip(points, keep, strict=True) if wanted]


def _off(point: Point, start: Point, end: Point) -> float:
    """How far a point lies from a straight stretch [mm]."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    px, py = point[0] - start[0], point[1] - start[1]
    square = dx * dx + dy * dy
    t = min(1.0, max(0.0, (px * dx + py * dy) / square)) if square else 0.0
    return math.hypot(px - t * dx, py - t * dy)
