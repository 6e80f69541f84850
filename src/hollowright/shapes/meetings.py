"""Where two lines or arcs meet, in closed form; a touch within a hair counts."""

from __future__ import annotations

import math

from hollowright.shapes.curves import TURN, Arc, Line, Point

Plain = Line | Arc
NEAR = 1e-7  # how far curves may miss each other and still touch [mm]


def meetings(a: Plain, b: Plain) -> list[tuple[float, float]]:
    """All meetings of two curves as (u on a, u on b), 0 to 1; none for curves that coincide."""
    found = []
    for point in _points(a, b):
        u, v = whereabouts(a, point), whereabouts(b, point)
        if u is not None and v is not None:
            found.append((u, v))
    return found


def whereabouts(curve: Plain, point: Point) -> float | None:
    """The u of a point that lies on a curve's line or circle; None when beyond its ends."""
    size = curve.length()
    if size == 0:
        return None
    if isinstance(curve, Line):
        (x0, y0), (x1, y1) = curve.start, curve.end
        u = ((point[0] - x0) * (x1 - x0) + (point[1] - y0) * (y1 - y0)) / size**2
    else:
        angle = math.atan2(point[1] - curve.centre[1], point[0] - curve.centre[0])
        way = math.copysign(1.0, curve.sweep)
        gone = way * (angle - curve.start_angle) % TURN
        if TURN - gone < NEAR / curve.radius:
            gone -= TURN
        u = gone / abs(curve.sweep)
    slack = NEAR / size
    return min(1.0, max(0.0, u)) if -slack <= u <= 1 + slack else None


def _points(a: Plain, b: Plain) -> list[Point]:
    if isinstance(a, Line):
        return _two_lines(a, b) if isinstance(b, Line) else _line_circle(a, b)
    return _line_circle(b, a) if isinstance(b, Line) else _two_circles(a, b)


def _two_lines(a: Line, b: Line) -> list[Point]:
    ax, ay = a.end[0] - a.start[0], a.end[1] - a.start[1]
    bx, by = b.end[0] - b.start[0], b.end[1] - b.start[1]
    under = ax * by - ay * bx
    if abs(under) <= 1e-12 * math.hypot(ax, ay) * math.hypot(bx, by):
        return []
    x, y = b.start[0] - a.start[0], b.start[1] - a.start[1]
    t = (x * by - y * bx) / under
    return [(a.start[0] + t * ax, a.start[1] + t * ay)]


def _line_circle(line: Line, arc: Arc) -> list[Point]:
    size = line.length()
    if size == 0:
        return []
    ux, uy = (line.end[0] - line.start[0]) / size, (line.end[1] - line.start[1]) / size
    x, y = arc.centre[0] - line.start[0], arc.centre[1] - line.start[1]
    foot, off = x * ux + y * uy, x * uy - y * ux
    near = (line.start[0] + foot * ux, line.start[1] + foot * uy)
    return _either_side(near, (ux, uy), arc.radius - abs(off), arc.radius + abs(off))


def _two_circles(a: Arc, b: Arc) -> list[Point]:
    dx, dy = b.centre[0] - a.centre[0], b.centre[1] - a.centre[1]
    apart = math.hypot(dx, dy)
    if apart <= 1e-12 * (a.radius + b.radius):
        return []
    ux, uy = dx / apart, dy / apart
    foot = (apart + (a.radius - b.radius) * (a.radius + b.radius) / apart) / 2
    foot = max(-a.radius - NEAR, min(a.radius + NEAR, foot)) if _touch(a, b, apart) else foot
    near = (a.centre[0] + foot * ux, a.centre[1] + foot * uy)
    return _either_side(near, (-uy, ux), a.radius - abs(foot), a.radius + abs(foot))


def _touch(a: Arc, b: Arc, apart: float) -> bool:
    outside = abs(apart - a.radius - b.radius)
    inside = abs(apart - abs(a.radius - b.radius))
    return min(outside, inside) < NEAR


def _either_side(near: Point, way: Point, short: float, long: float) -> list[Point]:
    """Points on both sides of a foot, at the square root of short x long; one where they touch."""
    if short < -NEAR:
        return []
    reach = math.sqrt(max(0.0, short * long))
    if reach < 1e-9:
        return [near]
    return [(near[0] + sign * reach * way[0], near[1] + sign * reach * way[1]) for sign in (-1, 1)]
