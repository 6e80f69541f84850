"""Area and first moments of what a closed chain of curves encloses, by Green's theorem, exact."""

from __future__ import annotations

import math
from collections.abc import Iterable

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Curve, EllipseArc, Line, Point

Coefficients = list[float]


def moments(curves: Iterable[Curve]) -> tuple[float, float, float]:
    """Area [mm2] and its moments, the integrals of x and of y [mm3]; area positive either way."""
    chain = tuple(curves)
    area = sum(curve.moment() for curve in chain)
    x = sum(_half_square_x(curve) for curve in chain)
    y = -sum(_half_square_x(_swapped(curve)) for curve in chain)
    sign = math.copysign(1.0, area)
    return (sign * area, sign * x, sign * y)


def _swapped(curve: Curve) -> Curve:
    """The curve with x and y changed over."""
    if isinstance(curve, Line):
        return Line(_flip(curve.start), _flip(curve.end))
    if isinstance(curve, Cubic):
        return Cubic(*(_flip(point) for point in curve.controls))
    centre, major, minor, start, sweep = _as_ellipse(curve)
    return EllipseArc(_flip(centre), _flip(major), _flip(minor), start, sweep)


def _flip(point: Point) -> Point:
    return (point[1], point[0])


def _as_ellipse(curve: Curve) -> tuple[Point, Point, Point, float, float]:
    if isinstance(curve, Arc):
        across, up = (curve.radius, 0.0), (0.0, curve.radius)
        return (curve.centre, across, up, curve.start_angle, curve.sweep)
    if isinstance(curve, EllipseArc):
        return (curve.centre, curve.major, curve.minor, curve.start_angle, curve.sweep)
    raise TypeError(f"no rule for a curve of the kind {type(curve).__name__}")


def _half_square_x(curve: Curve) -> float:
    """Half the integral of x2 dy along a curve."""
    if isinstance(curve, Line):
        (x0, y0), (x1, y1) = curve.start, curve.end
        return (x0 * x0 + x0 * x1 + x1 * x1) * (y1 - y0) / 6
    if isinstance(curve, Cubic):
        xs, ys = (_powers([point[axis] for point in curve.controls]) for axis in (0, 1))
        rate = [k * c for k, c in enumerate(ys)][1:]
        return _integral(_product(_product(xs, xs), rate)) / 2
    return _elliptic(*_as_ellipse(curve)) / 2


def _elliptic(centre: Point, major: Point, minor: Point, start: float, sweep: float) -> float:
    """Integral of x2 dy with x = cx + ax c + bx s and dy = (by c - ay s) dt."""
    cx, (ax, ay), (bx, by) = centre[0], major, minor
    low, high = _trig(start), _trig(start + sweep)
    c, s, cc, cs, ss, ccc, ccs, css, sss = (b - a for a, b in zip(low, high, strict=True))
    with_c = cx * cx * c + 2 * cx * (ax * cc + bx * cs) + ax * ax * ccc
    with_c += 2 * ax * bx * ccs + bx * bx * css
    with_s = cx * cx * s + 2 * cx * (ax * cs + bx * ss) + ax * ax * ccs
    with_s += 2 * ax * bx * css + bx * bx * sss
    return by * with_c - ay * with_s


def _trig(t: float) -> tuple[float, ...]:
    """Integrals of c, s, c2, cs, s2, c3, c2s, cs2, s3 (c = cos t, s = sin t) from 0."""
    c, s = math.cos(t), math.sin(t)
    return (
        s,
        -c,
        (t + s * c) / 2,
        s * s / 2,
        (t - s * c) / 2,
        s - s**3 / 3,
        -(c**3) / 3,
        s**3 / 3,
        c**3 / 3 - c,
    )


def _powers(controls: list[float]) -> Coefficients:
    """Coefficients by powers of t of a cubic given by its controls."""
    a, b, c, d = controls
    return [a, 3 * (b - a), 3 * (c - 2 * b + a), d - 3 * c + 3 * b - a]


def _product(p: Coefficients, q: Coefficients) -> Coefficients:
    found = [0.0] * (len(p) + len(q) - 1)
    for i, a in enumerate(p):
        for j, b in enumerate(q):
            found[i + j] += a * b
    return found


def _integral(p: Coefficients) -> float:
    return sum(c / (k + 1) for k, c in enumerate(p))
