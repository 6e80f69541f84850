"""The cubic Bezier curve, for outlines and drawings that are drawn freely."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.shapes.curves import Bounds, Point, around, integral, shift, times


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bezier curve from `start` to `end` with its two control points [mm]."""

    start: Point
    control: Point
    control_end: Point
    end: Point

    def at(self, t: float) -> Point:
        """The point at the parameter t, 0 to 1."""
        u = 1 - t
        a, b, c, d = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
        (x0, y0), (x1, y1) = self.start, self.control
        (x2, y2), (x3, y3) = self.control_end, self.end
        return (a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3)

    @property
    def controls(self) -> tuple[Point, Point, Point, Point]:
        """The four control points in order."""
        return (self.start, self.control, self.control_end, self.end)

    def length(self) -> float:
        """Length [mm], by Gauss-Legendre quadrature."""
        return integral(lambda t: math.hypot(*self._slope(t)), 0.0, 1.0)

    def moment(self) -> float:
        """Half the integral of x dy - y dx [mm2], exact."""
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = self.controls
        return (
            6 * (x0 * y1 - x1 * y0)
            + 3 * (x0 * y2 - x2 * y0)
            + (x0 * y3 - x3 * y0)
            + 3 * (x1 * y2 - x2 * y1)
            + 3 * (x1 * y3 - x3 * y1)
            + 6 * (x2 * y3 - x3 * y2)
        ) / 20

    def bounds(self) -> Bounds:
        """Exact bounds [mm]."""
        found = [self.start, self.end]
        for axis in (0, 1):
            p0, p1, p2, p3 = (point[axis] for point in self.controls)
            roots = _roots(p3 - 3 * p2 + 3 * p1 - p0, 2 * (p2 - 2 * p1 + p0), p1 - p0)
            found += [self.at(t) for t in roots if 0 < t < 1]
        return around(found)

    def points(self, tolerance: float) -> tuple[Point, ...]:
        """Points whose chords lie within `tolerance` [mm] of the curve."""
        if tolerance <= 0:
            raise ValueError(f"tolerance must be more than 0 mm, not {tolerance}")
        p0, p1, p2, p3 = self.controls
        bend = max(
            math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1])
            for a, b, c in ((p0, p1, p2), (p1, p2, p3))
        )
        count = max(1, math.ceil(math.sqrt(0.75 * bend / tolerance)))
        between = (self.at(i / count) for i in range(1, count))
        return (self.start, *between, self.end)

    def moved(self, dx: float, dy: float) -> Cubic:
        """The same curve shifted by dx and dy [mm]."""
        return Cubic(*(shift(point, dx, dy) for point in self.controls))

    def scaled(self, factor: float) -> Cubic:
        """The same curve enlarged from 0, 0."""
        return Cubic(*(times(point, factor) for point in self.controls))

    def _slope(self, t: float) -> Point:
        p0, p1, p2, p3 = self.controls
        weights = (3 * (1 - t) ** 2, 6 * (1 - t) * t, 3 * t * t)
        steps = [(b[0] - a[0], b[1] - a[1]) for a, b in ((p0, p1), (p1, p2), (p2, p3))]
        xs, ys = zip(*steps, strict=True)
        return (_dot(weights, xs), _dot(weights, ys))


def _dot(weights: tuple[float, ...], values: tuple[float, ...]) -> float:
    return sum(w * v for w, v in zip(weights, values, strict=True))


def _roots(a: float, b: float, c: float) -> list[float]:
    """Real roots of a t2 + b t + c, without losing digits to cancellation."""
    inside = b * b - 4 * a * c
    if inside < 0:
        return []
    q = -(b + math.copysign(math.sqrt(inside), b)) / 2
    return [top / under for top, under in ((q, a), (c, q)) if under]
