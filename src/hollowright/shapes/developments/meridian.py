"""Half the section of a turned form: its length, the area that it sweeps, its neutral line."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Arc, Curve, EllipseArc, Line, Point
from hollowright.shapes.developments.tracing import chords

Place = Callable[[float], Point]

Reached = tuple[float, float]
"""Length [mm] and swept area [mm2] from a profile's start."""

FEWEST, MOST = 4, 512  # steps of a smooth piece's table
LOOKS = 32  # places of a smooth piece at which a profile is checked
SETTLED = 1e-11  # share by which twice as many steps may still change length and area
_NODES = (0.0, 0.5384693101056831, -0.5384693101056831, 0.9061798459386640, -0.9061798459386640)
_WEIGHTS = (0.5688888888888889, 0.4786286704993665, 0.4786286704993665) + (0.2369268850561891,) * 2


@dataclass(frozen=True)
class Meridian:
    """(radius, height) [mm] of a turned form for a parameter from 0 to 1, from its bottom outwards.

    `breaks` are the parameters where it may have a corner, 0 and 1 included; between them it is
    smooth. The form's inside lies to the left as the parameter grows. `straight` says that every
    piece is a straight line. ValueError where it crosses the axis.
    """

    place: Place
    breaks: tuple[float, ...] = (0.0, 1.0)
    straight: bool = False

    def __post_init__(self) -> None:
        """Refuse a profile that crosses the axis."""
        looked = _divided(self.breaks, 1 if self.straight else LOOKS)
        least = min(self.place(t)[0] for t in looked)
        if least < -1e-9:
            raise ValueError(f"the profile crosses the axis by {-least:.3f} mm")

    @property
    def length(self) -> float:
        """Length along the profile [mm]."""
        return self._reached[-1][0]

    @property
    def area(self) -> float:
        """Area of the swept surface [mm2], 2 pi x integral of radius along the length (Pappus)."""
        return self._reached[-1][1]

    def reached(self, t: float) -> float:
        """Length along the profile from its start [mm]."""
        number = min(max(bisect_right(self._ends, t) - 1, 0), len(self._ends) - 2)
        return self._reached[number][0] + self._gauss(self._ends[number], t)[0]

    def parameter(self, reached: float) -> float:
        """The parameter at a length from the start [mm], by secant within the table's step."""
        lengths = [length for length, _ in self._reached]
        number = min(max(bisect_right(lengths, reached) - 1, 0), len(lengths) - 2)
        low, high = self._ends[number], self._ends[number + 1]
        t = low + (high - low) * (reached - lengths[number]) / (
            lengths[number + 1] - lengths[number]
        )
        for _ in range(30):
            off = lengths[number] + self._gauss(low, t)[0] - reached
            move = off / self._speed(t)
            t -= move
            if abs(move) <= 1e-15 * (high - low) or abs(off) < 1e-13:
                break
        return t

    def points(self, tolerance: float = 1e-3) -> tuple[Point, ...]:
        """The profile as points, no chord further off than `tolerance` [mm]."""
        if self.straight:
            return tuple(self.place(t) for t in self.breaks)
        return tuple(chords(self.place, self.breaks, tolerance))

    def inside(self, distance: float) -> Meridian:
        """The parallel profile `distance` [mm] inside: the neutral line, at half the thickness.

        Corners of straight pieces are mitred. ValueError where smooth pieces meet at a corner (give
        the profile as points), and where the profile is tighter than the distance.
        """
        if self.straight:
            return through(_mitred(self.points(), distance))
        moved = [_Moved(self, a, b, distance) for a, b in pairwise(self.breaks)]
        for before, after in pairwise(moved):
            gap = math.dist(before(before.high), after(after.low))
            if gap > 1e-6:
                raise ValueError(
                    f"the profile has a corner at {self.place(after.low)}: give it as points"
                )
        inner = _Chosen(tuple(moved), self.breaks)
        for t in _divided(self.breaks, LOOKS):
            if _backward(self.place, inner, t):
                raise ValueError(f"the profile at {self.place(t)} is tighter than {distance} mm")
        return Meridian(inner, self.breaks)

    @cached_property
    def _ends(self) -> tuple[float, ...]:
        return self._table[0]

    @cached_property
    def _reached(self) -> tuple[Reached, ...]:
        return self._table[1]

    @cached_property
    def _table(self) -> tuple[tuple[float, ...], tuple[Reached, ...]]:
        """Parameters and what is reached there, in as many steps as it takes to settle."""
        if self.straight:
            return self.breaks, self._summed(self.breaks)
        steps, before = FEWEST, (math.inf, math.inf)
        while True:
            ends = _divided(self.breaks, steps)
            reached = self._summed(ends)
            off = max(abs(a - b) / (abs(a) or 1) for a, b in zip(reached[-1], before, strict=True))
            if off < SETTLED or steps >= MOST:
                return ends, reached
            steps, before = 2 * steps, reached[-1]

    def _summed(self, ends: Sequence[float]) -> tuple[Reached, ...]:
        found = [(0.0, 0.0)]
        for a, b in pairwise(ends):
            length, moment = self._gauss(a, b)
            found.append((found[-1][0] + length, found[-1][1] + TURN * moment))
        return tuple(found)

    def _gauss(self, low: float, high: float) -> Reached:
        """Integrals of ds and of radius ds within a step, by five-point Gauss-Legendre."""
        half, middle = (high - low) / 2, (high + low) / 2
        length = moment = 0.0
        for weight, node in zip(_WEIGHTS, _NODES, strict=True):
            t = middle + half * node
            step = half * weight * self._speed(t)
            length += step
            moment += step * self.place(t)[0]
        return (length, moment)

    def _speed(self, t: float) -> float:
        number = min(max(bisect_right(self.breaks, t) - 1, 0), len(self.breaks) - 2)
        low, high = self.breaks[number], self.breaks[number + 1]
        if self.straight:
            return math.dist(self.place(low), self.place(high)) / (high - low)
        return math.hypot(*slope(self.place, t, low, high))


