"""What a curve does along its way: heading, bend, place at a length, and any part of it.

Every curve here is followed by its own parameter u, 0 at the start to 1 at the end, whatever its
kind; a heading is the angle of travel [rad], a curvature is positive where the curve bears left.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Arc, Curve, EllipseArc, Line, Point
from hollowright.shapes.elliptic import ellipse_perimeter

STEPS = 24  # of a curve whose bend has no closed form: where its extremes are looked for first


def place(curve: Curve, u: float) -> Point:
    """The point of a curve at u [mm]; the ends to the last digit."""
    if u in (0.0, 1.0):
        return curve.end if u else curve.start
    if isinstance(curve, Line):
        (x0, y0), (x1, y1) = curve.start, curve.end
        return (x0 + (x1 - x0) * u, y0 + (y1 - y0) * u)
    if isinstance(curve, Arc | EllipseArc):
        return curve.at(curve.start_angle + curve.sweep * u)
    return _cubic(curve).at(u)


def velocity(curve: Curve, u: float) -> Point:
    """How the point moves with u [mm]."""
    if isinstance(curve, Line):
        return (curve.end[0] - curve.start[0], curve.end[1] - curve.start[1])
    if isinstance(curve, Arc | EllipseArc):
        (ax, ay), (bx, by) = _axes(curve)
        t, w = curve.start_angle + curve.sweep * u, curve.sweep
        c, s = math.cos(t), math.sin(t)
        return (w * (bx * c - ax * s), w * (by * c - ay * s))
    (p, q, r), v = _steps(curve), 1 - u
    a, b, c = 3 * v * v, 6 * v * u, 3 * u * u
    return (a * p[0] + b * q[0] + c * r[0], a * p[1] + b * q[1] + c * r[1])


def heading(curve: Curve, u: float) -> float:
    """Angle of travel at u [rad]; where the curve stands still, the way it leaves or arrives."""
    if isinstance(curve, Arc):
        square = math.copysign(math.pi / 2, curve.sweep)
        return math.remainder(curve.start_angle + curve.sweep * u + square, TURN)
    x, y = velocity(curve, u)
    if isinstance(curve, Cubic) and math.hypot(x, y) < 1e-9 * _spread(curve):
        x, y = _way(curve, u)
    return math.atan2(y, x)


def curvature(curve: Curve, u: float) -> float:
    """1 / radius at u [1/mm], positive to the left; infinite at a cusp."""
    if isinstance(curve, Line):
        return 0.0
    if isinstance(curve, Arc):
        return math.copysign(1 / curve.radius, curve.sweep)
    x, y = velocity(curve, u)
    ax, ay = _acceleration(curve, u)
    turning_rate, speed = x * ay - y * ax, math.hypot(x, y)
    if speed < 1e-9 * _spread(curve):
        straight = all(abs(curvature(curve, near)) < 1e-9 for near in (0.3, 0.7))
        return 0.0 if straight else math.copysign(math.inf, curvature(curve, 0.99 * u + 0.005))
    return turning_rate / speed**3


def turning(curve: Curve, first: float = 0.0, last: float = 1.0) -> float:
    """How far the heading turns from u = first to u = last [rad], left positive, turns counted."""
    if isinstance(curve, Line):
        return 0.0
    if isinstance(curve, Arc):
        return curve.sweep * (last - first)
    if isinstance(curve, EllipseArc) and curve.closed and (first, last) == (0.0, 1.0):
        return math.copysign(2 * math.pi, _bears(curve))
    angles = [heading(curve, first + (last - first) * i / STEPS) for i in range(STEPS + 1)]
    return sum(math.remainder(b - a, 2 * math.pi) for a, b in pairwise(angles))


def length(curve: Curve) -> float:
    """Length [mm]; of a whole ellipse by the complete elliptic integral."""
    if isinstance(curve, EllipseArc) and curve.closed:
        return ellipse_perimeter(math.hypot(*curve.major), math.hypot(*curve.minor))
    return curve.length()


def part(curve: Curve, first: float, last: float) -> Curve:
    """The stretch of a curve from u = first to u = last, of its own kind."""
    if (first, last) == (0.0, 1.0):
        return curve
    if isinstance(curve, Line):
        return Line(place(curve, first), place(curve, last))
    if isinstance(curve, Arc):
        start, sweep = curve.start_angle + curve.sweep * first, curve.sweep * (last - first)
        return Arc(curve.centre, curve.radius, start, sweep)
    if isinstance(curve, EllipseArc):
        start, sweep = curve.start_angle + curve.sweep * first, curve.sweep * (last - first)
        return EllipseArc(curve.centre, curve.major, curve.minor, start, sweep)
    return _cubic_part(_cubic(curve), first, last)


def rolled(curve: Curve, u: float) -> Curve:
    """A closed curve begun at u; a cubic loop stays as it is."""
    if isinstance(curve, Arc):
        first = curve.start_angle + curve.sweep * u
        return Arc(curve.centre, curve.radius, first, curve.sweep)
    if isinstance(curve, EllipseArc):
        first = curve.start_angle + curve.sweep * u
        return EllipseArc(curve.centre, curve.major, curve.minor, first, curve.sweep)
    return curve


def part_length(curve: Curve, first: float, last: float) -> float:
    """Length of a stretch [mm]."""
    if isinstance(curve, Line | Arc):
        return curve.length() * (last - first)
    return length(part(curve, first, last))


def at_length(curve: Curve, distance: float) -> float:
    """The u at which `distance` [mm] has been travelled from the start, 0 to the whole length."""
    whole = length(curve)
    guess = min(1.0, max(0.0, distance / whole)) if whole else 0.0
    if isinstance(curve, Line | Arc):
        return guess
    low, high = 0.0, 1.0
    for _ in range(60):
        short = distance - part_length(curve, 0.0, guess)
        if abs(short) < 1e-11 * whole:
            break
        low, high = (guess, high) if short > 0 else (low, guess)
        speed = math.hypot(*velocity(curve, guess))
        step = guess + short / speed if speed else math.inf
        guess = step if low < step < high else (low + high) / 2
    return guess


def reverse(curve: Curve) -> Curve:
    """The same curve travelled the other way."""
    if isinstance(curve, Line):
        return Line(curve.end, curve.start)
    if isinstance(curve, Arc):
        last = curve.start_angle + curve.sweep
        return Arc(curve.centre, curve.radius, last, -curve.sweep)
    if isinstance(curve, EllipseArc):
        last = curve.start_angle + curve.sweep
        return EllipseArc(curve.centre, curve.major, curve.minor, last, -curve.sweep)
    p0, p1, p2, p3 = _cubic(curve).controls
    return Cubic(p3, p2, p1, p0)


def fitted(curve: Curve, start: Point, end: Point) -> Curve:
    """The curve turned and scaled a hair so that it runs from `start` to `end` exactly."""
    if isinstance(curve, Line):
        return Line(start, end)
    before, after = complex(*curve.start), complex(*start)
    chord, wanted = complex(*curve.end) - before, complex(*end) - after
    if chord == 0 or wanted == 0:
        return curve
    factor = wanted / chord

    def moved(point: Point) -> Point:
        z = after + (complex(*point) - before) * factor
        return (z.real, z.imag)

    def turned(vector: Point) -> Point:
        z = complex(*vector) * factor
        return (z.real, z.imag)

    if isinstance(curve, Arc):
        angle = curve.start_angle + math.atan2(factor.imag, factor.real)
        return Arc(moved(curve.centre), curve.radius * abs(factor), angle, curve.sweep)
    if isinstance(curve, EllipseArc):
        axes = turned(curve.major), turned(curve.minor)
        return EllipseArc(moved(curve.centre), *axes, curve.start_angle, curve.sweep)
    _, control, control_end, _ = _cubic(curve).controls
    return Cubic(start, moved(control), moved(control_end), end)


def sharpest(curve: Curve, side: int, first: float = 0.0, last: float = 1.0) -> tuple[float, float]:
    """Greatest curvature towards a side (1 left, -1 right) [1/mm] between two u, and its u.

    It is negative where the stretch bears the other way all along.
    """
    if isinstance(curve, Line | Arc):
        return side * curvature(curve, first), (first + last) / 2

    def bend(u: float) -> float:
        return side * curvature(curve, u)

    if isinstance(curve, EllipseArc):
        stops = [u for u in _quarters(curve) if first < u < last]
        best = max((first, last, *stops), key=bend)
        return bend(best), best
    stops = [first + (last - first) * i / STEPS for i in range(STEPS + 1)]
    bends = [bend(u) for u in stops]
    at = max(range(len(stops)), key=bends.__getitem__)
    best = _peak(bend, stops[max(at - 1, 0)], stops[min(at + 1, STEPS)])
    best = max((best, stops[at]), key=bend)
    return bend(best), best


def _peak(function: Callable[[float], float], low: float, high: float) -> float:
    """Where a function with one hump is greatest, by golden section."""
    ratio = (math.sqrt(5) - 1) / 2
    a, b = high - ratio * (high - low), low + ratio * (high - low)
    at_a, at_b = function(a), function(b)
    for _ in range(40):
        if at_a > at_b:
            high, b, at_b = b, a, at_a
            a = high - ratio * (high - low)
            at_a = function(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + ratio * (high - low)
            at_b = function(b)
    return (low + high) / 2


def _quarters(curve: EllipseArc) -> list[float]:
    """The u of the ends of the axes within an arc of an ellipse."""
    ends = (curve.start_angle, curve.start_angle + curve.sweep)
    first, last = math.ceil(min(ends) / (math.pi / 2)), math.floor(max(ends) / (math.pi / 2))
    return [(k * math.pi / 2 - curve.start_angle) / curve.sweep for k in range(first, last + 1)]


def _axes(curve: Arc | EllipseArc) -> tuple[Point, Point]:
    if isinstance(curve, EllipseArc):
        return curve.major, curve.minor
    return (curve.radius, 0.0), (0.0, curve.radius)


def _bears(curve: EllipseArc) -> float:
    (ax, ay), (bx, by) = curve.major, curve.minor
    return (ax * by - ay * bx) * curve.sweep


def _cubic(curve: Curve) -> Cubic:
    if not isinstance(curve, Cubic):
        raise TypeError(f"no rule for a curve of the kind {type(curve).__name__}")
    return curve


def _steps(curve: Curve) -> tuple[Point, Point, Point]:
    p0, p1, p2, p3 = _cubic(curve).controls
    return _less(p1, p0), _less(p2, p1), _less(p3, p2)


def _less(a: Point, b: Point) -> Point:
    return (a[0] - b[0], a[1] - b[1])


def _acceleration(curve: Curve, u: float) -> Point:
    if isinstance(curve, EllipseArc):
        t, w = curve.start_angle + curve.sweep * u, curve.sweep**2
        c, s = math.cos(t), math.sin(t)
        (ax, ay), (bx, by) = curve.major, curve.minor
        return (-w * (ax * c + bx * s), -w * (ay * c + by * s))
    p, q, r = _steps(curve)
    first, second = _less(q, p), _less(r, q)
    return (
        6 * ((1 - u) * first[0] + u * second[0]),
        6 * ((1 - u) * first[1] + u * second[1]),
    )


def _spread(curve: Curve) -> float:
    if isinstance(curve, EllipseArc):
        return math.hypot(*curve.major) * abs(curve.sweep)
    return sum(math.hypot(*step) for step in _steps(curve))


def _way(curve: Cubic, u: float) -> Point:
    """The way a cubic leaves or arrives where its velocity is nothing."""
    p0, p1, p2, p3 = curve.controls
    tiny = 1e-9 * _spread(curve)
    leaving, arriving = (p1, p2, p3), (p2, p1, p0)
    ways = [_less(p, p0) for p in leaving] if u < 0.5 else [_less(p3, p) for p in arriving]
    return next((way for way in ways if math.hypot(*way) > tiny), ways[-1])


def _cubic_part(curve: Cubic, first: float, last: float) -> Cubic:
    """A stretch of a cubic by its ends and its velocities there."""
    start, end = place(curve, first), place(curve, last)
    (ax, ay), (bx, by) = velocity(curve, first), velocity(curve, last)
    third = (last - first) / 3
    return Cubic(
        start,
        (start[0] + ax * third, start[1] + ay * third),
        (end[0] - bx * third, end[1] - by * third),
        end,
    )
