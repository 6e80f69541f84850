"""The curves that outlines and drawings are made of, each kept as what it is.

Lengths are millimetres, angles radians, anticlockwise positive, y upwards. Every curve runs from
`start` to `end`; a whole circle is an arc whose sweep is 2 pi.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Protocol

Point = tuple[float, float]
Bounds = tuple[float, float, float, float]
Function = Callable[[float], float]

TURN = 2 * math.pi


class Curve(Protocol):
    """What a curve can tell; another kind (a spline, say) needs no more than this."""

    @property
    def start(self) -> Point:
        """First point [mm]."""

    @property
    def end(self) -> Point:
        """Last point [mm]."""

    def length(self) -> float:
        """Length along the curve [mm]."""

    def moment(self) -> float:
        """Half the integral of x dy - y dx [mm2]: summed round a closed curve it is the area."""

    def bounds(self) -> Bounds:
        """Least x, least y, greatest x, greatest y [mm], exact."""

    def points(self, tolerance: float) -> tuple[Point, ...]:
        """Points on the curve, both ends included, no chord further off than `tolerance` [mm]."""

    def moved(self, dx: float, dy: float) -> Curve:
        """The same curve shifted by dx and dy [mm]."""

    def scaled(self, factor: float) -> Curve:
        """The same curve enlarged from 0, 0 by a positive factor."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point

    def length(self) -> float:
        """Length [mm]."""
        return math.dist(self.start, self.end)

    def moment(self) -> float:
        """Half of x dy - y dx [mm2]."""
        return (self.start[0] * self.end[1] - self.end[0] * self.start[1]) / 2

    def bounds(self) -> Bounds:
        """Exact bounds [mm]."""
        return around((self.start, self.end))

    def points(self, tolerance: float) -> tuple[Point, ...]:
        """Both ends, whatever the tolerance."""
        del tolerance
        return (self.start, self.end)

    def moved(self, dx: float, dy: float) -> Line:
        """The same line shifted by dx and dy [mm]."""
        return Line(shift(self.start, dx, dy), shift(self.end, dx, dy))

    def scaled(self, factor: float) -> Line:
        """The same line enlarged from 0, 0."""
        return Line(times(self.start, factor), times(self.end, factor))


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle: from `start_angle` through `sweep` [rad]; a whole turn is a full circle."""

    centre: Point
    radius: float
    start_angle: float
    sweep: float

    def at(self, angle: float) -> Point:
        """The point of the circle at an angle [rad]."""
        x, y = self.centre
        return (x + self.radius * math.cos(angle), y + self.radius * math.sin(angle))

    @property
    def start(self) -> Point:
        """First point [mm]."""
        (x, y), angle = self.centre, self.start_angle
        return (x + self.radius * math.cos(angle), y + self.radius * math.sin(angle))

    @property
    def end(self) -> Point:
        """Last point [mm]; of a full circle it is the first one, to the last digit."""
        if abs(self.sweep) >= TURN:
            return self.start
        (x, y), angle = self.centre, self.start_angle + self.sweep
        return (x + self.radius * math.cos(angle), y + self.radius * math.sin(angle))

    @property
    def closed(self) -> bool:
        """Whether it is a full circle."""
        return abs(self.sweep) >= TURN

    def length(self) -> float:
        """Length [mm]."""
        return self.radius * abs(self.sweep)

    def moment(self) -> float:
        """Half the integral of x dy - y dx [mm2]."""
        (x, y), r = self.centre, self.radius
        (x0, y0), (x1, y1) = self.start, self.end
        return (x * (y1 - y0) - y * (x1 - x0) + r * r * self.sweep) / 2

    def bounds(self) -> Bounds:
        """Exact bounds [mm]."""
        angles = extremes(0.0, self.start_angle, self.sweep)
        (ax, ay), (bx, by) = self.start, self.end
        if not angles:
            low_x, high_x = (ax, bx) if ax < bx else (bx, ax)
            return (low_x, ay, high_x, by) if ay < by else (low_x, by, high_x, ay)
        return around(((ax, ay), (bx, by), *(self.at(angle) for angle in angles)))

    def points(self, tolerance: float) -> tuple[Point, ...]:
        """Points whose chords lie within `tolerance` [mm] of the arc."""
        count = chords(self.radius, self.sweep, tolerance)
        between = (self.at(self.start_angle + self.sweep * i / count) for i in range(1, count))
        return (self.start, *between, self.end)

    def moved(self, dx: float, dy: float) -> Arc:
        """The same arc shifted by dx and dy [mm]."""
        return Arc(shift(self.centre, dx, dy), self.radius, self.start_angle, self.sweep)

    def scaled(self, factor: float) -> Arc:
        """The same arc enlarged from 0, 0."""
        centre, radius = times(self.centre, factor), self.radius * factor
        return Arc(centre, radius, self.start_angle, self.sweep)


@dataclass(frozen=True, slots=True)
class EllipseArc:
    """Part of an ellipse: centre + major cos t + minor sin t, t from `start_angle` through `sweep`.

    `major` and `minor` are the half axes as vectors [mm], square to each other.
    """

    centre: Point
    major: Point
    minor: Point
    start_angle: float
    sweep: float

    def at(self, t: float) -> Point:
        """The point of the ellipse at the parameter t [rad]."""
        c, s = math.cos(t), math.sin(t)
        return (
            self.centre[0] + self.major[0] * c + self.minor[0] * s,
            self.centre[1] + self.major[1] * c + self.minor[1] * s,
        )

    @property
    def start(self) -> Point:
        """First point [mm]."""
        return self.at(self.start_angle)

    @property
    def end(self) -> Point:
        """Last point [mm]; of a full ellipse it is the first one, to the last digit."""
        return self.start if self.closed else self.at(self.start_angle + self.sweep)

    @property
    def closed(self) -> bool:
        """Whether it is a full ellipse."""
        return abs(self.sweep) >= TURN

    def length(self) -> float:
        """Length [mm], by Gauss-Legendre quadrature."""
        (ax, ay), (bx, by) = self.major, self.minor

        def speed(t: float) -> float:
            c, s = math.cos(t), math.sin(t)
            return math.hypot(bx * c - ax * s, by * c - ay * s)

        return abs(integral(speed, self.start_angle, self.start_angle + self.sweep))

    def moment(self) -> float:
        """Half the integral of x dy - y dx [mm2]."""
        (x, y), (ax, ay), (bx, by) = self.centre, self.major, self.minor
        (x0, y0), (x1, y1) = self.start, self.end
        return (x * (y1 - y0) - y * (x1 - x0) + (ax * by - ay * bx) * self.sweep) / 2

    def bounds(self) -> Bounds:
        """Exact bounds [mm]."""
        found = [self.start, self.end]
        for axis in (0, 1):
            phase = math.atan2(self.minor[axis], self.major[axis])
            found += [self.at(t) for t in extremes(phase, self.start_angle, self.sweep, 2)]
        return around(found)

    def points(self, tolerance: float) -> tuple[Point, ...]:
        """Points whose chords lie within `tolerance` [mm] of the curve."""
        widest = max(math.hypot(*self.major), math.hypot(*self.minor))
        count = chords(widest, self.sweep, tolerance)
        between = (self.at(self.start_angle + self.sweep * i / count) for i in range(1, count))
        return (self.start, *between, self.end)

    def moved(self, dx: float, dy: float) -> EllipseArc:
        """The same arc shifted by dx and dy [mm]."""
        centre = shift(self.centre, dx, dy)
        return EllipseArc(centre, self.major, self.minor, self.start_angle, self.sweep)

    def scaled(self, factor: float) -> EllipseArc:
        """The same arc enlarged from 0, 0."""
        centre, major, minor = (times(p, factor) for p in (self.centre, self.major, self.minor))
        return EllipseArc(centre, major, minor, self.start_angle, self.sweep)


def shift(point: Point, dx: float, dy: float) -> Point:
    """A point moved by dx and dy [mm]."""
    return (point[0] + dx, point[1] + dy)


def times(point: Point, factor: float) -> Point:
    """A point taken further from 0, 0 by a factor."""
    return (point[0] * factor, point[1] * factor)


def around(points: Iterable[Point]) -> Bounds:
    """Bounds of points [mm].

    >>> around([(3, 1), (-2, 5)])
    (-2, 1, 3, 5)
    """
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def union(bounds: Iterable[Bounds]) -> Bounds:
    """Bounds of several bounds [mm]."""
    lows, lowest, highs, highest = zip(*bounds, strict=True)
    return (min(lows), min(lowest), max(highs), max(highest))


def extremes(phase: float, start: float, sweep: float, quarters: int = 1) -> list[float]:
    """Angles phase + k x (quarters x 90 degrees) [rad] within a sweep: where a bound is touched."""
    low, high = (start, start + sweep) if sweep > 0 else (start + sweep, start)
    step = quarters * math.pi / 2
    first = math.ceil((low - phase) / step)
    last = math.floor((high - phase) / step)
    return [phase + k * step for k in range(first, last + 1)]


def chords(radius: float, sweep: float, tolerance: float) -> int:
    """Number of equal chords that follow an arc within a tolerance [mm]."""
    if tolerance <= 0:
        raise ValueError(f"tolerance must be more than 0 mm, not {tolerance}")
    step = math.pi / 2 if tolerance >= radius else 2 * math.acos(1 - tolerance / radius)
    return max(1, math.ceil(abs(sweep) / step - 1e-9), 3 if abs(sweep) >= TURN else 1)


_NODES = (0.0, 0.5384693101056831, -0.5384693101056831, 0.9061798459386640, -0.9061798459386640)
_WEIGHTS = (0.5688888888888889, 0.4786286704993665, 0.4786286704993665) + (0.2369268850561891,) * 2


def integral(function: Function, low: float, high: float) -> float:
    """Integral of a smooth function by five-point Gauss-Legendre steps, doubled until it holds."""
    before = total = math.inf
    for doubling in range(3, 14):
        pieces = 2**doubling
        half = (high - low) / pieces / 2
        middles = (low + half * (2 * i + 1) for i in range(pieces))
        total = half * sum(
            w * function(middle + half * x)
            for middle in middles
            for x, w in zip(_NODES, _WEIGHTS, strict=True)
        )
        if abs(total - before) <= 1e-12 * abs(total):
            break
        before = total
    return total