def _divided(breaks: Sequence[float], steps: int) -> tuple[float, ...]:
    inner = (a + (b - a) * i / steps for a, b in pairwise(breaks) for i in range(steps))
    return (*inner, breaks[-1])


def through(points: Sequence[Point]) -> Meridian:
    """A profile of straight lines through (radius, height) points [mm], each side a break.

    ValueError for fewer than two points or two alike.
    """
    if len(points) < 2 or any(a == b for a, b in pairwise(points)):
        raise ValueError("a profile needs two points at least, no two in turn alike")
    count = len(points) - 1
    kept = tuple(points)

    def place(t: float) -> Point:
        number = min(max(int(t * count), 0), count - 1)
        (r, z), (r1, z1), part = kept[number], kept[number + 1], t * count - number
        return (r + part * (r1 - r), z + part * (z1 - z))

    return Meridian(place, tuple(i / count for i in range(count + 1)), straight=True)


def along(curves: Sequence[Curve]) -> Meridian:
    """A profile of lines, arcs, elliptic arcs and cubics in order, in (radius, height) [mm].

    ValueError where one doesn't begin at the end of the one before.
    """
    for before, after in pairwise(curves):
        if math.dist(before.end, after.start) > 1e-9:
            raise ValueError(f"the profile has a gap between {before.end} and {after.start}")
    places = tuple(_placed(curve) for curve in curves)
    breaks = tuple(i / len(places) for i in range(len(places) + 1))
    return Meridian(_Chosen(places, breaks, local=True), breaks)


