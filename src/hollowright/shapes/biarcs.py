"""Any curve as lines and arcs that follow it within a tolerance and share its headings.

Between two places of a curve a pair of arcs (a biarc) takes over both points and both headings;
each pair reaches as far as the tolerance lets it.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeGuard

from hollowright.shapes import along
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Curve, EllipseArc, Line, Point

Plain = Line | Arc

STRAIGHT = 1e-8  # a chord and its heading apart by less than this [rad] are a straight line
TRIALS = (0.12, 0.3, 0.5, 0.7, 0.88)
DEPTH = 14  # halvings of a stretch at most
SAFE = 0.9  # of the tolerance: trials miss the worst place by a little
WIDEST = 1.2  # a pair of arcs turns by no more than this [rad]


@dataclass(frozen=True, slots=True)
class Bit:
    """A line or arc that stands for the stretch of a curve from u = first to u = last."""

    curve: Plain
    first: float
    last: float


def bits(curve: Curve, tolerance: float) -> tuple[Bit, ...]:
    """Lines and arcs along a curve, none further off than `tolerance` [mm]."""
    if tolerance <= 0:
        raise ValueError(f"tolerance must be more than 0 mm, not {tolerance}")
    if isinstance(curve, Line | Arc):
        return (Bit(curve, 0.0, 1.0),)
    stops = [0.0, *natural_stops(curve), 1.0]
    if _whole_oval(curve):
        return _round_from_quarter(curve, _all(curve, stops[:3], tolerance))
    return _all(curve, stops, tolerance)


def _all(curve: Curve, stops: Sequence[float], tolerance: float) -> tuple[Bit, ...]:
    """The lines and arcs from the first of these u to the last."""
    found: list[Bit] = []
    for first, last in pairwise(stops):
        found += _followed(curve, first, last, tolerance)
    return tuple(found)


def _whole_oval(curve: Curve) -> TypeGuard[EllipseArc]:
    """Whether it is a full ellipse begun at the end of an axis: its quarters are alike."""
    if not isinstance(curve, EllipseArc) or not curve.closed:
        return False
    return math.isclose(math.remainder(curve.start_angle, math.pi / 2), 0.0, abs_tol=1e-12)


def _round_from_quarter(curve: EllipseArc, quarter: Sequence[Bit]) -> tuple[Bit, ...]:
    """A full ellipse from its first quarter: mirrored at the axis there, then turned by half."""
    (x, y), (px, py) = curve.centre, along.place(curve, 0.25)
    axis = complex(px - x, py - y)
    mirror = (axis / abs(axis)) ** 2
    middle = complex(x, y)

    def mirrored(bit: Bit) -> Bit:
        def at(p: Point) -> Point:
            return _point(mirror * (complex(*p) - middle).conjugate() + middle)

        return Bit(_backwards(bit.curve, at, cmath.phase(mirror)), 0.5 - bit.last, 0.5 - bit.first)

    def halfway(bit: Bit) -> Bit:
        def at(p: Point) -> Point:
            return (2 * x - p[0], 2 * y - p[1])

        return Bit(_half_turned(bit.curve, at), bit.first + 0.5, bit.last + 0.5)

    half = (*quarter, *map(mirrored, reversed(quarter)))
    return (*half, *map(halfway, half))


def _point(z: complex) -> Point:
    return (z.real, z.imag)


def _backwards(curve: Plain, at: Callable[[Point], Point], doubled: float) -> Plain:
    """A line or arc mirrored, and run from its end; doubled: twice the mirror's angle [rad]."""
    if isinstance(curve, Line):
        return Line(at(curve.end), at(curve.start))
    first = doubled - curve.start_angle - curve.sweep
    return Arc(at(curve.centre), curve.radius, first, curve.sweep)


def _half_turned(curve: Plain, at: Callable[[Point], Point]) -> Plain:
    if isinstance(curve, Line):
        return Line(at(curve.start), at(curve.end))
    return Arc(at(curve.centre), curve.radius, curve.start_angle + math.pi, curve.sweep)


def natural_stops(curve: Curve) -> list[float]:
    """The u at which a curve's character changes: axes' ends, inflections, quarters in any case."""
    if isinstance(curve, EllipseArc):
        step = math.pi / 4
        ends = (curve.start_angle, curve.start_angle + curve.sweep)
        first, last = math.ceil(min(ends) / step), math.floor(max(ends) / step)
        found = [(k * step - curve.start_angle) / curve.sweep for k in range(first, last + 1)]
    else:
        found = [0.25, 0.5, 0.75, *_inflections(curve)]
    apart: list[float] = []
    for u in sorted(found):
        if 1e-3 < u < 1 - 1e-3 and (not apart or u - apart[-1] > 1e-3):
            apart.append(u)
    return apart


