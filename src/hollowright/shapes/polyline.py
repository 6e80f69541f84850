"""A curve given by points on it: straight from each to the next."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from hollowright.shapes.boxes import Array
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
    places = np.array(points, dtype=np.float64)
    keep = {0, len(points) - 1}
    spans = [(0, len(points) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        off = _off(places[first + 1 : last], places[first], places[last])
        worst = int(off.argmax())
        if off[worst] > tolerance:
            at = first + 1 + worst
            keep.add(at)
            spans += [(first, at), (at, last)]
    return [points[i] for i in sorted(keep)]


def _off(points: Array, start: Array, end: Array) -> Array:
    """How far points lie from a straight stretch [mm]."""
    way, rest = end - start, points - start
    square = float(way @ way)
    t = np.clip(rest @ way / square, 0.0, 1.0) if square else np.zeros(len(points))
    off = rest - t[:, None] * way
    distance: Array = np.hypot(off[:, 0], off[:, 1])
    return distance