def slope(place: Place, t: float, low: float, high: float) -> Point:
    """Slope of a smooth piece at t by fourth-order differences that stay between low and high."""
    room = min(t - low, high - t)
    whole = high - low
    steps: tuple[int, ...]
    weights: tuple[float, ...]
    if room > 1e-4 * whole:
        h = min(1e-3 * whole, room / 2)
        steps, weights = (-2, -1, 1, 2), (1 / 12, -2 / 3, 2 / 3, -1 / 12)
    else:
        h = 1e-3 * whole * (1 if t - low < high - t else -1)
        steps, weights = (0, 1, 2, 3, 4), (-25 / 12, 4, -3, 4 / 3, -1 / 4)
    points = [place(t + i * h) for i in steps]
    return (
        sum(w * p[0] for w, p in zip(weights, points, strict=True)) / h,
        sum(w * p[1] for w, p in zip(weights, points, strict=True)) / h,
    )


@dataclass(frozen=True, slots=True)
class _Moved:
    """A smooth piece moved to its left."""

    base: Meridian
    low: float
    high: float
    distance: float

    def __call__(self, t: float) -> Point:
        (r, z), (dr, dz) = self.base.place(t), slope(self.base.place, t, self.low, self.high)
        size = math.hypot(dr, dz)
        radius = r - self.distance * dz / size
        return (0.0 if abs(radius) < 1e-9 else radius, z + self.distance * dr / size)


@dataclass(frozen=True, slots=True)
class _Chosen:
    """The piece that a parameter falls on, given the parameter itself or the share of the piece."""

    places: Sequence[Place]
    breaks: tuple[float, ...]
    local: bool = False

    def __call__(self, t: float) -> Point:
        number = min(max(bisect_right(self.breaks, t) - 1, 0), len(self.places) - 1)
        low, high = self.breaks[number], self.breaks[number + 1]
        return self.places[number]((t - low) / (high - low) if self.local else t)


def _placed(curve: Curve) -> Place:
    if isinstance(curve, Arc | EllipseArc):
        return lambda t: curve.at(curve.start_angle + t * curve.sweep)
    if isinstance(curve, Cubic):
        return curve.at
    if isinstance(curve, Line):
        (x, y), (x1, y1) = curve.start, curve.end
        return lambda t: (x + t * (x1 - x), y + t * (y1 - y))
    raise ValueError(f"a profile has lines, arcs and cubics, not {type(curve).__name__}")


def _mitred(points: Sequence[Point], distance: float) -> list[Point]:
    """Points of the parallel polyline to the left, its ends on the axis kept there."""
    lines = []
    for (r, z), (r1, z1) in pairwise(points):
        size = math.hypot(r1 - r, z1 - z)
        dr, dz = (r1 - r) / size, (z1 - z) / size
        lines.append((r - distance * dz, z + distance * dr, dr, dz))
    first, last = lines[0], lines[-1]
    size = math.dist(points[-2], points[-1])
    end = (last[0] + size * last[2], last[1] + size * last[3])
    middle = [_meeting(a, b) for a, b in pairwise(lines)]
    found = [first[:2], *middle, end]
    if points[0][0] == 0 and first[2]:
        found[0] = (0.0, first[1] - first[0] * first[3] / first[2])
    if points[-1][0] == 0 and last[2]:
        found[-1] = (0.0, last[1] - last[0] * last[3] / last[2])
    for (a, b), (c, d) in zip(pairwise(points), pairwise(found), strict=True):
        if (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) <= 0:
            raise ValueError(
                f"the profile's side from {a} is shorter than {distance} mm inside needs"
            )
    return found


Ray = tuple[float, float, float, float]


def _meeting(a: Ray, b: Ray) -> Point:
    turn = a[2] * b[3] - a[3] * b[2]
    if abs(turn) < 1e-12:
        return b[:2]
    reach = ((b[0] - a[0]) * b[3] - (b[1] - a[1]) * b[2]) / turn
    return (a[0] + reach * a[2], a[1] + reach * a[3])


def _backward(outer: Place, inner: Place, t: float) -> bool:
    """Whether the inner profile runs against the outer one near t."""
    step = 1e-4 if t < 0.5 else -1e-4
    (a, b), (c, d) = ((place(t), place(t + step)) for place in (outer, inner))
    return (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) < 0