def _inflections(curve: Curve) -> list[float]:
    """The u at which a cubic changes the side it bears to."""
    if not isinstance(curve, Cubic):
        return []
    p0, p1, p2, p3 = (complex(*point) for point in curve.controls)
    a, b, c = p1 - p0, p2 - 2 * p1 + p0, p3 - 3 * p2 + 3 * p1 - p0
    ab, ac, bc = ((x.conjugate() * y).imag for x, y in ((a, b), (a, c), (b, c)))
    if abs(bc) <= 1e-12 * (abs(ab) + abs(ac) + abs(bc)):
        return [-ab / ac] if ac else []
    root = cmath.sqrt(ac * ac - 4 * bc * ab)
    if root.imag:
        return []
    return [(-ac + sign * root.real) / (2 * bc) for sign in (-1, 1)]


def _followed(curve: Curve, first: float, last: float, tolerance: float) -> Iterator[Bit]:
    """Pairs of arcs from one u to another, each as long as the tolerance lets it be.

    The error of a pair falls with the third power of its stretch: so the next is chosen.
    """
    here, step = first, last - first
    least = step / 2**DEPTH
    while last - here > least / 2:
        left = last - here
        step = left / max(1, math.ceil(left / step - 0.02))
        pair = _pair(curve, here, here + step if step < left else last)
        error = _error(curve, pair) if pair else math.inf
        growth = 2.0 if error == 0 else 0.97 * (SAFE * tolerance / error) ** (1 / 3)
        if error <= tolerance * SAFE:
            yield from pair
            here = pair[-1].last
            step *= min(2.0, growth)
        elif step > least:
            step *= max(0.2, min(0.9, growth))
        else:
            stop = min(last, here + step)
            yield Bit(Line(along.place(curve, here), along.place(curve, stop)), here, stop)
            here = stop


def _pair(curve: Curve, first: float, last: float) -> tuple[Bit, ...]:
    """The pair of arcs over a stretch; nothing where there is none of sense."""
    p, q = (complex(*along.place(curve, u)) for u in (first, last))
    a, b = (cmath.rect(1.0, along.heading(curve, u)) for u in (first, last))
    across, turn = q - p, abs(cmath.phase(b / a))
    if across == 0 or turn > WIDEST:
        return ()
    forward, both = _dot(across, a + b), 2 * (1 - _dot(a, b))
    squared = abs(across) ** 2
    if forward <= 0:
        return ()
    # How far the pair's joint lies along both headings; written without a difference of likes.
    reach = squared / (forward + math.sqrt(forward * forward + both * squared))
    joint = (p + reach * a + q - reach * b) / 2
    share = abs(joint - p) / (abs(joint - p) + abs(q - joint))
    middle = first + (last - first) * share
    start, meeting, end = ((z.real, z.imag) for z in (p, joint, q))
    one = _arc(start, cmath.phase(a), meeting)
    two = _arc(end, cmath.phase(-b), meeting)
    return (Bit(one, first, middle), Bit(_turned(two), middle, last))


def _dot(a: complex, b: complex) -> float:
    return a.real * b.real + a.imag * b.imag


def _arc(start: Point, heading: float, end: Point) -> Plain:
    """The arc that leaves `start` with a heading [rad] and ends at `end`."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    off = math.remainder(math.atan2(dy, dx) - heading, 2 * math.pi)
    if abs(off) < STRAIGHT:
        return Line(start, end)
    radius = math.hypot(dx, dy) / (2 * math.sin(off))
    normal = heading + math.pi / 2
    centre = (start[0] + radius * math.cos(normal), start[1] + radius * math.sin(normal))
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    return Arc(centre, abs(radius), first, 2 * off)


def _turned(curve: Plain) -> Plain:
    """The same the other way round."""
    if isinstance(curve, Line):
        return Line(curve.end, curve.start)
    return Arc(curve.centre, curve.radius, curve.start_angle + curve.sweep, -curve.sweep)


def _error(curve: Curve, pair: tuple[Bit, ...]) -> float:
    """How far the curve lies off its pair of arcs at most, by trial [mm]."""
    first, last = pair[0].first, pair[-1].last
    points = [along.place(curve, first + (last - first) * trial) for trial in TRIALS]
    return max(min(_off(bit.curve, point) for bit in pair) for point in points)


def _off(curve: Plain, point: Point) -> float:
    """How far a point lies off the whole line or circle [mm]."""
    if isinstance(curve, Arc):
        return abs(math.dist(point, curve.centre) - curve.radius)
    (x0, y0), (x1, y1) = curve.start, curve.end
    area = (x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0)
    return abs(area) / math.dist(curve.start, curve.end)
